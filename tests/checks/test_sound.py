"""The sound frame: no check finds a fault, and every check looks at something."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from flatpack.checks import CHECKS, Limits, Setting, run
from flatpack.finding import Finding, in_order
from flatpack.model import Assembly


def faults(found: tuple[Finding, ...]) -> list[tuple[str, str, str]]:
    return [(f.code, f.part, f.message) for f in found if f.severity == "fault"]


def test_sound_frame_has_no_fault(frame: Assembly) -> None:
    assert faults(run(frame)) == []
    assert [f for f in run(frame) if f.severity == "not done"] == []


def test_same_piece_same_findings_in_order(frame: Assembly) -> None:
    first, second = run(frame), run(frame)
    assert first == second == in_order(first)


@pytest.mark.parametrize("name", CHECKS)
def test_each_check_can_run_alone(frame: Assembly, name: str) -> None:
    assert faults(run(frame, only=(name,))) == []


@pytest.mark.parametrize("name", ["alignment", "mates", "space", "drivers", "walls", "webs"])
def test_bare_piece_gives_no_faults(unmade: Assembly, name: str) -> None:
    """Without joints worked there is nothing to find but shared room: the rod in the rails."""
    found = {f.code for f in run(unmade, only=(name,)) if f.severity == "fault"}
    assert found == {"space": {"shared-space"}, "alignment": {"hole-missing"}}.get(name, set())


def test_limits_can_be_handed_in(frame: Assembly) -> None:
    from flatpack.checks import Limit

    strict = run(frame, Limits(wall_least=Limit(50.0, "a test")), only=("walls",))
    assert {(f.code, f.source) for f in strict if f.severity == "fault"} == {
        ("hole-wall", "a test")
    }


def test_every_limit_names_its_source() -> None:
    limits = Limits()
    for name in Limits._fields:
        limit = getattr(limits, name)
        assert limit.source, name
        assert limit.value > 0.0, name


def test_parts_alike_are_told_once(frame: Assembly, changed: Callable[..., Assembly]) -> None:
    from flatpack.geometry.shapes import rectangle

    piece = frame
    for key in ("leg-left", "leg-right"):
        piece = changed(piece, key, outline=rectangle(3000.0, 70.0))
    found = [f for f in run(piece, only=("boards",)) if f.code == "larger-than-sheet"]
    assert [f.part for f in found] == ["leg-left", "leg-right"]
    assert {p.name for p, _ in Setting(frame, Limits()).distinct} == {
        "Side rail",
        "Leg",
        "end-rail",
        "Slat",
    }
