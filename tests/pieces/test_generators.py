"""The generators' shapes against areas and places worked out by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from flatpack.features import Notch
from flatpack.geometry.polygon import is_simple
from flatpack.pieces.common.generators import GENERATORS, Shaped
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
EXAMPLES: dict[str, dict[str, Any]] = {
    "board": {"length": 400.0, "width": 70.0},
    "slats": {"length": 400.0, "width": 70.0},
    "rounded bar": {"length": 400.0, "width": 70.0},
    "notched bar": {"length": 400.0, "width": 70.0, "at": (80.0, 200.0)},
    "disc": {"diameter": 300.0},
    "panel": {"length": 400.0, "width": 200.0},
    "polygon": {"points": ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0))},
    "profile": {"points": ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0))},
}


def made(word: str, **values: Any) -> Shaped:
    one = GENERATORS[word]
    return one.make(one.record(**{**EXAMPLES[word], **values}), PROFILES)


def test_every_generator_has_an_example_here() -> None:
    assert set(EXAMPLES) == set(GENERATORS)


@pytest.mark.parametrize("word", EXAMPLES)
def test_outlines_are_simple_and_anticlockwise_from_the_lower_left(word: str) -> None:
    shaped, one = made(word), GENERATORS[word]
    assert is_simple(shaped.outline)
    assert shaped.outline.area > 0.0
    assert shaped.outline.bounds[:2] == pytest.approx((0.0, 0.0), abs=1e-9)
    assert one.does
    assert one.record.__doc__


# A chord of 300 with a rise of 20: radius (300^2 / 4 + 20^2) / 40 = 572.5; the segment's area is
# r^2 (a - sin a) / 2 with sin(a / 2) = 150 / r.
ANGLE = 2.0 * math.asin(150.0 / 572.5)
SEGMENT = 572.5**2 * (ANGLE - math.sin(ANGLE)) / 2.0


# Areas by plane geometry; a rounding of radius r takes (1 - pi/4) r^2 off a square corner.
@pytest.mark.parametrize(
    ("word", "values", "area"),
    [
        ("board", {}, 28000.0),
        ("board", {"corners": (12.0,)}, 28000.0 - 4.0 * (1.0 - math.pi / 4.0) * 144.0),
        ("board", {"corners": (0.0, 20.0, 0.0, 10.0)}, 28000.0 - (1.0 - math.pi / 4.0) * 500.0),
        # A slant of 15 over a width of 70 takes a triangle off: 70^2 tan 15 / 2.
        ("board", {"slants": (15.0,)}, 28000.0 - 2.0 * 2450.0 * math.tan(math.radians(15.0))),
        ("board", {"slants": (0.0, -30.0)}, 28000.0 - 2450.0 * math.tan(math.radians(30.0))),
        ("rounded bar", {}, 330.0 * 70.0 + math.pi * 35.0**2),
        ("rounded bar", {"ends": "right"}, 365.0 * 70.0 + math.pi * 35.0**2 / 2.0),
        ("disc", {}, math.pi * 150.0**2),
        ("polygon", {}, 30000.0),
        ("profile", {"rises": (20.0, 0.0, 0.0)},
         30000.0 + SEGMENT),
        ("profile", {"rises": (-20.0, 0.0, 0.0)},
         30000.0 - SEGMENT),
    ],
)  # fmt: skip
def test_areas(word: str, values: dict[str, Any], area: float) -> None:
    assert made(word, **values).outline.area == pytest.approx(area, rel=1e-12)


def test_slants_keep_the_longer_edge_at_full_length() -> None:
    """More than 0: the upper edge is the longer one."""
    points = {
        (round(p.x, 6), round(p.y, 6)) for p in made("board", slants=(15.0, -45.0)).outline.points
    }
    assert points == {(round(70.0 * math.tan(math.radians(15.0)), 6), 0.0), (400.0, 0.0),
                      (330.0, 70.0), (0.0, 70.0)}  # fmt: skip


def test_points_given_clockwise_make_the_same_shape() -> None:
    for word in ("polygon", "profile"):
        turned = made(word, points=EXAMPLES[word]["points"][::-1])
        assert turned.outline.area == pytest.approx(30000.0)


def test_rises_go_outwards_whichever_way_the_points_run() -> None:
    points = EXAMPLES["profile"]["points"]
    one = made("profile", rises=(20.0, 0.0, 0.0)).outline.area
    other = made("profile", points=(points[1], points[0], points[2]), rises=(20.0, 0.0, 0.0))
    assert other.outline.area == pytest.approx(one)


@pytest.mark.parametrize("notch", ["half-round", "square", "vee", "ramp"])
def test_rods_lie_in_their_notches(notch: str) -> None:
    """The rod touches the wood: its middle is a radius from the outline, outside of it."""
    import shapely

    shaped = made("notched bar", notch=notch, width=90.0, rod=24.0)
    polygon = shapely.Polygon(shaped.outline.sampled(0.001))
    rods = [f for f in shaped.features if isinstance(f, Notch)]
    assert [rod.at.x for rod in rods] == [80.0, 200.0]
    for rod in rods:
        middle = shapely.Point(rod.at)
        assert not polygon.contains(middle)
        assert polygon.distance(middle) == pytest.approx(12.0, abs=0.01)


def test_openings() -> None:
    """Two holes of 30 and a window of 60 x 40 with corners of 6."""
    row = GENERATORS["panel"].record.record_specs["openings"].record
    shaped = made(
        "panel",
        openings=(
            row(at=((50.0, 50.0), (50.0, 150.0)), diameter=30.0),
            row(at=((200.0, 100.0),), length=60.0, width=40.0),
        ),
    )
    areas = [o.area for o in shaped.openings]
    window = 2400.0 - 4.0 * (1.0 - math.pi / 4.0) * 36.0
    assert areas == pytest.approx([math.pi * 225.0, math.pi * 225.0, window])
    assert shaped.openings[2].bounds == pytest.approx((170.0, 80.0, 230.0, 120.0))


@pytest.mark.parametrize(
    ("word", "values", "message"),
    [
        ("board", {"corners": (40.0,)}, "roundings overlap"),
        ("board", {"corners": (4.0, 5.0)}, "corners has 2 entries: give one, or 4"),
        ("board", {"slants": (70.0, 70.0), "width": 90.0}, "leave nothing of an edge"),
        ("rounded bar", {"length": 60.0}, "too short for its round ends"),
        ("notched bar", {"at": (80.0, 90.0)}, "run into each other"),
        ("notched bar", {"at": (395.0,)}, "past an end"),
        ("notched bar", {"width": 20.0}, "cut the bar through"),
        ("polygon", {"points": ((0.0, 0.0), (0.0, 0.0), (9.0, 9.0))}, "1 and 2 are the same"),
        ("profile", {"rises": (1.0, 2.0)}, "rises has 2 entries: give one, or 3"),
    ],
)
def test_what_makes_no_shape_is_told(word: str, values: dict[str, Any], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        made(word, **values)
