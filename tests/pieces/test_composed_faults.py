"""Bad composed files: each fault with its line, its key and what is allowed, all at once."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from flatpack import job
from flatpack.errors import ParameterErrors
from flatpack.profile_files import profile_texts

BASE = """\
family = "composed"

[size]
width = 600
depth = 300

[boards]
timber = "larch-27"

[measures]
height = 240
under = "height less timber.thickness"

[parts.side]
shape = "board"
width = 195
runs = "up"
shows = "left"
pair = "left"
left = 40
bottom = 0
top = "under"
mid_depth = "piece.middle"

[parts.rail]
shape = "board"
width = 95
runs = "right"
shows = "front"
left = "side-left.right"
right = "side-right.left"
top = "side.top"
mid_depth = "piece.middle"

[parts.slat]
shape = "slats"
width = 95
runs = "right"
shows = "up"
left = 0
right = "piece.right"
front = 0
rear = "piece.rear"
bottom = "under"

[[joints]]
kind = "pocket screws"
through = "rail"
into = "side"

[[joints]]
kind = "pocket screws"
through = "side"
into = "slat"
"""
Case = tuple[Mapping[str, str], tuple[str, ...]]

CASES: Mapping[str, Case] = {
    "unknown part": (
        {'left = "side-left.right"': 'left = "sdie-left.right"'},
        ('x.toml:30: parts.rail.left: no such part; found "sdie-left"; allowed: "rail", "side", '
         '"slat"; did you mean "side-left"?',),
    ),
    "unknown part in a joint": (
        {'through = "rail"': 'through = "rial"'},
        ('x.toml:48: joints[0].through: no such part; found "rial"; allowed: "rail", "side", '
         '"slat"; did you mean "rail"?',),
    ),
    "a hand that a single part hasn't": (
        {'through = "rail"': 'through = "rail-left"'},
        ('x.toml:48: joints[0].through: no such part; found "rail-left"; allowed: "rail", "side", '
         '"slat"; did you mean "rail"?',),
    ),
    "circular placement": (
        {'top = "under"\n': 'top = "rail.top"\n'},
        ('x.toml:32: parts.rail.top: circular: side.top follows from rail.top follows from '
         'side.top; found "side.top"; allowed: one that doesn\'t follow from it',),
    ),
    "circular measures": (
        {"height = 240": 'height = "under plus 27"'},
        ('x.toml:11: measures.height: circular: height follows from under follows from height; '
         'found "under"; allowed: one that doesn\'t follow from it',),
    ),
    "part that touches nothing": (
        {"[[joints]]\nkind = \"pocket screws\"\nthrough = \"rail\"": "[parts.odd]\nshape = "
         '"disc"\ndiameter = 100\nruns = "right"\nshows = "up"\nmid_width = 300\nmid_depth = 150\n'
         'bottom = 20\n\n[[joints]]\nkind = "pocket screws"\nthrough = "rail"'},
        # The rail's lower edge stands at 213 - 95 = 118, the disc's top at 20 + 27 = 47.
        ('x.toml:46: parts.odd: it touches nothing; the nearest, rail, is 71.0 mm off; found '
         '"odd"; allowed: a place against another part, or loose = true',),
    ),
    "joint between parts that don't meet": (
        {'left = "side-left.right"': 'left = "side-left.right plus 3"'},
        ("x.toml:46: joints[0]: side-left doesn't meet rail: it stands 3.0 mm off from rail; found "
         '"side-left"; allowed: parts that touch face to face',),
    ),
    "joint between parts that lie apart": (
        # The slat's underside lies at 213, the foot ends at 150; its hands are told of once.
        {'[[joints]]\nkind = "pocket screws"\nthrough = "rail"': '[parts.foot]\nlike = "side"\n'
         'top = 150\nleft = "side.right"\n\n[[joints]]\nkind = "glue"\nthrough = "foot"\ninto = '
         '"slat-2"\n\n[[joints]]\nkind = "glue"\nthrough = "foot"\ninto = "side"\n\n[[joints]]\n'
         'kind = "pocket screws"\nthrough = "rail"',
         'left = "side-left.right"\nright = "side-right.left"\ntop = "side.top"': 'left = '
         '"side-left.right"\nright = "side-right.left"\ntop = "side.top"\nloose = true'},
        ("x.toml:52: joints[0]: foot-left doesn't meet slat-2: it stands 63.0 mm off from slat-2; "
         'found "foot-left"; allowed: parts that touch face to face',),
    ),
    "no slat fits": (
        {'rear = "piece.rear"': "rear = 60"},
        ('x.toml:35: parts.slat: not even one fits between the row\'s places, 60.0 mm apart; found '
         '"95.0 mm wide"; allowed: more room',),
    ),
    "unknown generator": (
        {'shape = "slats"': 'shape = "slates"'},
        ('x.toml:36: parts.slat.shape: no such shape; found "slates"; allowed: "board", "slats", '
         '"rounded bar", "notched bar", "disc", "panel", "polygon", "profile", "round bar"; did '
         'you mean "slats"?',),
    ),
    "unknown kind of joint": (
        {'kind = "pocket screws"\nthrough = "rail"': 'kind = "pocket screw"\nthrough = "rail"'},
        ('x.toml:47: joints[0].kind: no such kind; found "pocket screw"; allowed: "pocket screws", '
         '"screws", "bolts", "barrel nuts", "inserts", "glue", "hinges", "halving", "tenons", '
         '"wedged tenons", "bar", "wheels"; did you mean "pocket screws"?',),
    ),
    "several unlike faults at once": (
        {"height = 240": 'height = "tall"', 'top = "side.top"': 'top = "side.tip"'},
        ('x.toml:11: measures.height: no such measure; found "tall"; allowed: "height", "under"',
         'x.toml:32: parts.rail.top: no such side; found "side.tip"; allowed: "side.bottom", '
         '"side.front", "side.left", "side.middle", "side.rear", "side.right", "side.top"; did you '
         'mean "side.top"?'),
    ),
    "a sum of three": (
        {'under = "height less timber.thickness"': 'under = "height less 18 mm less 3"'},
        ('x.toml:12: measures.under: neither a length nor a name of one; found "height less 18 mm '
         'less 3"; allowed: -10000 to 10000 mm; written as a length, or a name such as '
         '"seat-height" or "slat.thickness", with one length or name added or taken away: '
         '"seat-height less 18 mm", "rail.length plus 3"',),
    ),
    "placed twice": (
        {"left = 40": "left = 40\nmid_width = 80"},
        ('x.toml:21: parts.side.mid_width: its thickness is given, so one place left to right is '
         'enough; found "80"; allowed: one place, or copies shared between two',),
    ),
    "not placed": (
        {"left = 40\n": ""},
        ("x.toml:14: parts.side: where it stands left to right is not said; allowed: one of left, "
         "right, mid_width",),
    ),
    "neither length nor places": (
        {"bottom = 0\n": ""},
        ("x.toml:14: parts.side.length: its length is not given, nor two places upright that it "
         "would follow from; allowed: a length, or two places of bottom, top, mid_height",),
    ),
    "no room between its places": (
        {'left = "side-left.right"': 'left = "side-right.left"'},
        ('x.toml:31: parts.rail.right: only 0.0 mm are left for it between its two places; found '
         '"side-right.left"; allowed: places at least 5 mm apart',),
    ),
    "a face that can't look so": (
        {'shows = "up"': 'shows = "right"'},
        ('x.toml:39: parts.slat.shows: its show face can\'t look the way its length runs; found '
         '"right"; allowed: a way square to right',),
    ),
    "more than fit": (
        {'rear = "piece.rear"': 'rear = "piece.rear"\ncount = 4'},
        ("x.toml:35: parts.slat: more in the row than fit; found 4; allowed: at most 3, in 300.0 "
         "mm",),
    ),
    "out of range once known": (
        {"width = 195": 'width = "height less 239"'},
        ('x.toml:16: parts.side.width: comes to 1.0 mm, too small; found "height less 239"; '
         "allowed: 5 to 3000 mm",),
    ),
    "pockets from a face": (
        {'through = "side"\ninto = "slat"': 'through = "slat"\ninto = "side"'},
        ("x.toml:53: joints[1].through: slat-1 meets side-left with its face: pockets leave an end "
         'or edge; found "slat-1"; allowed: side-left, or another kind of joint',),
    ),
    "a part that nothing holds": (
        {'[[joints]]\nkind = "pocket screws"\nthrough = "side"\ninto = "slat"\n': ""},
        ("x.toml:35: parts.slat: no joint holds it; found \"slat-1\"; allowed: a joint that names "
         "it, or loose = true",
         "x.toml:35: parts.slat: no joint holds it; found \"slat-2\"; allowed: a joint that names "
         "it, or loose = true",
         "x.toml:35: parts.slat: no joint holds it; found \"slat-3\"; allowed: a joint that names "
         "it, or loose = true"),
    ),
    "like itself": (
        {'[parts.rail]\nshape = "board"': '[parts.rail]\nlike = "rail"'},
        ('x.toml:26: parts.rail.like: leads back to itself; found "rail"; allowed: "side", '
         '"slat"',),
    ),
    "like no text": (
        {'[parts.rail]\nshape = "board"': '[parts.rail]\nlike = ["side"]'},
        ('x.toml:26: parts.rail.like: there is no such entry; found an array of 1; allowed: '
         '"side", "slat"',),
    ),
    "like one that leads back": (
        {'[parts.rail]\nshape = "board"': '[parts.rail]\nlike = "slat"',
         '[parts.slat]\nshape = "slats"': '[parts.slat]\nlike = "rail"'},
        ('x.toml:26: parts.rail.like: leads back to itself; found "slat"; allowed: "side"',
         'x.toml:36: parts.slat.like: leads back to itself; found "rail"; allowed: "side"'),
    ),
    "a kind of joint that isn't there": (
        {'kind = "pocket screws"\nthrough = "rail"': 'kind = "dowels"\nthrough = "rail"'},
        ('x.toml:47: joints[0].kind: no such kind; found "dowels"; allowed: "pocket screws", '
         '"screws", "bolts", "barrel nuts", "inserts", "glue", "hinges", "halving", "tenons", '
         '"wedged tenons", "bar", "wheels"',),
    ),
    "like nothing": (
        {'[parts.rail]\nshape = "board"': '[parts.rail]\nlike = "sides"'},
        ('x.toml:26: parts.rail.like: there is no such entry; found "sides"; allowed: "side", '
         '"slat"; did you mean "side"?',),
    ),
    "an unknown key of a shape": (
        {"width = 95\nruns = \"right\"\nshows = \"front\"":
         "width = 95\ndiameter = 3\nruns = \"right\"\nshows = \"front\""},
        ('x.toml:28: parts.rail.diameter: unknown key; found 3; allowed: "shape", "like", '
         '"length", "width", "corners", "slants", "title", "board", "shows", "runs", "leans", '
         '"leans_to", "leans_with", "turned", "front", "rear", "left", "right", "bottom", "top", '
         '"mid_depth", "mid_width", "mid_height", "pair", "copies", "step", "step_to", "arris", '
         '"loose", "holes", "slots"; did you mean "holes.diameter"?',),
    ),
    "a name with capitals": (
        {"[parts.rail]": "[parts.Rail]", 'through = "rail"': 'through = "Rail"'},
        ("x.toml:25: parts.Rail: not a name; allowed: small letters, digits and hyphens, a letter "
         "first",),
    ),
    "no parts": (
        {BASE[BASE.index("[parts.side]"):BASE.index("[[joints]]")]: ""},
        ("x.toml: parts: missing; allowed: a table of entries under names of your own",),
    ),
    "which board": (
        {'timber = "larch-27"': 'timber = "larch-27"\nother = "ply-18"',
         'shape = "slats"': 'shape = "slats"\nboard = "other"'},
        ('x.toml:15: parts.side.board: missing: there are several boards; allowed: "timber", '
         '"other"',
         'x.toml:26: parts.rail.board: missing: there are several boards; allowed: "timber", '
         '"other"'),
    ),
    "a step that isn't there": (
        {'into = "side"\n': 'into = "side"\nstep = "frame"\n\n[[steps]]\nname = "frames"\ntitle = '
         '"Frames"\n'},
        ('x.toml:50: joints[0].step: no such step; found "frame"; allowed: "frames"; did you mean '
         '"frames"?',),
    ),
    "a place beside the parts": (
        {'kind = "pocket screws"\nthrough = "side"\ninto = "slat"': 'kind = "bolts"\nthrough = '
         '"side"\ninto = "rail"\nheight = 20'},
        ("x.toml:55: joints[1].height: this place lies beside the parts; found \"20.0 mm\"; "
         "allowed: 118.0 to 213.0, where they meet",),
    ),
}  # fmt: skip


def told(text: str) -> tuple[str, ...]:
    try:
        job.design(text, "x.toml", profile_texts())
    except ParameterErrors as errors:
        return tuple(map(str, errors.faults))
    return ()


def changed(edits: Mapping[str, str]) -> str:
    text = BASE
    for old, new in edits.items():
        assert old in text, old
        text = text.replace(old, new, 1)
    return text


def test_the_base_has_no_fault() -> None:
    made = job.design(BASE, "x.toml", profile_texts())
    assert [f for f in made.findings if f.severity in ("fault", "warning")] == []


@pytest.mark.parametrize("name", CASES)
def test_faults_are_told(name: str) -> None:
    edits, expected = CASES[name]
    found = told(changed(edits))
    assert found[: len(expected)] == expected
