"""One number of each example's moving back broken: the right finding, and a remedy that works.

A finding's `tries` are applied to the record, the piece is built and judged again: the finding
must be gone, and with it every fault.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

import pytest

from flatpack import checks
from flatpack.finding import Finding
from flatpack.mending import mended
from flatpack.model import Assembly
from flatpack.pieces import PIECES
from flatpack.profiles import Profiles

LOUNGERS = ("orchard-lounger", "pond-lounger", "seedling-lounger")
SHORT, LOW, NARROW = 10.0, 10.0, 4.0
Make = Callable[..., Assembly]
Keys = Mapping[str, object]
Judge = Callable[[str, Keys], tuple[Finding, ...]]


@pytest.fixture(scope="module")
def judged(profiles: Profiles, record_of: Callable[..., tuple[str, Any]]) -> Judge:
    """Findings of an example with some keys changed; refused changes give a fault `refused`."""

    @cache
    def judge(name: str, keys: tuple[tuple[str, object], ...]) -> tuple[Finding, ...]:
        family, record = record_of(name, dict(keys))
        refused = list(PIECES[family].conflicts(record, profiles))
        if refused:
            return tuple(Finding("refused", "fault", c.key, c.message) for c in refused)
        return checks.run(PIECES[family].build(record, profiles))

    return lambda name, keys: judge(name, tuple(sorted(keys.items())))


def as_cut(whole: Assembly) -> dict[str, object]:
    """Everything made as it was drawn: pivot, arm, and racks."""
    motion = whole.motion
    assert motion is not None
    return {
        "as_made.pivot": motion.pivot.x,
        "as_made.pivot_below": motion.axis_depth - motion.pivot.y,
        "as_made.arm": motion.arm,
        "as_made.notches": tuple(seat.x for seat in motion.notches),
    }


def arm_short_as_made(whole: Assembly) -> dict[str, object]:
    keys = as_cut(whole)
    return {**keys, "as_made.arm": float(str(keys["as_made.arm"])) - SHORT}


def arm_short_as_asked(whole: Assembly) -> dict[str, object]:
    assert whole.motion is not None
    return {"arms.length": whole.motion.arm - SHORT}


def pivot_low(whole: Assembly) -> dict[str, object]:
    keys = as_cut(whole)
    return {**keys, "as_made.pivot_below": float(str(keys["as_made.pivot_below"])) + LOW}


def gap_narrow(whole: Assembly) -> dict[str, object]:
    assert whole.motion is not None
    return {"hinge.gap": whole.motion.gap - NARROW}


BREAKS: Mapping[str, tuple[Callable[[Assembly], dict[str, object]], str, int | None]] = {
    "arm short as made": (arm_short_as_made, "stop-angle", None),
    "arm short as asked": (arm_short_as_asked, "stop-missed", 1),
    "pivot low": (pivot_low, "stop-angle", None),
    "gap narrow": (gap_narrow, "hinge-gap", 1),
}
"""What is broken -> how, the finding that must come, and how often (None: once a stop)."""

each_break = pytest.mark.parametrize("broken", BREAKS)
each_lounger = pytest.mark.parametrize("name", LOUNGERS)


@each_lounger
def test_as_cut_is_as_designed(piece: Make, judged: Judge, name: str) -> None:
    """The measures on the sheets, keyed back in, give the same piece."""
    keys = as_cut(piece(name))
    assert {f.code for f in judged(name, keys) if f.severity != "note"} == {"finger-trap"}
    before, after = piece(name).motion, piece(name, keys).motion
    assert before is not None
    assert after is not None
    for one, other in zip(before.notches, after.notches, strict=True):
        assert one == pytest.approx(other, abs=1e-6)


@each_break
@each_lounger
def test_the_right_finding_comes(piece: Make, judged: Judge, name: str, broken: str) -> None:
    how, code, often = BREAKS[broken]
    whole = piece(name)
    told = [f for f in judged(name, how(whole)) if f.code == code]
    assert whole.motion is not None
    assert len(told) == (often or len(whole.motion.wanted))
    assert not [f for f in judged(name, {}) if f.code == code]


@each_break
@each_lounger
def test_its_remedy_removes_it_and_brings_no_fault(
    piece: Make, judged: Judge, name: str, broken: str
) -> None:
    how, code, _ = BREAKS[broken]
    keys = how(piece(name))
    for finding in judged(name, keys):
        if finding.code == code:
            assert any(mends(judged, name, keys, finding, t) for t in finding.tries), finding


def mends(
    judged: Judge, name: str, keys: Keys, finding: Finding, change: tuple[str, object]
) -> bool:
    path, value = change
    after = judged(name, {**keys, path: value})
    same = [f for f in after if (f.code, f.part) == (finding.code, finding.part)]
    return not same and not [f for f in after if f.severity == "fault"]


@each_lounger
def test_a_change_that_is_no_remedy_is_told_apart(piece: Make, judged: Judge, name: str) -> None:
    keys = gap_narrow(piece(name))
    (finding,) = (f for f in judged(name, keys) if f.code == "hinge-gap")
    narrower = float(str(keys["hinge.gap"])) - 1.0
    assert not mends(judged, name, keys, finding, ("hinge.gap", narrower))
    assert not mends(judged, name, keys, finding, ("back.push", 400.0))


@each_lounger
def test_a_change_out_of_range_is_not_tried(
    record_of: Callable[..., tuple[str, Any]], judged: Judge, name: str
) -> None:
    (one, *_) = judged(name, {})
    tries = (("arms.width", -15.0), ("hinge.gap", 500.0), ("back.angles", (1.0, 99.0)))
    asked = one._replace(tries=tries, remedy="as it was")
    _, record = record_of(name)

    def judge(_: Any) -> tuple[Finding, ...]:
        raise AssertionError("tried")

    assert mended((asked,), record, judge)[0].remedy == "as it was"


@each_lounger
def test_arm_short_measured_by_hand(piece: Make, judged: Judge, name: str) -> None:
    """Each stop's angle from its triangle: sides pivot, arm, and hinge to rod, cosine rule.

    The rod lies in the same notch, so hinge to rod is as before; only the arm is 10 shorter.  In
    a round seat the thrust, turned by a degree or two, shifts the rod a few hundredths within its
    0.5 of slack.
    """
    whole = piece(name)
    motion = whole.motion
    assert motion is not None
    rho = math.hypot(*motion.pivot)
    lean = math.degrees(math.atan2(motion.pivot.y, motion.pivot.x))
    told = [f for f in judged(name, arm_short_as_made(whole)) if f.code == "stop-angle"]
    measured = sorted(f.measured or 0.0 for f in told)
    for found, rod in zip(measured, motion.notches, strict=True):
        away, arm = math.hypot(*rod), motion.arm - SHORT
        cosine = (rho * rho + away * away - arm * arm) / (2.0 * rho * away)
        below = math.degrees(math.atan2(-rod.y, rod.x))
        by_hand = math.degrees(math.acos(cosine)) - below - lean
        assert found == pytest.approx(by_hand, abs=0.1 if name == "pond-lounger" else 0.006)
