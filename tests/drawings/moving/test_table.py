"""The table of stops against the piece's own geometry, the mechanism, and statics by hand."""

from __future__ import annotations

import math

import pytest

from flatpack.drawings.moving.facts import notch_at, stop_facts
from flatpack.geometry import Point
from flatpack.model import posed
from flatpack.wording import english_moving as words


def column(made, name):
    table = made.sheets["lists/stops.csv"]
    number = table.header.index(name)
    return [row[number] for row in table.rows]


def notches(assembly, hand):
    """Rods' centres as the racks themselves are drawn and drilled."""
    return [
        f.at
        for part in assembly.parts.values()
        if part.hand == hand
        for f in part.features
        if f.key()[0] == "notch"
    ]


@pytest.mark.parametrize("hand", ["left", "right"])
def test_rods_stand_where_the_racks_have_their_notches(made, hand):
    wanted = notches(made.assembly, hand)
    xs = column(made, f"rack {hand}, x from datum end")
    ys = column(made, f"rack {hand}, y from datum edge")
    assert len(xs) == len(wanted) == len(made.study.motion.wanted)
    for x, y, at in zip(xs, ys, wanted, strict=True):
        assert (x, y) == (pytest.approx(at.x, abs=0.051), pytest.approx(at.y, abs=0.051))


def wanted_of(record):
    """The angles in the parameter file, of a back or of a lid."""
    return (record.back if hasattr(record, "back") else record.lid).angles


def test_angles_are_the_wanted_ones_and_the_mechanisms(made):
    angles = column(made, "angle")
    assert column(made, "angle wanted") == sorted(wanted_of(made.record))
    assert angles == [round(s.angle, 2) for s in made.study.found.stops]
    assert angles == pytest.approx(sorted(wanted_of(made.record)), abs=0.01)
    assert column(made, "as made, low") == [round(s.low, 2) for s in made.study.spreads]
    assert column(made, "as made, high") == [round(s.high, 2) for s in made.study.spreads]


def test_arm_reaches_from_pivot_to_rod_at_the_angle(made):
    # By hand: the pivot's circle about the hinge, the arm's length, Pythagoras.
    m = made.study.motion
    ends = {p.hand: p.frame for p in made.assembly.parts.values()
            if p.key in ("rack-left", "bearer-left")}  # fmt: skip
    for angle, x, y in zip(
        column(made, "angle"),
        column(made, "rack left, x from datum end"),
        column(made, "rack left, y from datum edge"),
        strict=True,
    ):
        at = ends["left"].place(x, y)
        turn = math.radians(angle)
        px = m.pivot.x * math.cos(turn) - m.pivot.y * math.sin(turn)
        py = m.pivot.x * math.sin(turn) + m.pivot.y * math.cos(turn)
        assert math.hypot(at.x - m.axis.x - px, at.z - m.axis.z - py) == pytest.approx(
            m.arm, abs=0.15
        )


def test_thrust_by_moments_about_the_hinge(made):
    # By hand: push x its lever = 2 arms' thrust x the arm's distance from the hinge.
    m = made.study.motion
    for stop, thrust in zip(made.study.found.stops, column(made, "thrust per arm N"), strict=True):
        pose = posed(made.assembly, stop.angle, stop.rod)
        arm = pose.parts["arm-left"].frame
        hub = arm.origin.minus(m.axis)
        lever = abs(hub.x * arm.x.z - hub.z * arm.x.x)
        assert m.push * m.push_along / lever / 2.0 == pytest.approx(thrust, abs=0.06)


def test_lean_is_the_arms_slope_and_the_drop_ends_at_the_stop_below(made):
    for stop, lean in zip(made.study.found.stops, column(made, "lean from upright"), strict=True):
        arm = posed(made.assembly, stop.angle, stop.rod).parts["arm-left"].frame
        assert math.degrees(math.acos(abs(arm.x.z))) == pytest.approx(lean, abs=0.006)
    angles, falls = column(made, "angle"), column(made, "falls to")
    assert falls == pytest.approx([0.0, *angles[:-1]], abs=0.011)
    drops = column(made, "drop if knocked")
    assert [a - f for a, f in zip(angles, falls, strict=True)] == pytest.approx(drops, abs=0.011)


def test_short_rows_say_the_same(made):
    header = made.page.table.header
    shown = [dict(zip(header, row, strict=True)) for row in made.page.table.rows]
    for row, angle, x in zip(
        shown, column(made, "angle"), column(made, "rack left, x from datum end"), strict=True
    ):
        assert float(row["angle °"]) == pytest.approx(angle, abs=0.051)
        assert float(row["rod x datum end"]) == pytest.approx(x, abs=0.051)


def test_a_seat_that_nobody_set_out_has_no_number(made):
    assert notch_at(made.study, Point(5000.0, 0.0)) == 0
    facts = stop_facts(made.assembly, made.study)
    assert [f.notch for f in facts] == list(range(1, len(facts) + 1))


def test_csv_has_every_column(made):
    text = made.files["lists/stops.csv"].decode("utf-8-sig")
    lines = text.split("\r\n")
    assert len(lines) == len(made.study.found.stops) + len(made.study.found.passed) + 2
    assert "thrust per arm N" in lines[0]
    assert words.passed("arm too short", "1.0") == "no stop: arm too short, by 1.0"
