"""A lounger on wheels, tipped to roll."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from flatpack import checks
from flatpack.geometry import Frame, Vec
from flatpack.model import Assembly
from flatpack.parameters import replace as with_keys
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load


@pytest.fixture(scope="module")
def wheeled() -> Assembly:
    family, profiles = PIECES["lounger"], load(profile_texts())
    record = family.record()
    return family.build(with_keys(record, wheels=with_keys(record.wheels, use=True)), profiles)


def moved_axle(piece: Assembly, dx: float, dz: float) -> Assembly:
    axle = piece.bars["axle"]
    at = axle.frame.origin
    frame = Frame(Vec(at.x + dx, at.y, at.z + dz), axle.frame.x, axle.frame.y, axle.frame.z)
    return replace(piece, bars={**piece.bars, "axle": replace(axle, frame=frame)})


def codes(piece: Assembly) -> set[str]:
    return {f.code for f in checks.run(piece, only=("rolling",))}


def test_the_default_rolls_freely(wheeled: Assembly) -> None:
    assert codes(wheeled) == set()


def test_an_axle_too_far_in_lets_the_rail_scrape(wheeled: Assembly) -> None:
    found = checks.run(moved_axle(wheeled, -700.0, 0.0), only=("rolling",))
    assert [f.code for f in found] == ["scrapes-when-rolled"]
    # by hand: the rail's lower corner turns down about the axle until it reaches the ground
    axle, rail = wheeled.bars["axle"].frame.origin, wheeled.parts["rail-left"]
    leg = wheeled.parts["leg-head-left"]
    places = [leg.frame.place(x, y, 0.0) for x, y in leg.outline.sampled(0.05)] + [
        rail.frame.place(rail.length, 0.0, 0.0)
    ]
    turned = []
    for step in range(1, 90000):
        a = math.radians(step / 1000.0)
        low = min(
            axle.z + (p.z - axle.z) * math.cos(a) - (p.x - axle.x + 700.0) * math.sin(a)
            for p in places
        )
        if low <= 0.0:
            turned.append(step / 1000.0)
            break
    assert found[0].measured == pytest.approx(turned[0], abs=0.2)


def test_an_axle_at_another_height_isnt_level(wheeled: Assembly) -> None:
    assert "wheels-not-level" in codes(moved_axle(wheeled, 0.0, 2.0))
