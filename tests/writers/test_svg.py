"""SVG checked against svgwrite, a general-purpose library: the same drawing element by element."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET

import pytest
import svgwrite
from svgwrite.shapes import Circle as SvgCircle

from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.shapes import Circle, Closed, Drawing, Ellipse, Line, Path, Stroke, Text
from flatpack.geometry import Point, bulge_of, chain, closed
from flatpack.writers import make_svg_shell, palette, svg

from .conftest import drawing_of

NS = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")

STROKES = (
    Stroke("outline", Closed(closed([(0, 0, 0), (100, 0, 1), (100, 40, 0), (0, 40, 0)]))),
    Stroke("opening", Path(chain([(10, 5, 0), (40, 5, bulge_of(90)), (50, 15, 0)]))),
    Stroke("drill-through", Circle(Point(20, 20), 4.25)),
    Stroke("pocket-hole", Ellipse(Point(60, 20), Point(0, 12), 0.25)),
    Stroke("centre-line", Line(Point(0, 20), Point(140, 20))),
    Stroke("text", Text(Point(5, 30), "Ø 8 < é & B", 3.6)),
    Stroke("text", Text(Point(50, 60), "L", 3.6, 90, "middle", "middle", True)),
)


def expected() -> svgwrite.Drawing:
    """STROKES by hand on a sheet from (-20, -20) to (180, 100): x + 20, 100 - y."""
    page = svgwrite.Drawing(size=("200mm", "120mm"), viewBox="0 0 200 120", debug=False)
    page.set_desc(title="Side rail", desc="hand: left")
    looks = {
        "outline": ("#000000", 0.5), "opening": ("#000000", 0.25),
        "drill-through": ("#000000", 0.13), "pocket-hole": ("#000000", 0.25),
        "centre-line": ("#000000", 0.18), "text": ("#000000", 0.25),
    }  # fmt: skip
    groups = {
        key: page.add(page.g(id=key, fill="none", stroke=colour, stroke_width=width))
        for key, (colour, width) in looks.items()
    }
    # A half circle of radius 20 that bulges right: anticlockwise here is sweep 0 in SVG.
    outline = ["M", 20, 100, "L", 120, 100, "A", 20, 20, 0, 0, 0, 120, 60, "L", 20, 60, "Z"]
    groups["outline"].add(page.path(outline))
    groups["opening"].add(page.path(["M", 30, 95, "L", 60, 95, "A", 10, 10, 0, 0, 0, 70, 85]))
    circle: SvgCircle = page.circle(center=(40, 80), r=4.25)
    groups["drill-through"].add(circle)
    # Half axes 12 (upright) and 3: both ends at x = 80, y = 80 - 12 and 80 + 12.
    arcs = ["A", 12, 3, -90, 0, 0]
    groups["pocket-hole"].add(page.path(["M", 80, 68, *arcs, 80, 92, *arcs, 80, 68, "Z"]))
    groups["centre-line"].add(page.line((20, 80), (160, 80)))
    # Capitals of 3.6 in a font of size 5 (capitals of 0.72); middle: half a capital below.
    lettering = {"font_size": 5, "fill": "#000000", "stroke": "none"}
    groups["text"].add(page.text("Ø 8 < é & B", insert=(25, 70), **lettering))
    turned = page.text("L", insert=(71.8, 40), text_anchor="middle", font_weight="bold",
                       **lettering)  # fmt: skip
    turned.rotate(-90, center=(71.8, 40))
    groups["text"].add(turned)
    return page


def _plain(element: ET.Element) -> tuple[str, str, dict[str, object]]:
    attributes: dict[str, object] = {}
    for name, value in element.attrib.items():
        if name.startswith("data-") or name in (
            "stroke-dasharray",
            "stroke-linejoin",
            "stroke-linecap",
        ):
            continue
        letters = re.findall(r"[A-Za-z]+", value)
        attributes[name] = (letters, [round(float(v), 5) for v in NUMBER.findall(value)])
    return element.tag, (element.text or "").strip(), attributes


def _elements(text: str) -> list[tuple[str, str, dict[str, object]]]:
    return [_plain(e) for e in ET.fromstring(text).iter() if e.tag != f"{NS}defs"]


def test_same_elements_as_svgwrite():
    ours = _elements(svg.render(drawing_of(*STROKES), DEFAULT_LAYERS).decode())
    theirs = _elements(expected().tostring())
    assert ours[0][2].pop("font-family")
    ours[0][2].pop("xmlns", None)
    for mine, reference in zip(ours, theirs, strict=True):
        assert mine == reference


def test_the_kept_document_is_what_svgwrite_makes_today():
    assert make_svg_shell.PATH.read_text(encoding="ascii") == make_svg_shell.shell()


def test_one_unit_is_one_millimetre():
    """SVG 1.1 and CSS: mm width over the same viewBox number scales user units to mm."""
    root = ET.fromstring(svg.render(drawing_of(*STROKES), DEFAULT_LAYERS))
    assert (root.get("width"), root.get("height")) == ("200mm", "120mm")
    assert root.get("viewBox") == "0 0 200 120"


@pytest.mark.parametrize("sweep", [-300, -180, -90, 30, 90, 180, 200, 330])
def test_an_arc_runs_through_its_middle(sweep):
    """Centre of an SVG arc from its flags, after the implementation notes of SVG 1.1 (F.6.5).

    Near a half circle the centre hangs on the last written place: sqrt(2 r 0.5e-6) = 0.004 mm.
    """
    (segment,) = chain([(10, 10, bulge_of(sweep)), (40, 25, 0)])
    text = svg.render(drawing_of(Stroke("slot", Path((segment,)))), DEFAULT_LAYERS).decode()
    x1, y1, r, _, _, large, left, x2, y2 = map(
        float, NUMBER.findall(re.search(r' d="([^"]+)"', text).group(1))
    )
    hx, hy = (x1 - x2) / 2, (y1 - y2) / 2
    chord = hx * hx + hy * hy
    k = math.sqrt(max(r * r - chord, 0) / chord) * (-1 if large == left else 1)
    cx, cy = k * hy + (x1 + x2) / 2, -k * hx + (y1 + y2) / 2
    middle = segment.middle
    assert math.dist((cx, cy), (middle.x + 20, 100 - middle.y)) == pytest.approx(r, abs=0.004)
    # and it turns there on the side that the flag says: more than half a turn only if large
    assert (large == 1) == (abs(sweep) > 180)
    assert (left == 0) == (sweep > 0)


def test_strokes_stand_in_one_group_a_layer():
    mixed = (STROKES[0], STROKES[5], STROKES[2], STROKES[6])
    root = ET.fromstring(svg.render(drawing_of(*mixed), DEFAULT_LAYERS))
    assert [g.get("data-layer") for g in root.iter(f"{NS}g")] == [
        "outline",
        "drill-through",
        "text",
    ]


def test_a_painted_sheet_keeps_its_order():
    back, front = STROKES[0].shape, STROKES[0].shape.outline.moved(5, 5)
    drawing = drawing_of(
        Stroke("outline", Closed(back.outline, filled=True)), STROKES[4],
        Stroke("outline", Closed(front, filled=True)), STROKES[4],
    )  # fmt: skip
    root = ET.fromstring(svg.render(drawing, DEFAULT_LAYERS))
    groups = [(g.get("id"), g.get("data-layer")) for g in root.iter(f"{NS}g")]
    assert groups == [
        ("outline", "outline"), ("centre-line", "centre-line"),
        ("outline-2", "outline"), ("centre-line-2", "centre-line"),
    ]  # fmt: skip
    assert [p.get("fill") for p in root.iter(f"{NS}path")] == ["#ffffff", "#ffffff"]


def test_dashes_are_multiples_of_the_width():
    """ISO 128-2: dash 12 d, gap 3 d; layer "Hole blind" is 0.13 wide."""
    text = svg.render(drawing_of(Stroke("drill-blind", STROKES[2].shape)), DEFAULT_LAYERS).decode()
    assert 'stroke-dasharray="1.56 0.39"' in text


def test_black_style_has_no_other_colour(every_shape: Drawing):
    text = svg.render(every_shape, DEFAULT_LAYERS, svg.Style(black=True)).decode()
    assert set(re.findall(r"#[0-9a-f]{6}", text)) == {"#000000"}
    assert (
        len(set(re.findall(r"#[0-9a-f]{6}", svg.render(every_shape, DEFAULT_LAYERS).decode()))) > 1
    )


def test_texts_and_titles_are_escaped():
    drawing = Drawing("a", "A <b> & \x00c", (0, 0, 9, 9), (), (("x", '"1"'),))
    root = ET.fromstring(svg.render(drawing, DEFAULT_LAYERS))
    assert root.find(f"{NS}title").text == "A <b> &  c"
    assert root.find(f"{NS}desc").text == 'x: "1"'


def test_palette_agrees_with_the_reference_library():
    """ezdxf's table; from 107 on its darkest half tones (units 7 and 9) are its own."""
    from ezdxf import colors

    for index in (i for i in range(1, 250) if i != 7 and not (i > 106 and i % 10 in (7, 9))):
        ours = bytes.fromhex(palette.web_colour(index)[1:])
        assert max(abs(a - b) for a, b in zip(ours, colors.aci2rgb(index), strict=True)) <= 1
    with pytest.raises(ValueError, match="no palette colour 256"):
        palette.web_colour(256)
