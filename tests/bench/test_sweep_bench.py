"""How long a full sweep of a lounger takes: 25 bodies, the whole travel.

    python -m pytest tests/bench/test_sweep_bench.py --benchmark-enable --benchmark-only

Aimed at: travel and sweep together under 50 ms.  These are figures, not conditions.
"""

from __future__ import annotations

import math

from flatpack.geometry import Point, chain, closed
from flatpack.mechanism.bodies import Body, Carrier, arm_outline, disc, oblong, rod_body
from flatpack.mechanism.hinge_joint import HingeJoint, joint_remedies, largest_angle
from flatpack.mechanism.locus import locus
from flatpack.mechanism.path import travel
from flatpack.mechanism.prop import Prop, rod_at
from flatpack.mechanism.sweep import Clearance, sweep

PROP = Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0)
FLOOR, TIP = -83.0, -68.0


def contour() -> list[tuple[float, float]]:
    corners = [(100.0, FLOOR)]
    for degrees in (65.0, 50.0, 35.0, 20.0):
        seat = rod_at(PROP, degrees, FLOOR + 11.0)
        assert isinstance(seat, Point)
        face = seat.x + 11.0
        corners += [(face, FLOOR), (face, TIP), (face + 4.0, TIP), (face + 19.0, FLOOR)]
    return [*corners, (780.0, FLOOR)]


def lounger() -> tuple[Body, ...]:
    frame, back, arm = Carrier.FRAME, Carrier.BACK, Carrier.ARM
    rack = closed(
        [(100.0, -120.0, 0.0), (780.0, -120.0, 0.0), *((x, y, 0.0) for x, y in contour()[::-1])]
    )
    deck = tuple(oblong(-90.0 - 81.0 * i, 3.0, -15.0 - 81.0 * i, 21.0) for i in range(12))
    slats = tuple(oblong(14.0 + 81.0 * i, 3.0, 89.0 + 81.0 * i, 21.0) for i in range(9))
    bodies = [
        Body(name="deck slats", outlines=deck, lane=(-300.0, 300.0), carrier=frame),
        Body(name="back slats", outlines=slats, lane=(-262.0, 262.0), carrier=back),
        Body(
            name="ground",
            outlines=(oblong(-1300.0, -400.0, 900.0, -330.0),),
            lane=(-400.0, 400.0),
            carrier=Carrier.GROUND,
        ),
        rod_body(22.0, (-281.0, 281.0)),
    ]
    across = {"hinge rail": (-40.0, -77.0, -4.0, 3.0), "head rail": (782.0, -117.0, 800.0, 3.0)}
    bodies += [
        Body(name=name, outlines=(oblong(*box),), lane=(-282.0, 282.0), carrier=frame)
        for name, box in across.items()
    ]
    by_hand = {
        "side rail": (oblong(-1200.0, -117.0, 800.0, 3.0), (282.0, 300.0), frame),
        "rack": (rack, (264.0, 282.0), frame),
        "head leg": (oblong(700.0, -330.0, 740.0, 3.0), (282.0, 300.0), frame),
        "foot leg": (oblong(-1100.0, -330.0, -1060.0, 3.0), (282.0, 300.0), frame),
        "wheel": (disc(Point(-1000.0, -240.0), 90.0), (300.0, 330.0), frame),
        "packer": (oblong(-30.0, -117.0, 90.0, -90.0), (236.0, 264.0), frame),
        "brace": (oblong(15.0, -52.0, 700.0, 3.0), (215.0, 233.0), back),
        "arm": (arm_outline(365.0, 44.0), (236.0, 254.0), arm),
        "bolt head": (disc(Point(0.0, 0.0), 10.0), (254.0, 260.0), arm),
    }
    for name, (outline, (low, high), carrier) in by_hand.items():
        for hand, lane in (("left", (low, high)), ("right", (-high, -low))):
            bodies.append(
                Body(name=f"{hand} {name}", outlines=(outline,), lane=lane, carrier=carrier)
            )
    return tuple(bodies)


TOUCHING = frozenset(frozenset(("rod", f"{hand} rack")) for hand in ("left", "right"))


def swept() -> list[float]:
    bodies = lounger()
    rack = locus(chain([(x, y, 0.0) for x, y in contour()]), 11.0)
    seat = rod_at(PROP, 65.0, FLOOR + 11.0)
    assert isinstance(seat, Point)
    path = travel(PROP, rack, 65.0, seat)
    found = sweep(bodies, path, touching=TOUCHING)
    assert all(isinstance(f, Clearance) for f in found), found
    return [f.least for f in found if isinstance(f, Clearance) and not f.beyond]


def test_full_sweep(benchmark) -> None:
    assert len(lounger()) == 24
    gaps = benchmark(swept)
    assert min(gaps) >= 0.0
    assert len(gaps) >= 8


def test_largest_angle(benchmark) -> None:
    joint = HingeJoint.mid_gap(24.0, 18.0, 3.0)
    found = benchmark(largest_angle, joint)
    assert math.isclose(found, 2.0 * math.degrees(math.atan(12.0 / 21.0)), abs_tol=1e-9)


def test_remedies(benchmark) -> None:
    found = benchmark(joint_remedies, 65.0, HingeJoint.mid_gap(24.0, 18.0, 3.0))
    assert any(f.enough for f in found)
