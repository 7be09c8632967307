"""Pieces of many kinds: each gets a full report, and each load is where it should be."""

from __future__ import annotations

import math

import pytest

from flatpack.parameters import BoardChoice
from flatpack.strength import findings
from tests.strength.conftest import Made

VARIANTS = [
    ("lounger", {"rack__kind": "blocks"}),
    ("lounger", {"wheels__use": True}),
    ("lounger", {"boards__timber": BoardChoice("pine-28")}),
    ("lounger", {"boards__timber": BoardChoice("ply-3-4-in")}),
    ("lounger", {"size__width": 1000.0}),
    ("lounger", {"back__angles": (20.0,)}),
    ("bench", {"construction": "knock-down"}),
    ("bench", {"arms__use": True}),
    ("bench", {"back__use": False}),
    ("bench", {"boards__timber": BoardChoice("ply-24")}),
    ("bench", {"frames__count": 2}),
]


@pytest.mark.parametrize(("family", "values"), VARIANTS, ids=lambda v: str(v)[:50])
def test_every_variant_has_a_full_report(family, values, profiles):
    made = Made(family, profiles, **values)
    found = made.report()
    assert {c.subject for c in found.checks if c.kind == "joint"} == set(found.joints)
    assert {c.subject for c in found.checks if c.kind == "part"} == set(found.parts)
    assert all(math.isfinite(c.weight) for c in found.checks)
    assert {"tipping", "sliding"} <= {c.code for c in found.checks if c.kind == "piece"}
    rows = findings(found)
    assert "joints not judged" in rows[0].message
    assert all(r.message and r.code.startswith("strength") for r in rows)


def test_a_wider_lounger_is_weaker(lounger, profiles):
    wide = Made("lounger", profiles, size__width=1000.0).report()
    assert wide.use("slat-5") > 1.4 * lounger.report().use("slat-5")
    assert any(c.subject == "slat-5" and c.code == "bending" for c in wide.over)


def test_fewer_legs_are_weaker_and_one_more_mends(bench, profiles):
    two = Made("bench", profiles, frames__count=2).report()
    over = {c.code for c in two.over if c.subject.startswith("slat-")}
    assert "deflection" in over
    assert not any(
        c.subject.startswith("slat-") and c.code == "deflection" for c in bench.report().over
    )


def test_arm_rests_are_loaded(profiles):
    arms = Made("bench", profiles, arms__use=True).report()
    down = [c for c in arms.checks if c.subject == "arm-left"]
    assert any(c.code == "bending" and "pressed down" in c.case for c in down)
    out = [c for c in arms.checks if c.subject == "arm-post-left" and "outwards" in c.case]
    assert out
