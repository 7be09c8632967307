"""Where fasteners stand in a row, against hand sums: slanting braces, slats, places that pair."""

from __future__ import annotations

import math

import pytest

from flatpack import checks, job
from flatpack.errors import ParameterErrors
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part
from flatpack.profile_files import profile_texts

LEAN = math.radians(50.0)
BRACED = """\
family = "composed"
size = { width = 800, depth = 300 }
boards = { timber = "larch-27" }

[parts.rail]
shape = "board"
width = 95
length = 800
runs = "right"
shows = "front"
left = 0
front = 0
bottom = 0

[parts.brace]
shape = "board"
width = 70
length = 900
runs = "up"
shows = "front"
leans = 50
leans_to = "right"
mid_width = 400
mid_height = 47.5
front = "rail.rear"

[[joints]]
kind = "screws"
through = "brace"
into = "rail"
"""


def piece(text: str) -> Assembly:
    return job.design(text, "x.toml", profile_texts()).assembly


def told(text: str) -> tuple[str, ...]:
    try:
        job.design(text, "x.toml", profile_texts())
    except ParameterErrors as errors:
        return tuple(map(str, errors.faults))
    return ()


def starts(made: Assembly, through: str) -> list[Vec]:
    return sorted(f.start for f in made.fasteners if f.joint.startswith(f"{through}-to"))


def off_edges(part: Part, place: Vec) -> float:
    """How far within a rectangular part a place lies, from the nearest of its edges."""
    at = part.frame.local(place)
    return min(at.x, part.length - at.x, at.y, part.width - at.y)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_a_row_runs_along_the_slanting_overlap(count: int) -> None:
    """Both middles lie at (400, 47.5): the overlap is 95 / cos 50 long along the brace's middle.

    Of n the outermost stands half a share, 95 / 2n upright, within the rail's edges; all stand on
    the brace's middle line, half its width within its edges.
    """
    made = piece(f"{BRACED}count = {count}\n")
    places = starts(made, "brace")
    assert len(places) == count
    for number, place in enumerate(sorted(places, key=lambda v: v.z)):
        z = 95.0 * (number + 0.5) / count
        assert place.z == pytest.approx(z)
        assert place.y == pytest.approx(400.0 + (z - 47.5) * math.tan(LEAN))
        assert off_edges(made.parts["brace"], place) == pytest.approx(35.0)
        assert off_edges(made.parts["rail"], place) >= 95.0 / 2.0 / count - 1e-6
    assert [f for f in checks.run(made) if f.severity == "fault"] == []


def test_a_height_alone_takes_the_middle_of_the_brace_there() -> None:
    made = piece(f"{BRACED}height = [20, 75]\n")
    for place, z in zip(starts(made, "brace"), (20.0, 75.0), strict=True):
        assert (place.y, place.z) == pytest.approx((400.0 + (z - 47.5) * math.tan(LEAN), z))


def test_places_of_two_ways_pair_and_dont_cross() -> None:
    made = piece(f"{BRACED}height = [30, 65]\nwidth = [380, 420]\n")
    assert [(p.y, p.z) for p in starts(made, "brace")] == [(380.0, 30.0), (420.0, 65.0)]


def test_the_middle_of_a_slanting_part_at_a_height() -> None:
    """By its middle line, not by the middle of its length, also where it leans by more than 45."""
    made = piece(f'{BRACED}width = "brace.middle at 60 plus 5"\nheight = 60\n')
    [place] = starts(made, "brace")
    assert place.y == pytest.approx(400.0 + 12.5 * math.tan(LEAN) + 5.0)
    left = piece(f'{BRACED}width = "brace.left at 60 plus 40"\nheight = 60\n')
    [place] = starts(left, "brace")
    half = 35.0 / math.cos(LEAN)
    assert place.y == pytest.approx(400.0 + 12.5 * math.tan(LEAN) - half + 40.0)


def test_a_place_beside_the_slanting_overlap_names_the_joint_and_what_would_do() -> None:
    """At 90 high the brace reaches from 400 + 42.5 tan 50 - 35 / cos 50 to as much on the right."""
    [found] = told(f"{BRACED}height = [90]\nwidth = [350]\n")
    low, high = (400.0 + 42.5 * math.tan(LEAN) + s * 35.0 / math.cos(LEAN) for s in (-1, 1))
    assert found.startswith("x.toml:32: joints[0].width: ")
    assert f"width {low:.1f} to {high:.1f} at height 90.0" in found


SLATTED = """\
family = "composed"
size = {{ width = 400, depth = {depth} }}
boards = {{ timber = "larch-27", stick = "larch-45" }}

[parts.cleat]
shape = "board"
board = "stick"
width = 45
runs = "rear"
shows = "left"
pair = "left"
left = 0
front = 0
rear = "piece.rear"
bottom = 100

[parts.slat]
shape = "board"
board = "timber"
runs = "right"
shows = "up"
left = 0
right = "piece.right"
front = 0
rear = "piece.rear"
bottom = "cleat.top"

[[joints]]
kind = "screws"
through = "slat"
into = "cleat"
count = 2
"""


@pytest.mark.parametrize("width", [41, 44, 49, 66])
def test_screws_stand_side_by_side_across_a_slat(width: int) -> None:
    """Nearly square overlaps on a cleat 45 wide: always across, a quarter in from each edge."""
    text = SLATTED.format(depth=width)
    made = piece(text.replace('"larch-27"', '"ply-18"'))
    places = starts(made, "slat")
    left = [p for p in places if p.y < 200.0]
    assert [p.x for p in left] == pytest.approx([width / 4.0, width * 0.75])
    assert [p.y for p in left] == pytest.approx([22.5, 22.5])


CHOCK = """
[parts.chock]
shape = "board"
width = 70
length = 150
runs = "right"
shows = "front"
front = "rail.rear"
bottom = 0
loose = true
"""


def test_a_side_of_a_leaning_part_beyond_its_ends_is_refused() -> None:
    """Leaning by 50, what looks left most is the lower end: its middle M lies 450 down the brace.

    Its plane, square to the length, stands at height 0 at M.y + M.z / tan 50; the brace itself
    reaches to 400 -+ (450 sin 50 + 35 cos 50).
    """
    [found] = told(f'{BRACED}{CHOCK}left = "brace.left"\n')
    middle = 400.0 - 450.0 * math.sin(LEAN), 47.5 - 450.0 * math.cos(LEAN)
    at = middle[0] + middle[1] / math.tan(LEAN)
    reach = 450.0 * math.sin(LEAN) + 35.0 * math.cos(LEAN)
    low, high = 400.0 - reach, 400.0 + reach
    assert found == (
        f"x.toml:41: parts.chock.left: comes to {at:.1f} mm, {low - at:.1f} mm beyond brace, which "
        f'leans and reaches from {low:.1f} to {high:.1f}; found "brace.left"; allowed: the height '
        'as well, such as "brace.left at 300", or another part\'s side, or a length'
    )


def test_a_side_at_a_height_is_the_long_edge() -> None:
    """The right edge at 100 high stands 35 / cos 50 to the right of the middle line there."""
    made = piece(f'{BRACED}{CHOCK}left = "brace.right at 70 plus 20"\n')
    left = min(made.parts["chock"].frame.place(*p).y for p in made.parts["chock"].outline.points)
    middle = 400.0 + 22.5 * math.tan(LEAN)
    assert left == pytest.approx(middle + 35.0 / math.cos(LEAN) + 20.0)


def test_a_hole_too_near_an_edge_names_the_joint_that_brings_it() -> None:
    """3 mm from the rail's upper edge of 95, with a radius of 2.6: a wall of 0.4."""
    found = job.design(f"{BRACED}height = 92\nuse = 'top'\n", "x.toml", profile_texts()).findings
    remedies = {f.remedy for f in found if f.code in ("hole-wall", "edge-distance")}
    hint = "in the file joints[0], screws from brace: change count, depth, width or height"
    assert remedies
    assert all(remedy.endswith(hint) for remedy in remedies)
