"""Each file in valid/ and invalid/ is a case, with what must come of it beside it.

valid/NAME.expected lists lines that the canonical text must hold (none: exactly the defaults);
invalid/NAME.expected is the whole error text, and so the statement of what a maker reads; one that
ends in "..." is its beginning, where the rest are the TOML reader's own words.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from flatpack.errors import FlatpackError, ParameterErrors
from flatpack.parameters import canonical, read, read_design

HERE = Path(__file__).parent


def cases(folder: str) -> list[str]:
    return sorted(path.stem for path in (HERE / folder).glob("*.toml"))


def source(folder: str, name: str) -> str:
    return (HERE / folder / f"{name}.toml").read_bytes().decode()


@pytest.mark.parametrize("name", cases("valid"))
def test_valid(name, family):
    record = read(
        family.families,
        source("valid", name),
        f"{name}.toml",
        known=family.known,
        checks=family.checks,
    )
    expected = HERE / "valid" / f"{name}.expected"
    if expected.exists():
        rows = canonical(record).splitlines()
        for line in expected.read_text().splitlines():
            assert line in rows
    else:
        assert record == family.Shelf()


@pytest.mark.parametrize("name", cases("invalid"))
def test_invalid(name, family):
    with pytest.raises(FlatpackError) as caught:
        read(
            family.families,
            source("invalid", name),
            f"{name}.toml",
            known=family.known,
            checks=family.checks,
        )
    expected = (HERE / "invalid" / f"{name}.expected").read_text().removesuffix("\n")
    if expected.endswith("..."):
        assert str(caught.value).startswith(expected.removesuffix("..."))
    else:
        assert str(caught.value) == expected


def test_family_name_comes_with_the_record(family):
    design = read_design(family.families, 'family = "shelf"', "a.toml")
    assert (design.family, design.record) == ("shelf", family.Shelf())


def test_without_known_names_a_profile_is_not_judged(family):
    record = read(family.families, 'family = "shelf"\nscrew = "any"', "a.toml")
    assert record.screw == "any"


def test_conflicts_are_not_sought_in_a_file_with_other_faults(family):
    def never(record):
        raise AssertionError("a half-read record must not be checked")

    with pytest.raises(ParameterErrors):
        read(family.families, 'family = "shelf"\nload = -1', "a", checks={"shelf": never})


def test_fault_is_plain_data(family):
    with pytest.raises(ParameterErrors) as caught:
        read(family.families, 'family = "shelf"\n\nloud = 3', "a.toml")
    (fault,) = caught.value.faults
    assert (fault.file, fault.line, fault.key, fault.value) == ("a.toml", 3, "loud", "3")
    assert fault.nearest == '"load"'


def test_line_ends_and_byte_order_mark_of_another_system(family):
    record = read(family.families, '\ufefffamily = "shelf"\r\nload = 30\r\n', "a.toml")
    assert record.load == 30.0
    with pytest.raises(ParameterErrors) as caught:
        read(family.families, '\ufefffamily = "shelf"\r\n\r\nload = 300\r\n', "a.toml")
    assert caught.value.faults[0].line == 3
