"""Where composed parts come to lie, against hand sums: leaning, slanting, in rows, in pairs."""

from __future__ import annotations

import math
from typing import Any

import pytest

from flatpack import checks
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part
from flatpack.parameters import read_design
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
HEAD = """\
family = "composed"
size = { width = 600, depth = 300 }
boards = { timber = "larch-27" }

[measures]
seat = 400

[parts.leg]
shape = "board"
width = 95
runs = "up"
shows = "left"
left = 0
"""
LEAN = math.radians(15.0)


def piece(text: str) -> Assembly:
    records = {"composed": PIECES["composed"].record}
    _, record = read_design(records, text, "x.toml", known=PROFILES.known)
    assert list(PIECES["composed"].conflicts(record, PROFILES)) == []
    return PIECES["composed"].build(record, PROFILES)


def alone(text: str) -> Part:
    return piece(f"{HEAD}{text}\nloose = true\n").parts["leg"]


def corners(part: Part) -> list[Vec]:
    return [part.frame.place(*p) for p in part.outline.points]


def test_a_leaning_parts_corner_lies_on_the_sides_that_are_said() -> None:
    """Leaning back by 15, its lower front corner stands at the front, on the ground."""
    part = alone("front = 0\nbottom = 0\nlength = 500\nleans = 15")
    lower_front = part.frame.place(0.0, 95.0)
    assert lower_front == pytest.approx((0.0, 27.0, 0.0), abs=1e-9)
    top_front = part.frame.place(500.0, 95.0)
    assert top_front == pytest.approx((500 * math.sin(LEAN), 27.0, 500 * math.cos(LEAN)))


def test_its_rear_corner_where_the_rear_is_said() -> None:
    part = alone('rear = "piece.rear"\nbottom = 10\nlength = 500\nleans = 15\nleans_to = "front"')
    assert part.frame.place(0.0, 0.0) == pytest.approx((300.0, 27.0, 10.0), abs=1e-9)


def test_slanting_ends_stand_level_and_the_length_follows() -> None:
    """Ends sawn off square by the lean are level: the foot on the ground, the top at the seat.

    Along the front edge from 0 to 400 up: 400 / cos 15; over all the rear edge's end lies
    95 tan 15 beyond.
    """
    part = alone('front = 0\nbottom = 0\ntop = "seat"\nleans = 15\nslants = [15, -15]')
    heights = sorted(round(c.z, 6) + 0.0 for c in corners(part))
    assert heights == [0.0, 0.0, 400.0, 400.0]
    assert part.length == pytest.approx(400.0 / math.cos(LEAN) + 95.0 * math.tan(LEAN))
    assert min(c.x for c in corners(part)) == pytest.approx(0.0, abs=1e-9)


SLAT = """
[parts.slat]
shape = "board"
length = 300
width = 95
runs = "right"
shows = "up"
left = 0
front = "leg.front at seat"
bottom = "leg.top"

[[joints]]
kind = "glue"
through = "leg"
into = "slat"
"""


def test_others_lie_level_on_a_slanting_end() -> None:
    """The leg's front edge at the seat is 400 tan 15 back; the slat lies flat on its top."""
    text = 'front = 0\nbottom = 0\ntop = "seat"\nleans = 15\nslants = [15, -15]\n'
    made = piece(HEAD + text + SLAT)
    slat = made.parts["slat"]
    assert slat.frame.z == pytest.approx((0.0, 0.0, 1.0), abs=1e-12)
    assert slat.frame.origin.z == pytest.approx(400.0)
    assert min(c.x for c in corners(slat)) == pytest.approx(400.0 * math.tan(LEAN))
    assert [f for f in checks.run(made) if f.severity == "fault"] == []


@pytest.mark.parametrize(
    ("said", "middle"),
    [
        ('mid_depth = "piece.middle"', 150.0),
        ('mid_depth = "piece.rear less 40 mm"', 260.0),
        ("front = 20", 67.5),
        ('rear = "seat less 3/4 in"', 400.0 - 19.05 - 47.5),
        ('front = "leg.thickness plus timber.thickness"', None),
    ],
)
def test_places_of_upright_parts(said: str, middle: float | None) -> None:
    text = f"{said}\nbottom = 0\nlength = 300"
    if middle is None:
        with pytest.raises(AssertionError, match="no such side"):
            alone(text)
        return
    xs = [c.x for c in corners(alone(text))]
    assert (min(xs) + max(xs)) / 2.0 == pytest.approx(middle)


def test_leaning_sideways_and_turned() -> None:
    """Leaning to the right by 10, a post running up gains sin 10 of its length to the right."""
    part = alone('front = 0\nbottom = 0\nlength = 300\nleans = 10\nleans_to = "right"')
    run = part.frame.place(300.0, 0.0).minus(part.frame.place(0.0, 0.0))
    assert run == pytest.approx((0.0, 300 * math.sin(math.radians(10)),
                                 300 * math.cos(math.radians(10))), abs=1e-9)  # fmt: skip
    flat = alone("front = 0\nbottom = 0\nlength = 300\nturned = 90")
    assert flat.frame.z == pytest.approx((1.0, 0.0, 0.0), abs=1e-12)  # left, turned to the rear


def test_leaning_with_another() -> None:
    text = "front = 0\nbottom = 0\nlength = 300\nleans = 12\nloose = true\n"
    other = '[parts.other]\nlike = "leg"\nleans = 0\nleans_with = "leg"\nleft = "leg.right"\n'
    made = piece(HEAD + text + other)
    assert made.parts["other"].frame.x == made.parts["leg"].frame.x


def row(text: str) -> dict[str, Any]:
    board = '\n[parts.slat]\nlength = 300\nwidth = 45\nruns = "right"\nshows = "up"\nleft = 0\n'
    floor = """
[parts.floor]
shape = "board"
length = 500
width = 195
runs = "right"
shows = "up"
left = 0
front = 0
top = 100
loose = true
"""
    head = HEAD.partition("[parts.leg]")[0]
    made = piece(f"{head}{floor}{board}bottom = 100\nloose = true\n{text}")
    return {k: min(c.x for c in corners(p)) for k, p in made.parts.items() if "slat" in k}


def test_slats_are_shared_out_between_two_places() -> None:
    """180 wide for slats of 45 with gaps near 8: (180 + 8) / 53 = 3.5; three leave 22.5, four none.

    |22.5 - 8| = 14.5 and |0 - 8| = 8: four come nearer.
    """
    found = row('shape = "slats"\nfront = 5\nrear = 185\ngap = 8\n')
    assert found == pytest.approx({"slat-1": 5.0, "slat-2": 50.0, "slat-3": 95.0, "slat-4": 140.0})
    found = row('shape = "slats"\nfront = 5\nrear = 185\ncount = 3\n')
    assert found == pytest.approx({"slat-1": 5.0, "slat-2": 72.5, "slat-3": 140.0})


@pytest.mark.parametrize(
    ("rear", "expected"),
    [(85, {"slat-1": 22.5}), (94, {"slat-1": 27.0}), (95, {"slat-1": 5.0, "slat-2": 50.0})],
)
def test_no_more_slats_are_chosen_than_fit(rear: int, expected: dict[str, float]) -> None:
    """Of slats of 45 two need 90: in 80 or 89 there is room for one, and it lies in the middle."""
    assert row(f'shape = "slats"\nfront = 5\nrear = {rear}\ngap = 8\n') == pytest.approx(expected)


def test_copies_between_two_places_or_step_by_step() -> None:
    shared = row('shape = "board"\ncopies = 3\nfront = 5\nrear = 185\n')
    assert shared == pytest.approx({"slat-1": 5.0, "slat-2": 72.5, "slat-3": 140.0})
    stepped = row('shape = "board"\ncopies = 3\nstep = 60\nstep_to = "rear"\nfront = 5\n')
    assert stepped == pytest.approx({"slat-1": 5.0, "slat-2": 65.0, "slat-3": 125.0})


def test_pairs_mirror_across_the_middle_of_the_width() -> None:
    text = 'front = 0\nbottom = 0\nlength = 300\npair = "left"\nloose = true\n'
    bar = (
        '[parts.bar]\nshape = "board"\nwidth = 95\nruns = "right"\nshows = "front"\n'
        'left = "leg-left.right"\nright = "leg-right.left"\nfront = 5\nbottom = 5\nloose = true\n'
    )
    made = piece(f"{HEAD}{text}{bar}")
    assert made.parts["bar"].length == pytest.approx(600.0 - 2.0 * 27.0)
    for left, right in zip(corners(made.parts["leg-left"]), corners(made.parts["leg-right"]),
                           strict=True):  # fmt: skip
        assert right == pytest.approx((left.x, 600.0 - left.y, left.z))


@pytest.mark.parametrize(
    ("width", "rear", "found"), [("width = 90\n", "", 95.0), ("", "rear = 90\n", 90.0)]
)
def test_a_planed_width_is_the_nearest_sold_and_a_derived_one_is_not(
    width: str, rear: str, found: float
) -> None:
    head = HEAD.replace("width = 95\n", width)
    text = f"{head}front = 0\n{rear}bottom = 0\nlength = 300\nloose = true\n"
    assert piece(text).parts["leg"].width == pytest.approx(found)
