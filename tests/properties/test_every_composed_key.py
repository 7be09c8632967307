"""Every key of a composed file moves what it should, and nothing that it has no say in.

A row is reasoned from what the key means: the facts of the piece that change are exactly those
named.  A key without a row fails the first test.
"""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Mapping
from functools import cache
from typing import Any

import pytest

from flatpack.batch.toml_text import toml_text
from flatpack.model import Assembly
from flatpack.parameters import read_design, specs_of
from flatpack.pieces import PIECES
from flatpack.pieces.common.generators import GENERATORS
from flatpack.pieces.common.part_keys import DERIVED
from flatpack.pieces.composed import Composed
from flatpack.pieces.composed.joint_records import JOINT_KINDS
from flatpack.pieces.composed.part_records import PART_KINDS
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
BASE = tomllib.loads("""
family = "composed"
name = "Trial"

[size]
width = 500
depth = 300

[boards]
timber = "larch-27"
other = "pine-28"

[measures]
tall = 400

[parts.post]
shape = "board"
board = "timber"
width = 95
runs = "up"
shows = "left"
left = 0
front = 0
bottom = 0
top = "tall"

[parts.rail]
shape = "board"
board = "timber"
length = 300
width = 95
runs = "rear"
shows = "left"
left = "post.right"
front = 0
bottom = 200

[[joints]]
kind = "screws"
step = "one"
through = "rail"
into = "post"

[[steps]]
name = "one"
title = "One"
""")
Row = tuple[Mapping[str, Any], str]

PARTS: Mapping[str, Row] = {
    # The rail is 95 wide, from 200 to 295 up, 300 long from the front, against the post.
    "title": ({"title": "Bar"}, "titles uses"),
    "board": ({"board": "other"}, "boards places features screws"),
    "shows": ({"shows": "right"}, "turns places features"),
    "runs": ({"runs": "front"}, "turns places features"),
    # The lower front corner, from which it is measured, stays where it is.
    "leans": ({"leans": 10}, "turns features screws"),
    "leans_to": ({"leans": 10, "leans_to": "front"}, "turns features screws"),
    "leans_with": ({"leans_with": "post"}, ""),
    "turned": ({"turned": 180}, "turns places features"),
    "front": ({"front": 3}, "places features screws"),
    "rear": ({"front": None, "rear": 310}, "places features screws"),
    "left": ({"left": None, "right": "post.left"}, "places features screws"),
    "right": ({"left": None, "right": "post.left"}, "places features screws"),
    "bottom": ({"bottom": 210}, "places features screws"),
    "top": ({"bottom": None, "top": 300}, "places features screws"),
    "mid_depth": ({"front": None, "mid_depth": 160}, "places features screws"),
    "mid_width": ({"left": None, "mid_width": 40.5}, ""),
    "mid_height": ({"bottom": None, "mid_height": 250}, "places features screws"),
    "pair": ({"pair": "left"}, "parts hands spread"),
    "copies": ({"copies": 2, "step": 98, "step_to": "up"}, "parts spread"),
    "step": ({"copies": 2, "step": 110, "step_to": "up"}, "spread"),
    "step_to": ({"copies": 2, "step": 98, "step_to": "down"}, "spread"),
    "arris": ({"arris": 3}, "arrises"),
    "loose": ({"loose": True}, ""),
    "holes": ({"holes": [{"at": [[250, 40]], "diameter": 9}]}, "features"),
    "slots": ({"slots": [{"ends": [[200, 40], [250, 40]], "width": 9}]}, "features"),
}
"""Key of every part -> what is set beside the rail's own keys, and the facts that change."""

SHAPES: Mapping[str, Mapping[str, Row]] = {
    "board": {"length": ({"length": 310}, "outlines"), "width": ({"width": 120}, "outlines"),
              "corners": ({"corners": [5]}, "outlines"),
              "slants": ({"slants": [15, -15]}, "outlines")},
    "slats": {"length": ({"length": 310}, "each"), "width": ({"width": 95}, "parts each"),
              "gap": ({"gap": 60}, "parts"), "count": ({"count": 3}, "parts")},
    "rounded bar": {"length": ({"length": 310}, "outlines"), "width": ({"width": 120}, "outlines"),
                    "ends": ({"ends": "right"}, "outlines")},
    "notched bar": {"length": ({"length": 310}, "outlines"),
                    "width": ({"width": 120}, "outlines features"),
                    "notch": ({"notch": "square"}, "outlines features"),
                    "rod": ({"rod": 24}, "outlines features"),
                    "at": ({"at": [70, 180]}, "outlines features")},
    "disc": {"diameter": ({"diameter": 210}, "outlines")},
    "panel": {"length": ({"length": 310}, "outlines"), "width": ({"width": 120}, "outlines"),
              "round": ({"round": 9}, "outlines"),
              "openings": ({"openings": [{"at": [[150, 40]], "diameter": 20}]}, "openings")},
    "polygon": {"points": ({"points": [[0, 0], [200, 0], [200, 90]]}, "outlines"),
                # The sharp corner that stands at the front is cut back.
                "round": ({"round": [5]}, "outlines places")},
    "profile": {"points": ({"points": [[0, 0], [200, 0], [200, 90]]}, "outlines"),
                "rises": ({"rises": [0, 9, 0]}, "outlines")},
}  # fmt: skip
"""Shape -> its own keys, likewise; the parts lie loose, front at 0."""
GIVEN: Mapping[str, Mapping[str, Any]] = {
    "disc": {"diameter": 200},
    "notched bar": {"length": 300, "width": 95, "at": [70, 170]},
    "polygon": {"points": [[0, 0], [200, 0], [200, 100]]},
    "profile": {"points": [[0, 0], [200, 0], [200, 100]]},
    "slats": {"length": 300, "width": 70, "bottom": 30, "top": 390},
}

JOINTS: Mapping[str, Mapping[str, Row]] = {
    "screws": {
        "through": ({"through": "post", "into": "rail"}, "features screws uses joints"),
        "into": ({"through": "post", "into": "rail"}, "features screws uses joints"),
        "step": ({"step": "two"}, "screws steps"),
        "count": ({"count": 2}, "features screws bill words"),
        "depth": ({"depth": 40}, "features screws"),
        "width": ({"width": 13}, ""),  # it lies on the screw's own axis
        "height": ({"height": 240}, "features screws"),
        "use": ({"use": "trial"}, ""),  # screws are told by the parts that they join
        "glue": ({"glue": True}, "words"),
        "screw": ({"screw": "wood-4"}, "features screws bill"),
    },
    "pocket screws": {
        "count": ({"count": 3}, "features screws bill words"),
        "pockets": ({"pockets": "show"}, "features screws"),
        "clear_of": ({"clear_of": "block"}, "features screws"),
        "glue": ({"glue": False}, "words"),
        "screw": ({"screw": "pocket-fine"}, "screws bill"),  # the jig bores the same hole
        "jig": ({"jig": "pocket-15"}, ""),  # there is but one
    },
    "bolts": {
        "between": ({"through": "rail", "into": "post", "between": []}, ""),
        "turning": ({"turning": "rail"}, "words"),  # half a millimetre of play, as fixed ones have
        "bolt": ({"bolt": "coach-m6", "nut": "lock-m6", "washer": "washer-m6"},
                 "features screws bill words"),
        "nut": ({"nut": "hex-m8"}, "screws bill words"),  # lower, so that a shorter bolt will do
        "washer": ({"washer": "wide-m8"}, "bill"),
        "use": ({"use": "trial"}, "uses"),
    },
    "barrel nuts": {
        "from_end": ({"from_end": 44}, "features screws bill"),
        "nut_face": ({"nut_face": "show"}, "features"),
        "bolt": ({"bolt": "furniture-m8", "nut": "barrel-m8-20"}, "features screws bill words"),
        "nut": ({"nut": "barrel-m6-20"}, "features bill words"),
    },
    "inserts": {
        "bolt": ({"bolt": "furniture-m8", "insert": "insert-m8"}, "features screws bill words"),
        "insert": ({"insert": "insert-m8", "bolt": "furniture-m8"}, "features screws bill words"),
    },
    "glue": {},
    "hinges": {
        "on": ({"on": "right"}, "features screws"),
        "hinge": ({"hinge": "flap-50"}, "features screws bill words uses"),
        "screw": ({"screw": "wood-3.5"}, "features screws bill"),
    },
    "halving": {
        "slides": ({"slides": "up"}, "outlines"),
        "share": ({"share": 0.4}, "outlines"),
    },
    "tenons": {
        "tenon": ({"tenon": 50}, "outlines openings"),
        "hold": ({"hold": "press"}, "openings words"),
        "shy": ({"shy": 1}, "outlines"),
    },
    "wedged tenons": {
        "tenon": ({"tenon": 50}, "outlines openings"),
        "wedge": ({"wedge": 28}, "outlines openings"),
        "relish": ({"relish": 30}, "outlines"),
        "taper": ({"taper": 10}, "outlines places"),
        "drive": ({"drive": "front"}, "turns places"),
        "wedge_step": ({"wedge_step": "two"}, "steps"),
        "moves": ({"moves": "into"}, "fits"),
    },
    "bar": {
        "fit": ({"fit": "free"}, "features words"),
        "use": ({"use": "trial"}, ""),
        "through": ({}, ""), "into": ({"into": ["other-post", "post"]}, "joints"),
        "step": ({"step": "two"}, "steps"),
    },
    "wheels": {
        "wheel": ({"wheel": "wheel-200"}, "screws bill words"),
        "inner": ({"inner": 70}, "screws"),
        "through": ({}, ""), "step": ({"step": "two"}, "screws steps"),
    },
}  # fmt: skip
"""Kind of joint -> its keys, likewise; keys that all share stand with the first."""


def facts(made: Assembly) -> dict[str, object]:
    """What a piece is, by name of the fact; of parts that come and go only that they do."""
    parts, bars = made.parts, made.bars

    def of(get: Any) -> object:
        return {k: get(p) for k, p in parts.items() if k in ("post", "rail", "peg")
                or k.endswith("wedge-piece")}  # fmt: skip

    def tidy(values: Any) -> tuple[float, ...]:
        return tuple(round(v, 6) + 0.0 for v in values)

    return {
        "parts": sorted((*parts, *bars)),
        "outlines": of(lambda p: [tidy((*s.start, *s.end, s.bulge)) for s in p.outline]),
        "each": {k: tidy(p.outline.bounds) for k, p in parts.items() if k == "rail-1"},
        "spread": {k: tidy(p.frame.origin) for k, p in parts.items() if k.startswith("rail")},
        "openings": of(lambda p: [round(o.area, 6) for o in p.openings]),
        "places": of(lambda p: tidy(p.frame.origin)),
        "turns": of(lambda p: (tidy(p.frame.x), tidy(p.frame.z))),
        "features": of(lambda p: sorted(str(f.key()) for f in p.features)),
        "titles": of(lambda p: p.name),
        "boards": of(lambda p: p.board.key),
        "arrises": of(lambda p: p.arris),
        "hands": sorted({p.hand for k, p in parts.items() if k.startswith("rail")}),
        "joints": [(j.key, j.parts) for j in made.joints],
        "words": [j.words() for j in made.joints],
        "steps": [j.step for j in made.joints],
        "screws": sorted((f.kind, f.size, *tidy((*f.start, *f.direction)), f.step)
                         for f in made.fasteners),
        "bill": [(h.item, h.size, h.pieces) for h in made.hardware],
        "fits": [(f.part, f.onto) for f in made.fits],
        "uses": [h.use for h in made.hardware],
    }  # fmt: skip


@cache
def _built(text: str) -> Assembly:
    _, record = read_design({"composed": Composed}, text, "x.toml", known=PROFILES.known)
    found = list(PIECES["composed"].conflicts(record, PROFILES))
    assert found == []
    return PIECES["composed"].build(record, PROFILES)


def changed(before: dict[str, Any], after: dict[str, Any]) -> set[str]:
    one, other = (facts(_built(toml_text(raw))) for raw in (before, after))
    return {name for name, value in one.items() if other[name] != value}


def with_values(table: dict[str, Any], values: Mapping[str, Any]) -> None:
    """Set keys; None takes one away."""
    for key, value in values.items():
        table.pop(key, None)
        if value is not None:
            table[key] = value


def test_every_key_has_a_row() -> None:
    shared = set(PARTS)
    for shape, cls in PART_KINDS.items():
        own = set(specs_of(GENERATORS[shape].record)) if shape in GENERATORS else {"rod", "length"}
        assert set(specs_of(cls)) <= shared | own
        if shape in GENERATORS:
            assert set(SHAPES[shape]) == own
    first = set(JOINTS["screws"])
    for kind, cls in JOINT_KINDS.items():
        assert set(specs_of(cls)) <= first | set(JOINTS[kind]), kind
    assert set(JOINTS) == set(JOINT_KINDS)


@pytest.mark.parametrize("key", PARTS)
def test_keys_of_every_part(key: str) -> None:
    values, moves = PARTS[key]
    before = copy.deepcopy(BASE)
    if key in ("pair", "copies", "step", "step_to"):
        before = alone("board")
        before["parts"]["post"]["pair"] = "left"
        before["parts"]["floor"] = {
            "shape": "board", "board": "timber", "length": 500, "width": 120, "runs": "right",
            "shows": "up", "left": 0, "front": 0, "top": 0, "loose": True,
        }  # fmt: skip
    if key in ("step", "step_to"):
        with_values(before["parts"]["rail"], PARTS["copies"][0])
    after = copy.deepcopy(before)
    with_values(after["parts"]["rail"], values)
    rows = key in ("pair", "copies", "step", "step_to")
    looked = (
        {"parts", "hands", "spread"} if rows else set(facts(_built(toml_text(BASE)))) - {"spread"}
    )
    assert changed(before, after) & looked == set(moves.split())


def alone(shape: str) -> dict[str, Any]:
    """A post and a loose part of a shape before its rear edge."""
    raw = copy.deepcopy(BASE)
    raw.pop("joints")
    raw["parts"]["post"]["loose"] = True
    thing = {"board": "timber", "runs": "rear", "shows": "left", "left": "post.right", "front": 0,
             "bottom": 30, "loose": True, "shape": shape, "length": 300, "width": 95}  # fmt: skip
    if shape in GIVEN:
        thing = {k: v for k, v in thing.items() if k not in DERIVED} | dict(GIVEN[shape])
    raw["parts"]["rail"] = thing
    return raw


@pytest.mark.parametrize(("shape", "key"), [(s, k) for s, rows in SHAPES.items() for k in rows])
def test_keys_of_each_shape(shape: str, key: str) -> None:
    values, moves = SHAPES[shape][key]
    before = alone(shape)
    after = copy.deepcopy(before)
    with_values(after["parts"]["rail"], values)
    assert changed(before, after) - {"spread"} == set(moves.split())


FROM = {"runs": "right", "shows": "front", "left": "post.right", "mid_depth": "post.middle",
        "front": None}  # fmt: skip
LID = {"runs": "up", "shows": "left", "left": 0, "front": "post.rear", "bottom": 0}
CROSSING = {"runs": "right", "shows": "front", "width": 400, "bottom": 0, "left": None,
            "mid_width": "post.middle", "mid_depth": "post.middle", "front": None}  # fmt: skip
PEG = {"shape": "round bar", "rod": "hardwood-22", "runs": "right", "left": 0, "right": 327,
       "mid_depth": 47.5, "mid_height": 350}  # fmt: skip
SCENES: Mapping[str, tuple[Mapping[str, Any], Mapping[str, Any]]] = {
    "pocket screws": (FROM, {}),
    "barrel nuts": (FROM, {"through": "post", "into": "rail"}),
    "hinges": (LID, {"on": "left", "height": [100, 300]}),
    "halving": (CROSSING, {}),
    "tenons": (FROM, {"tenon": 60}),
    "wedged tenons": (FROM, {"tenon": 60, "drive": "rear"}),
}
"""Kind of joint -> the rail's keys and the joint's own, before any is changed."""
TWO_STEPS = [{"name": "one", "title": "One"}, {"name": "two", "title": "Two"}]


def scene(kind: str) -> dict[str, Any]:
    raw = copy.deepcopy(BASE)
    rail, joint = SCENES.get(kind, ({}, {}))
    with_values(raw["parts"]["rail"], rail)
    raw["steps"] = TWO_STEPS
    raw["joints"] = [{"kind": kind, "through": "rail", "into": "post", "step": "one", **joint}]
    if kind in ("bar", "wheels"):
        raw["parts"]["other-post"] = {"like": "post", "left": 300}
        raw["parts"]["peg"] = dict(PEG)
        raw["parts"]["rail"]["loose"] = True
        raw["joints"] = [{"kind": "bar", "through": "peg", "into": ["post", "other-post"],
                          "step": "one"}]  # fmt: skip
    if kind == "wheels":
        wheels = {"kind": kind, "through": "peg", "wheel": "wheel-160", "step": "one"}
        raw["joints"].insert(0, wheels)
    if kind == "bar":
        raw["parts"]["other-post"]["loose"] = True
    if kind == "pocket screws":
        # Above the rail and lower than its top, so that pockets make way for it.
        raw["parts"]["block"] = {
            "shape": "board", "board": "timber", "length": 200, "width": 45, "runs": "right",
            "shows": "front", "left": "post.right", "front": 0, "bottom": 270, "loose": True,
        }  # fmt: skip
    return raw


@pytest.mark.parametrize(("kind", "key"), [(k, key) for k, rows in JOINTS.items() for key in rows])
def test_keys_of_each_joint(kind: str, key: str) -> None:
    values, moves = JOINTS[kind][key]
    before = scene(kind)
    after = copy.deepcopy(before)
    with_values(after["joints"][0], values)
    assert changed(before, after) - {"spread"} == set(moves.split())


FIXINGS: Mapping[str, tuple[str, Mapping[str, Any], str]] = {
    "pocket_screw": ("pocket screws", {"pocket_screw": "pocket-fine"}, "screws bill"),
    "jig": ("pocket screws", {"jig": "pocket-15"}, ""),
    "wood_screw": ("screws", {"wood_screw": "wood-4"}, "features screws bill"),
    "tip_cover": ("screws", {"tip_cover": 9}, "features screws bill"),
    "bolt": ("bolts", {"bolt": "coach-m6", "nut": "lock-m6", "washer": "washer-m6"},
             "features screws bill words"),
    "nut": ("bolts", {"nut": "hex-m8"}, "screws bill words"),
    "washer": ("bolts", {"washer": "wide-m8"}, "bill"),
    "knock_down_bolt": ("inserts", {"knock_down_bolt": "furniture-m8", "insert": "insert-m8"},
                        "features screws bill words"),
    "insert": ("inserts", {"knock_down_bolt": "furniture-m8", "insert": "insert-m8"},
               "features screws bill words"),
    "barrel_nut": ("barrel nuts", {"barrel_nut": "barrel-m6-20"}, "features bill words"),
    "hinge": ("hinges", {"hinge": "flap-50"}, "features screws bill words uses"),
    "hinge_screw": ("hinges", {"hinge_screw": "wood-3.5"}, "features screws bill"),
    "fit": ("halving", {"fit": 0.5}, "outlines"),
}  # fmt: skip
"""Key of the fixings -> a joint that uses it, the keys set, and the facts that change."""


@pytest.mark.parametrize("key", specs_of(specs_of(Composed)["fixings"].record))
def test_fixings_count_where_a_joint_names_none(key: str) -> None:
    kind, values, moves = FIXINGS[key]
    before = scene(kind)
    after = {**copy.deepcopy(before), "fixings": dict(values)}
    assert changed(before, after) - {"spread"} == set(moves.split())
