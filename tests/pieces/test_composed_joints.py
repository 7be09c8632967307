"""Each kind of joint in a composed file: made where parts meet, without a fault, with its hardware.

Places are worked out by hand from the sizes in the files below.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from flatpack import checks
from flatpack.model import Assembly
from flatpack.parameters import read_design
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
HEAD = """\
family = "composed"
size = { width = 500, depth = 300 }
boards = { timber = "larch-27" }

[parts.post]
shape = "board"
width = 95
length = 400
runs = "up"
shows = "left"
left = 0
front = 0
bottom = 0
"""
BESIDE = """
[parts.rail]
shape = "board"
width = 95
length = 300
runs = "rear"
shows = "left"
left = "post.right"
front = 0
bottom = 200
"""
FROM = """
[parts.rail]
shape = "board"
width = 95
length = 300
runs = "right"
shows = "front"
left = "post.right"
mid_depth = "post.middle"
bottom = 200
"""
SHEET = HEAD.replace("larch-27", "ply-18")
ON_ONE_LEVEL = """
[parts.lid]
shape = "board"
width = 95
length = 400
runs = "up"
shows = "left"
left = 0
front = "post.rear"
bottom = 0
"""
CASES: Mapping[str, tuple[str, Mapping[str, int], tuple[float, ...]]] = {
    # Beside each other they share 95 by 95: x 0 to 95, z 200 to 295; y = 27 between them.  Side by
    # side across the post's upright grain, a quarter in from each edge: 95 / 4 and 3 x 95 / 4.
    'kind = "screws"\ncount = 2': (
        HEAD + BESIDE, {"Wood screw 5 mm, countersunk, stainless": 2},
        (23.75, 0.0, 247.5, 71.25, 0.0, 247.5),
    ),
    'kind = "bolts"\nheight = ["rail.bottom plus 30", "rail.top less 30"]\nuse = "trial"': (
        HEAD + BESIDE, {"Coach bolt M8": 2, "Lock nut M8": 2, "Washer M8": 2},
        (47.5, 0.0, 230.0, 47.5, 0.0, 265.0),
    ),
    'kind = "inserts"\ndepth = 40': (
        HEAD + BESIDE, {"Furniture bolt M6": 1, "Threaded insert M6": 1}, (40.0, 0.0, 247.5),
    ),
    'kind = "glue"': (HEAD + BESIDE, {}, ()),
    # The rail's end stands on the post: x 47.5 +- 13.5, z 200 to 295.
    'kind = "barrel nuts"\ncount = 2': (
        HEAD + FROM, {"Furniture bolt M6": 2, "Barrel nut M6": 2},
        (47.5, 0.0, 223.75, 47.5, 0.0, 271.25),
    ),
    # The post's rear edge and the lid's front one meet at x = 95; leaves on their left faces.
    'kind = "hinges"\non = "left"\nheight = [100, 300]': (
        HEAD + ON_ONE_LEVEL, {"Butt hinge 75 mm": 2}, (),
    ),
}  # fmt: skip


def piece(text: str) -> Assembly:
    records = {"composed": PIECES["composed"].record}
    _, record = read_design(records, text, "x.toml", known=PROFILES.known)
    assert list(PIECES["composed"].conflicts(record, PROFILES)) == []
    return PIECES["composed"].build(record, PROFILES)


def joined(text: str, joint: str, through: str = "post", into: str = "rail") -> Assembly:
    return piece(f'{text}\n[[joints]]\n{joint}\nthrough = "{through}"\ninto = "{into}"\n')


@pytest.mark.parametrize("joint", CASES)
def test_made_where_the_parts_meet(joint: str) -> None:
    text, hardware, places = CASES[joint]
    made = joined(text, joint, into="lid" if "hinges" in joint else "rail")
    bill = {h.item: h.pieces for h in made.hardware}
    for item, pieces in hardware.items():
        [found] = [n for name, n in bill.items() if name.startswith(item.split(",")[0])]
        assert found == pieces
    starts = [n for f in made.fasteners for n in f.start if places]
    assert starts == pytest.approx(list(places))
    assert [f for f in checks.run(made) if f.severity == "fault"] == []


def test_hinges_that_turn_are_not_judged() -> None:
    made = joined(HEAD + ON_ONE_LEVEL, 'kind = "hinges"\non = "left"\nheight = [100, 300]',
                  into="lid")  # fmt: skip
    found = [f for f in checks.run(made) if f.severity == "not done"]
    assert [f.code for f in found].count("swing-not-tried") == 2


def test_pocket_screws_keep_clear_and_take_their_own_screw() -> None:
    made = joined(HEAD + FROM, 'kind = "pocket screws"\nscrew = "pocket-fine"\ncount = 3',
                  "rail", "post")  # fmt: skip
    [(item, pieces)] = [(h.item, h.pieces) for h in made.hardware]
    assert item == "Pocket screw, fine thread"
    assert pieces == 3
    assert len(made.parts["rail"].features) == 3


CROSSED = (
    SHEET.replace("left = 0\n", "mid_width = 250\n")
    + """
[parts.rail]
shape = "board"
width = 400
length = 300
runs = "right"
shows = "front"
mid_width = "post.middle"
mid_depth = "post.middle"
bottom = 0
"""
)


def test_halving_slots_are_as_wide_as_the_other_board_and_its_fit() -> None:
    """A slot of half the height of both, 400 / 2; 17.9 mm as measured and the bench's push fit."""
    made = joined(CROSSED, 'kind = "halving"', "rail", "post")
    fit = PROFILES.workshop("default").fits.push
    for key in ("post", "rail"):
        part = made.parts[key]
        lost = part.length * part.width - part.outline.area
        assert lost == pytest.approx(200.0 * (17.9 + fit), rel=0.03)  # eased corners
    assert [f for f in checks.run(made) if f.severity == "fault"] == []
    assert {p.name for p in made.trials} == {"Fit trial", "Trial tongue"}


def test_tenons_reach_through_the_other_part() -> None:
    made = joined(SHEET + FROM, 'kind = "tenons"\ntenon = 50', "rail", "post")
    assert made.parts["rail"].length == pytest.approx(300.0 + 17.9)
    assert len(made.parts["post"].openings) == 1
    assert [f for f in checks.run(made) if f.severity == "fault"] == []


def test_wedged_tenons_bring_their_wedges() -> None:
    made = joined(SHEET + FROM, 'kind = "wedged tenons"\ntenon = 50\ndrive = "rear"',
                  "rail", "post")  # fmt: skip
    wedges = [p for p in made.parts.values() if p.name == "Wedge"]
    assert len(wedges) == 1
    assert [f for f in checks.run(made) if f.severity == "fault"] == []


BAR = """
[parts.other-post]
like = "post"
left = 300

[parts.peg]
shape = "round bar"
rod = "hardwood-22"
runs = "right"
left = "post.left"
right = "other-post.right"
mid_depth = "post.middle"
mid_height = 350
"""


def test_a_round_bar_bores_what_it_runs_into() -> None:
    text = f'{HEAD}{BAR}\n[[joints]]\nkind = "bar"\nthrough = "peg"\n'
    made = piece(text + 'into = ["post", "other-post"]\n')
    assert made.bars["peg"].length == pytest.approx(327.0)
    for key in ("post", "other-post"):
        [hole] = made.parts[key].features
        assert tuple(hole.at) == pytest.approx((350.0, 47.5))
    assert [f for f in checks.run(made) if f.severity == "fault"] == []


def test_wheels_stand_on_their_axle() -> None:
    text = (
        f'{HEAD}{BAR}\n[[joints]]\nkind = "bar"\nthrough = "peg"\ninto = ["post", "other-post"]\n'
    )
    wheels = '\n[[joints]]\nkind = "wheels"\nthrough = "peg"\nwheel = "wheel-160"\n'
    made = piece(text + wheels)
    assert [f.kind for f in made.fasteners] == ["wheel", "wheel"]


def test_open_holes_take_no_fastener_and_are_no_fault() -> None:
    holes = 'holes = [{ at = [[200, 47.5]], diameter = 12, purpose = "cord" }]\nloose = true\n'
    made = piece(f"{HEAD}{holes}")
    [hole] = made.parts["post"].features
    assert hole.callout() == "Ø12 through"
    assert [f for f in checks.run(made) if f.severity == "fault"] == []
