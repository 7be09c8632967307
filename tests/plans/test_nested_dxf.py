"""Nested sheets as a shop reads them: through ezdxf, layer by layer, and against the nest."""

from __future__ import annotations

import io
import json
import math
from collections import Counter

import ezdxf
import pytest
from shapely import Polygon, box

from flatpack import job
from flatpack.drawings.plans.machined import machined
from flatpack.drawings.plans.nested import nested_drawing
from flatpack.drawings.plans.tabs import tabs
from flatpack.geometry.relief import square_corners
from flatpack.geometry.shapes import rectangle, round_ended
from flatpack.parameters import replace
from flatpack.planning import Asked, Counted, plans
from flatpack.profile_files import profile_texts, shipped_folder
from flatpack.profiles import SheetRow, Tabs, load

EXAMPLES = sorted((shipped_folder() / "pieces").glob("*.toml"))

BOTH = """\
name = "Two-face router"
process = "router"
cutters = [4, 6]
relief = "one-sided"
spacing = 4
margin = 12
kerf = 6
thickest = 40
bed = [[2550, 1300]]
both_faces = true
source = "made up"
clamps = [{ x = 1200, y = 0, length = 80, width = 60 }]
[tabs]
use = true
"""
LASER = """\
name = "Large laser"
process = "laser"
spacing = 3
margin = 10
kerf = 0.2
compensated = true
relief = "none"
thickest = 30
source = "made up"
"""
INSIDE = {"Hole through", "Hole blind", "Counterbore", "Countersink", "Slot", "Housing",
          "Part mark", "Opening"}  # fmt: skip


def read(content: bytes):
    document = ezdxf.read(io.StringIO(content.decode("utf-8")))
    assert document.audit().errors == []
    return document.modelspace()


def ring(entity) -> list[tuple[float, float]]:
    """Corners and points of arcs of a closed polyline."""
    assert entity.closed
    points: list[list[tuple[float, float]]] = []
    for part in entity.virtual_entities():
        if part.dxftype() == "ARC":
            found = list(part.flattening(0.005))
        else:
            found = [part.dxf.start, part.dxf.end]
        points.append([(p.x, p.y) for p in found])
    whole = list(points[0])
    for piece in points[1:]:
        turned = math.dist(piece[0], whole[-1]) > math.dist(piece[-1], whole[-1])
        whole += piece[::-1][1:] if turned else piece[1:]
    return whole


def outlines(space) -> list[Polygon]:
    return [Polygon(ring(e)) for e in space if e.dxf.layer == "Outline"]


@pytest.fixture
def nested(cut, own, pond):
    def run(key: str, text: str, *words: str, piece=pond):
        folder = own("workshops", key, text)
        return cut(piece, "--nest", "--workshop", key, "--profiles", folder, *words)

    return run


def test_sheets_for_a_router(nested, pond_piece):
    status, files = nested("both", BOTH)
    assert status == 0
    names = [n for n in files if n.endswith(".dxf") and "other" not in n]
    count, tab_count = 0, 0
    for name in names:
        space = read(files[name])
        layers = [e.dxf.layer for e in space]
        last_inside = max(i for i, layer in enumerate(layers) if layer in INSIDE)
        assert last_inside < layers.index("Outline")
        (edge,) = [e for e in space if e.dxf.layer == "Sheet edge"]
        sheet = Polygon(ring(edge))
        clamp = box(1200, 0, 1280, 60)
        parts = outlines(space)
        for i, part in enumerate(parts):
            # edge 14 = register hole 8 + 6; between 10 = spacing 4 + cut 6
            assert part.distance(sheet.exterior) >= 14.0 - 0.01
            assert part.distance(clamp) >= 10.0 - 0.01
            assert all(part.distance(o) >= 10.0 - 0.01 for o in parts[i + 1 :])
        count += len(parts)
        tab_count += layers.count("Tab")
        registers = [e for e in space if e.dxf.layer == "Register hole"]
        assert [e.dxf.radius for e in registers] == [4.0, 4.0]
        assert not any(p.distance(box(0, 0, 11, 11)) == 0.0 for p in parts)
    assert count == len(pond_piece.assembly.parts)
    assert tab_count >= 2 * count


def test_the_other_face_falls_on_the_first(nested):
    """Turned over left to right, every register hole and part lies on itself."""
    herbs = next(p for p in EXAMPLES if p.stem == "herb-planter")
    _, files = nested("both", BOTH, piece=herbs)
    (name,) = [n for n in files if "other-face" in n]
    first, second = read(files[name.replace("-other-face", "")]), read(files[name])
    (edge,) = [e for e in first if e.dxf.layer == "Sheet edge"]
    length = Polygon(ring(edge)).bounds[2]

    def holes(space, layer):
        return {
            (round(e.dxf.center.x, 6), round(e.dxf.center.y, 6))
            for e in space.query("CIRCLE") if e.dxf.layer == layer
        }  # fmt: skip

    registers = holes(first, "Register hole")
    assert registers == holes(second, "Register hole")
    assert {(round(length - x, 6), y) for x, y in registers} == registers
    bored = holes(second, "Hole blind")
    # four posts, two holes each
    assert len(bored) == 8
    hidden = holes(first, "Hidden edge")
    assert {(round(length - x, 6), y) for x, y in bored} <= hidden
    assert "Outline" not in {e.dxf.layer for e in second}


def test_a_laser_gets_outlines_half_a_kerf_larger_and_holes_smaller(nested):
    """Half of 0.2 all round: 0.2 more in length and width of an outline, 0.2 less in a hole."""
    plain = LASER.replace("compensated = true", "compensated = false")
    _, kerfed = nested("beam", LASER)
    _, bare = nested("plain", plain)
    one, other = (read(f["nest/nest-ply-18-1.dxf"]) for f in (kerfed, bare))
    sizes = []
    for space in (one, other):
        boxes = [p.bounds for p in outlines(space)]
        sizes.append([(x1 - x0, y1 - y0) for x0, y0, x1, y1 in boxes])
    for (a, b), (c, d) in zip(*sizes, strict=True):
        assert (a - c, b - d) == (pytest.approx(0.2, abs=1e-6), pytest.approx(0.2, abs=1e-6))
    radii = [Counter(round(e.dxf.radius, 6) for e in space.query("CIRCLE")
                     if e.dxf.layer == "Hole through") for space in (one, other)]  # fmt: skip
    assert Counter({round(r - 0.1, 6): n for r, n in radii[1].items()}) == radii[0]
    areas = [sum(p.area for p in outlines(space)) for space in (one, other)]
    lengths = sum(p.length for p in outlines(other))
    assert areas[0] - areas[1] == pytest.approx(0.1 * lengths, rel=2e-3)


def test_square_inside_corners_are_relieved(pond):
    """A rack with square notches: a relief in each bottom corner, as the profile wants it."""
    text = pond.read_text().replace('notch = "half-round"', 'notch = "square"')
    assert "square" in text
    made = job.design(text, "square", profile_texts())
    profiles = load(profile_texts())
    shop = profiles.workshop("small-router")
    found = plans([Counted(assembly=made.assembly)], Asked(stock=profiles.stock("default"),
                                                           shop=shop))  # fmt: skip
    for lot in found.lots:
        for part in lot.parts:
            corners = square_corners(part.group.part.outline)
            (drawn,) = [s.shape.outline for s in machined(part, shop).strokes
                        if s.layer == "outline"]  # fmt: skip
            halves = sum(s.bulge == -1.0 for s in drawn)
            own = sum(s.bulge == -1.0 for s in part.group.part.outline)
            assert halves - own == len(corners)


def test_limits_name_part_and_place(nested):
    thin = BOTH.replace("thickest = 40", "thickest = 12").replace("both_faces = true\n", "")
    status, files = nested("thin", thin.replace("cutters = [4, 6]", "cutters = [6]"))
    assert status == 1
    found = json.loads(files["findings.json"])["findings"]
    codes = {f["code"] for f in found}
    assert {"cutting-too-thick", "cutting-small-hole", "cutting-both-faces"} <= codes
    hole = next(f for f in found if f["code"] == "cutting-small-hole" and f["part"] == "D")
    assert "(22, 56.5)" in hole["message"]
    assert (hole["measured"], hole["limit"]) == (2.5, 6.0)
    assert all(f["part"] for f in found if f["code"] == "cutting-too-thick")


def test_an_older_control_gets_short_names_and_the_skin_in_words(cut, pond):
    _, files = cut(pond, "--nest", "--workshop", "older-router")
    document = ezdxf.read(io.StringIO(files["nest/nest-ply-18-1.dxf"].decode("cp1252")))
    assert document.dxfversion == "AC1009"
    layers = {e.dxf.layer for e in document.modelspace()}
    assert {"PROFILE", "SHEET_EDGE"} <= layers
    assert "TAB" not in layers
    texts = [e.dxf.text for e in document.modelspace().query("TEXT")]
    assert any("skin of 0.4" in text for text in texts)


def test_tabs_stand_on_straight_sides_no_further_apart_than_told():
    wanted = Tabs(use=True, width=6.0, height=2.0, spacing=400.0)
    for outline in (rectangle(1940.0, 148.0), round_ended(350.0, 32.0), rectangle(76.0, 76.0)):
        found = tabs(outline, wanted)
        assert len(found) >= max(2, outline.length / 400.0)
        for tab in found:
            assert math.isclose(tab.length, 6.0)
            assert any(
                s.bulge == 0.0 and abs(_off(s, tab.start)) + abs(_off(s, tab.end)) < 1e-6
                for s in outline
            )
    assert tabs(rectangle(10.0, 10.0), wanted) == ()


def _off(side, at) -> float:
    dx, dy = side.end.x - side.start.x, side.end.y - side.start.y
    return ((at.x - side.start.x) * dy - (at.y - side.start.y) * dx) / side.chord


def test_a_part_inside_an_opening_is_cut_before_the_opening(profiles, crew_piece):
    """A frame with a small part in its opening: small outline, then opening, then frame."""
    from dataclasses import replace as copied

    parts = crew_piece.assembly.parts
    first = next(iter(parts.values()))
    board = profiles.board("ply-18")
    frame = copied(first, key="f", name="Frame", board=board, outline=rectangle(900.0, 600.0),
                   openings=(rectangle(700.0, 400.0, 100.0, 100.0),), features=(),
                   hand="")  # fmt: skip
    small = copied(frame, key="s", name="Small", outline=rectangle(300.0, 200.0), openings=())
    assembly = copied(crew_piece.assembly, parts={"f": frame, "s": small}, bars={})
    shop = profiles.workshop("small-router")
    stock = replace(profiles.stock("default"), sheets=(
        SheetRow(board="ply-18", length=940.0, width=640.0),
    ))  # fmt: skip
    made = plans([Counted(assembly=assembly)], Asked(stock=stock, shop=shop))
    assert made.nests[0].nest.missing == ()
    assert len(made.nests[0].nest.sheets) == 1
    drawing = nested_drawing(made.nests[0], 1, shop, "code")
    edges = [(s.layer, round(s.shape.outline.area)) for s in drawing.strokes
             if s.layer in ("outline", "opening")]  # fmt: skip
    assert [layer for layer, _ in edges] == ["outline", "opening", "outline"]
    assert edges[0][1] == 60_000
    assert edges[2][1] == 540_000
