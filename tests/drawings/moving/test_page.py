"""The page: its geometry against the piece in 3D, its gaps against a geometry library, its form."""

from __future__ import annotations

import json
import math
import re
from itertools import pairwise

import pytest
import shapely
from shapely import affinity
from shapely.geometry import Polygon

from flatpack.drawings.moving.views import placed
from flatpack.mechanism.track import Stand
from flatpack.model import posed
from flatpack.writers import moving_html
from tests.drawings.moving.conftest import tree

NUMBER = r"-?\d+(?:\.\d+)?"


def steps_of(path: str) -> list[tuple[str, list[float]]]:
    return [
        (letter, [float(v) for v in re.findall(NUMBER, rest)])
        for letter, rest in re.findall(r"([MLAZ])([^MLAZ]*)", path)
    ]


def corners_of(path: str) -> list[tuple[float, float]]:
    """Ends of all sides of a path, as in the file."""
    return [(v[-2], v[-1]) for letter, v in steps_of(path) if letter != "Z"]


def moved(points, transform):
    """Points under an SVG transform list (SVG 2, 8.5): the last one acts first."""
    for kind, values in reversed(re.findall(r"(\w+)\(([^)]*)\)", transform)):
        v = [float(n) for n in values.split()]
        if kind == "translate":
            points = [(x + v[0], y + v[1]) for x, y in points]
        else:
            assert kind == "rotate"
            c, s = math.cos(math.radians(v[0])), math.sin(math.radians(v[0]))
            points = [(x * c - y * s, x * s + y * c) for x, y in points]
    return points


def shapes_by_name(made):
    """Body's key -> corners in its group's axes, read from the file."""
    paths = {n.attributes["id"]: n.attributes["d"] for n in made.tree.every("path")}
    return {b.name: corners_of(paths[f"b{i}"]) for i, b in enumerate(made.page.bodies)}


def side_view(part, axis):
    """Corners of a part's face or of its box, seen from the side, y down."""
    outline = [(p.x, p.y) for p in part.outline.points]
    found = [part.frame.place(x, y, z) for x, y in outline for z in (0.0, part.thickness)]
    return {(round(v.x - axis.x, 2), round(axis.z - v.z, 2)) for v in found}


FOLLOWED = {
    "back": (("brace-left", "#backs"), ("back-slat-2", "#backs"), ("arm-left", "#arms"),
             ("rail-left", "#front"), ("slat-3", "#still")),
    "lid": (("lid-batten-middle-1", "#backs"), ("lid-board-2", "#backs"), ("arm-left", "#arms"),
            ("left-board-1", "#front"), ("hinge-rail", "#still")),
}  # fmt: skip
"""Parts whose pictures are held to the posed piece, and the groups that they move with."""


def test_every_picture_shows_the_piece_as_posed_in_space(made):
    axis, shapes = made.study.motion.axis, shapes_by_name(made)
    figures = made.tree.every("ol", class_="strip")[0].every("svg")
    stands = [(0.0, made.study.motion.folded), *((s.angle, s.rod) for s in made.study.found.stops)]
    assert len(figures) == len(stands)
    for figure, (angle, rod) in zip(figures, stands, strict=True):
        turns = {
            u.attributes["href"]: u.attributes.get("transform", "") for u in figure.every("use")
        }
        pose = posed(made.assembly, angle, rod)
        for key, group in FOLLOWED[made.study.motion.panel]:
            wanted = side_view(pose.parts[key], axis)
            for x, y in moved(shapes[key], turns[group]):
                assert min(math.hypot(x - a, y - b) for a, b in wanted) < 0.02, (key, angle)
        ends = moved(shapes["rod"], turns["#arms"])
        middle = [(min(v) + max(v)) / 2.0 for v in zip(*ends, strict=True)]
        assert middle == pytest.approx([rod.x, -rod.y], abs=0.02)


def test_the_travel_keeps_arm_and_racks(made):
    # Rod's centre is the arm's length from the pivot; the rod stays out of the rack's wood.
    racks = shapely.union_all([
        Polygon([p for s in o for p in s.sampled(0.01)])
        for b in made.study.bodies
        if b.name.startswith(("rack-left", "bearer-left", "block-")) and "right" not in b.name
        for o in b.outlines
    ])  # fmt: skip
    data = json.loads(made.tree.every("script", id="travel")[0].text)
    reach = made.study.motion.arm
    pivot = made.study.motion.pivot
    for back, at, heading, *_ in data["moments"]:
        assert math.hypot(*at) == pytest.approx(math.hypot(*pivot), abs=0.01)
        turn = math.degrees(math.atan2(at[1], at[0]) - math.atan2(pivot.y, pivot.x))
        assert turn == pytest.approx(back, abs=0.01)
        x = at[0] + reach * math.cos(math.radians(heading))
        y = at[1] + reach * math.sin(math.radians(heading))
        room = racks.distance(shapely.Point(x, y))
        assert room >= made.study.motion.rod / 2.0 - 0.02


def test_steps_of_the_travel_are_small(made):
    rows = json.loads(made.tree.every("script", id="travel")[0].text)["moments"]
    assert 60 <= len(rows) <= 160
    for one, two in pairwise(rows):
        assert abs(two[0] - one[0]) < 4.0
        assert abs(two[2] - one[2]) < 6.0
    assert rows[0][0] == rows[-1][0] == 0.0
    assert max(r[0] for r in rows) == pytest.approx(made.study.path.over, abs=1e-3)


def polygon(outline):
    return Polygon([p for s in outline for p in s.sampled(0.002)])


def test_gaps_are_those_of_a_geometry_library(made):
    bodies = {b.name: b for b in made.study.bodies}
    arm, axes = made.study.motion.arm, ["frame", "back", "arm", "rod"]
    for m in made.page.moments[::9]:
        turned = {}
        for name in {n for p in made.page.pairs for n in (p.first, p.second)}:
            body = bodies[name]
            shape = shapely.union_all([polygon(o) for o in body.outlines])
            assert body.carrier.value in axes
            if body.carrier.value == "back":
                shape = affinity.rotate(shape, m.place.back, origin=(0, 0))
            elif body.carrier.value in ("arm", "rod"):
                shift = arm if body.carrier.value == "rod" else 0.0
                shape = affinity.translate(shape, shift, 0.0)
                shape = affinity.rotate(shape, m.place.heading, origin=(0, 0))
                shape = affinity.translate(shape, *m.place.pivot)
            turned[name] = shape
        found = [turned[p.first].distance(turned[p.second]) for p in made.page.pairs]
        assert found == pytest.approx([max(g, 0.0) for g in m.gaps], abs=0.05)
        assert m.gaps[m.near] == min(m.gaps)
        near = made.page.pairs[m.near]
        for name in (near.first, near.second):
            assert turned[name].distance(shapely.Point(m.where)) <= max(min(m.gaps), 0.0) + 0.05


def test_no_pair_is_nearer_than_its_least_on_the_whole_travel(made):
    for number, pair in enumerate(made.page.pairs):
        least = min(m.gaps[number] for m in made.page.moments)
        assert least >= pair.least - 0.011


def test_every_stop_can_be_read_without_scripting(made):
    strip = made.tree.every("ol", class_="strip")[0]
    items = strip.every("li")
    assert len(items) == len(made.study.found.stops) + 1
    for item, stop in zip(items[1:], made.study.found.stops, strict=True):
        assert f"{stop.angle:.1f}°" in item.words
        assert item.every("svg", role="img")[0].attributes["aria-label"].strip()
    moving = made.tree.every("section", id="move")[0]
    assert "hidden" in moving.attributes  # the script shows it
    assert not any(n is strip for n in moving.walk())


def test_the_page_needs_nothing_else(made):
    names = ("src", "href", "action", "data", "poster", "srcset", "xlink:href")
    for node in made.tree.walk():
        for name in names:
            assert node.attributes.get(name, "#").startswith("#"), node.attributes
        assert not any(k.startswith("on") for k in node.attributes)
    assert not re.search(r"https?:|//[a-z]|url\(|@import|fetch\(|XMLHttp|import\(", made.html)
    assert len(made.files[f"{made.page.name}.html"]) < 300_000


def test_what_is_referred_to_is_there_once(made):
    ids = [n.attributes["id"] for n in made.tree.walk() if "id" in n.attributes]
    assert len(ids) == len(set(ids))
    for node in made.tree.walk():
        for name in ("href", "for", "aria-labelledby", "aria-describedby"):
            value = node.attributes.get(name, "")
            assert not value or value.lstrip("#") in ids
    data = json.loads(made.tree.every("script", id="travel")[0].text)
    used = [v for p in data["pairs"] for k, v in p.items() if k != "title"]
    assert len(used) == 2 * len(made.page.pairs)
    assert set(used) <= set(ids)
    script = made.tree.every("script")[-1].text
    for name in re.findall(r'part\("([\w-]+)"\)', script):
        assert name in ids


def test_language_title_headings_and_labels(made):
    (html,) = made.tree.every("html")
    assert html.attributes["lang"] == "en"
    assert made.assembly.name in made.tree.every("title")[0].text
    levels = [int(n.name[1]) for n in made.tree.walk() if re.fullmatch(r"h[1-6]", n.name)]
    assert levels.count(1) == 1
    assert all(b - a <= 1 for a, b in pairwise(levels))
    (slider,) = made.tree.every("input")
    assert slider.attributes["type"] == "range"
    assert made.tree.every("label", for_=slider.attributes["id"])
    assert int(slider.attributes["max"]) == len(made.page.moments) - 1
    values = [int(b.attributes["value"]) for b in made.tree.every("button")]
    assert [made.page.moments[v].stop for v in values] == list(range(len(values)))
    assert "prefers-reduced-motion" in made.tree.every("script")[-1].text


def luminance(colour: str) -> float:
    """Relative luminance of a grey (WCAG 2.2, definition)."""
    level = int(colour[1:3] if len(colour) == 7 else colour[1] * 2, 16) / 255.0
    return level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4


def test_only_greys_and_enough_contrast(made):
    style = made.tree.every("style")[0].text
    colours = set(re.findall(r"#[0-9a-f]{3,6}\b", style))
    for colour in colours:
        digits = colour[1:]
        assert len(set(digits)) == 1 or digits[:2] == digits[2:4] == digits[4:]
    for name in ("stroke", "color", "border[a-z-]*"):
        for colour in re.findall(rf"[ ;{{]{name}: (?:[\w.]+ )*(#[0-9a-f]+)", style):
            contrast = 1.05 / (luminance(colour) + 0.05)
            assert contrast >= 4.5 or colour == "#fff"  # WCAG 2.2, 1.4.3 and 1.4.11


def test_the_same_bytes_each_time(made):
    assert moving_html.render(made.page) == made.files[f"{made.page.name}.html"]


def test_text_of_the_piece_cannot_break_the_page(made):
    from dataclasses import replace

    odd = replace(made.page, title='a < b & </script> "c"', warning="<b>")
    root = tree(moving_html.render(odd).decode())
    assert root.every("h1")[0].text == 'a < b & </script> "c"'
    assert not root.every("b")


def test_a_path_that_is_wrong_is_found(made):
    # The comparison with the posed piece can fail: the same stop a degree further.
    stop = made.study.found.stops[0]
    key = FOLLOWED[made.study.motion.panel][0][0]
    seen = next(b for b in made.page.bodies if b.name == key)
    tip = placed(seen, Stand(stop.angle + 1.0, stop.pivot, stop.rod)).points[1]
    wanted = side_view(
        posed(made.assembly, stop.angle, stop.rod).parts[key], made.study.motion.axis
    )
    assert min(math.hypot(tip.x - a, -tip.y - b) for a, b in wanted) > 1.0


def test_broken_html_is_found():
    with pytest.raises(AssertionError):
        tree("<p><b></p></b>")
    with pytest.raises(AssertionError):
        tree("<ul><li>")
