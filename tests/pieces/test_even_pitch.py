"""Notches at an even pitch: the rack is even, and no arm or pivot nearby does better."""

from __future__ import annotations

import itertools
import math

import pytest

from flatpack.geometry import Point
from flatpack.mechanism.prop import Prop, pivot_at
from flatpack.parameters import replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

LOUNGER = PIECES["lounger"]


@pytest.fixture(scope="module")
def even():
    profiles, record = load(profile_texts()), LOUNGER.record()
    record = replace(record, rack=replace(record.rack, pitch=110.0))
    assert list(LOUNGER.conflicts(record, profiles)) == []
    return LOUNGER.build(record, profiles).motion


def test_the_notches_are_evenly_spaced(even) -> None:
    places = [n.x for n in even.notches]
    assert [a - b for a, b in itertools.pairwise(places)] == pytest.approx([110.0] * 3, abs=1e-6)


def angle(prop: Prop, rod: Point) -> float:
    """The back's angle by halving: the pivot comes nearer the rod's far side as the back rises."""
    low, high = 0.0, 80.0
    for _ in range(60):
        middle = (low + high) / 2.0
        p = pivot_at(prop, middle)
        far = math.dist(p, rod) > prop.arm
        low, high = (low, middle) if far else (middle, high)
    return low


def missed(even, dx: float, da: float, dn: float) -> float:
    """Sum of squared errors of the angles with the pivot, arm and first notch shifted."""
    prop = Prop(pivot=Point(even.pivot.x + dx, even.pivot.y), arm=even.arm + da, rod=even.rod)
    rods = [Point(n.x + dn, n.y) for n in even.notches]
    return sum((angle(prop, r) - w) ** 2 for r, w in zip(rods, even.wanted, strict=True))


def test_nothing_nearby_comes_closer(even) -> None:
    """Shifts that keep the folded rod in its place: a longer arm goes with a nearer pivot."""
    best = missed(even, 0.0, 0.0, 0.0)
    drop = even.pivot.y - even.folded.y
    for dx in (-4.0, -1.0, 1.0, 4.0):
        reach = even.folded.x - even.pivot.x - dx
        da = math.hypot(reach, drop) - even.arm
        for dn in (-2.0, 0.0, 2.0):
            assert missed(even, dx, da, dn) >= best - 1e-6
