"""Families of other people's packages: after the shipped ones, told by package when broken."""

from __future__ import annotations

from typing import Any

import pytest

from flatpack import job, pieces
from flatpack.__main__ import main
from flatpack.errors import FamilyError
from flatpack.pieces import PIECES, Family
from flatpack.pieces.registry import Families, Offer
from flatpack.profile_files import profile_texts

BENCH = PIECES["bench"]


def hutch(**changes: Any) -> Family:
    return BENCH._replace(key="hutch", title="Hutch")._replace(**changes)


def offered(*offers: Offer) -> Families:
    return Families({"bench": lambda: BENCH}, lambda: offers)


def test_they_come_after_the_shipped_ones_with_their_package() -> None:
    found = offered(Offer("hutch", "hutches 1.2", hutch), Offer("ark", "arks 2", hutch))
    assert list(found) == ["bench", "ark", "hutch"]
    assert found["hutch"].package == "hutches 1.2"
    assert found["hutch"].record is BENCH.record
    assert found["bench"].package == ""
    assert found.packages() == ("arks 2", "hutches 1.2")
    assert "hutch" in found
    assert "shed" not in found
    with pytest.raises(KeyError):
        found["shed"]


def broken() -> Family:
    raise ImportError("no module named hinges\nanywhere")


@pytest.mark.parametrize(
    ("thing", "reason"),
    [
        (broken, "can't be loaded: ImportError: no module named hinges anywhere"),
        (lambda: 7, "its entry gives no flatpack.pieces.Family"),
        (lambda: BENCH, "it calls itself 'bench': entry and family must have one name"),
        (lambda: hutch(record=dict), "its record isn't one of flatpack.parameters.record"),
    ],
)
def test_a_broken_package_is_named(thing: Any, reason: str) -> None:
    found = offered(Offer("hutch", "hutches 1.2", lambda: thing))
    with pytest.raises(FamilyError) as raised:
        found["hutch"]
    assert str(raised.value) == f'family "hutch" of hutches 1.2: {reason}'
    assert [str(e) for e in found.refused()] == [str(raised.value)]
    assert list(found.sound()) == ["bench"]


def test_a_package_that_fails_while_it_builds_is_named() -> None:
    def fails(*_: object) -> Any:
        return {}["leg"]

    found = offered(Offer("hutch", "hutches 1.2", lambda: hutch(build=fails, conflicts=fails)))
    for work in (found["hutch"].build, found["hutch"].conflicts):
        with pytest.raises(FamilyError, match=r"of hutches 1\.2: fails with KeyError: 'leg'"):
            work(None, None)  # type: ignore[arg-type]  # never looked at


def test_two_packages_of_one_name_and_one_of_a_shipped_name() -> None:
    found = offered(
        Offer("hutch", "hutches 1.2", hutch), Offer("hutch", "arks 2", hutch),
        Offer("bench", "better 9", lambda: BENCH),
    )  # fmt: skip
    assert found["bench"].package == ""
    with pytest.raises(FamilyError, match=r"of arks 2 and hutches 1\.2: both offer"):
        found["hutch"]
    assert sorted(str(e).partition(":")[0] for e in found.refused()) == [
        'family "bench" of better 9', 'family "hutch" of arks 2 and hutches 1.2',
    ]  # fmt: skip


@pytest.fixture
def with_offers(monkeypatch: pytest.MonkeyPatch) -> Any:
    def put(*offers: Offer) -> None:
        found = offered(*offers)
        for module in (pieces, job):
            monkeypatch.setattr(module, "PIECES", found)

    return put


def test_list_tells_broken_ones_and_goes_on(with_offers: Any, capsys: Any) -> None:
    with_offers(
        Offer("hutch", "hutches 1.2", broken), Offer("ark", "arks 2", lambda: hutch(key="ark"))
    )
    assert main(["list", "families"]) == 2
    out, err = capsys.readouterr()
    assert [line.split()[-2:] for line in out.splitlines() if "ark" in line] == [["arks", "2"]]
    assert "hutches 1.2: can't be loaded" in err
    assert "Traceback" not in err


def test_check_with_a_broken_family_has_no_traceback(
    with_offers: Any, tmp_path: Any, capsys: Any
) -> None:
    with_offers(Offer("hutch", "hutches 1.2", broken))
    file = tmp_path / "hutch.toml"
    file.write_text('family = "hutch"\n', encoding="utf-8")
    assert main(["check", str(file)]) == 2
    assert 'family "hutch" of hutches 1.2: can\'t be loaded' in capsys.readouterr().err


def test_content_code_counts_the_packages_version(with_offers: Any) -> None:
    codes = set()
    for version in ("1.2", "1.3"):
        with_offers(Offer("hutch", f"hutches {version}", hutch))
        codes.add(job.design('family = "hutch"\n', "x.toml", profile_texts()).code)
    assert len(codes) == 2
