"""The PDF writer: what a reader that isn't ours finds in it (pypdf; fontTools for the fonts)."""

from __future__ import annotations

import hashlib
import io
import math
import re
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest

import flatpack.writers
from flatpack.drawings.layers import DEFAULT_LAYERS, LINES
from flatpack.drawings.shapes import Circle, Drawing, Ellipse, Stroke, Text
from flatpack.drawings.shapes import Path as Chain
from flatpack.geometry import Point, bulge_of, chain
from flatpack.writers import pdf
from flatpack.writers.pdf_font import glyphs, width
from flatpack.writers.pdf_letters import LETTERS

from .conftest import SHAPES, drawing_of

FONTS = Path(flatpack.writers.__file__).parent / "templates"


def page_of(*strokes: Stroke, **more: object) -> bytes:
    return pdf.render([pdf.PdfPage(drawing_of(*strokes))], DEFAULT_LAYERS, **more)


def operators(data: bytes) -> str:
    return pypdf.PdfReader(io.BytesIO(data)).pages[0].get_contents().get_data().decode()


def curve_points(data: bytes) -> list[tuple[float, float]]:
    """Points along all cubic curves of a page, in the drawing's mm."""
    found, at = [], (0.0, 0.0)
    for numbers, op in re.findall(r"((?:-?[\d.]+ )+)([mlc])\b", operators(data)):
        v = [float(t) for t in numbers.split()]
        if op == "c":
            p = [at, *((v[i], v[i + 1]) for i in (0, 2, 4))]
            for t in (k / 20 for k in range(21)):
                w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
                found.append(
                    tuple(sum(a * q[i] for a, q in zip(w, p, strict=True)) for i in (0, 1))
                )
        at = (v[-2], v[-1])
    return found


def test_every_shape_is_written(every_shape: Drawing) -> None:
    text = operators(pdf.render([pdf.PdfPage(every_shape)], DEFAULT_LAYERS))
    assert text.count(" c ") > 10
    assert text.count("BT ") == 3  # two texts and a dimension


@pytest.mark.parametrize("radius", [0.5, 4.25, 60.0, 1500.0])
def test_a_circle_is_round(radius: float) -> None:
    data = page_of(Stroke("outline", Circle(Point(20.0, -7.0), radius)))
    points = curve_points(data)
    off = [abs(math.hypot(x - 20.0, y + 7.0) - radius) for x, y in points]
    assert len(points) == 12 * 21
    assert max(off) < 1e-6 + 5e-7 * radius


@pytest.mark.parametrize("sweep", [10.0, 90.0, -135.0, 270.0, 359.0])
def test_an_arc_keeps_its_radius_and_side(sweep: float) -> None:
    corners = [(0.0, 0.0, bulge_of(sweep)), (80.0, 30.0, 0.0)]
    segment = chain(corners)[0]
    data = page_of(Stroke("slot", Chain((segment,))))
    cx, cy = segment.centre
    points = curve_points(data)
    assert (
        max(abs(math.hypot(x - cx, y - cy) - segment.radius) for x, y in points)
        < 5e-7 * segment.radius + 1e-6
    )
    # The arc bulges to the right of travel when it turns left (anticlockwise).
    middle = points[len(points) // 2]
    assert math.dist(middle, segment.middle) < segment.length / 3.0


def test_an_ellipse_keeps_its_axes() -> None:
    data = page_of(Stroke("pocket-hole", Ellipse(Point(5.0, 6.0), Point(3.0, 4.0), 0.4, 20, 200)))
    for x, y in curve_points(data):
        u = ((x - 5.0) * 3.0 + (y - 6.0) * 4.0) / 5.0
        v = (-(x - 5.0) * 4.0 + (y - 6.0) * 3.0) / 5.0
        assert (u / 5.0) ** 2 + (v / 2.0) ** 2 == pytest.approx(1.0, abs=1e-5)


def test_dashes_and_widths_are_those_of_the_table() -> None:
    text = operators(page_of(Stroke("datum-edge", SHAPES["line"][1])))
    layer = DEFAULT_LAYERS["datum-edge"]
    assert f"{layer.weight:g} w" in text
    dashes = " ".join(f"{k * layer.weight:.6f}".rstrip("0").rstrip(".") for k in LINES[layer.line])
    assert f"[{dashes}] 0 d 1 J" in text


def test_text_reads_back_and_its_fonts_are_embedded() -> None:
    said = "Łóżko 12 Ø8.5, ½ — Größe Ω ж"
    data = page_of(Stroke("text", Text(Point(0, 0), said)),
                   Stroke("text", Text(Point(0, 9), "bold", bold=True)))  # fmt: skip
    reader = pypdf.PdfReader(io.BytesIO(data))
    assert said in reader.pages[0].extract_text()
    fonts = reader.pages[0]["/Resources"]["/Font"]
    assert len(fonts) == 2
    for font in fonts.values():
        descriptor = font["/DescendantFonts"][0].get_object()["/FontDescriptor"]
        assert len(descriptor["/FontFile2"].get_data()) > 500


def test_the_embedded_font_holds_only_what_is_used() -> None:
    ttlib = pytest.importorskip("fontTools.ttLib")
    data = page_of(Stroke("text", Text(Point(0, 0), "Ab")))
    reader = pypdf.PdfReader(io.BytesIO(data))
    font = reader.pages[0]["/Resources"]["/Font"]["/F0"]
    file = font["/DescendantFonts"][0].get_object()["/FontDescriptor"]["/FontFile2"].get_data()
    loaded = ttlib.TTFont(io.BytesIO(file), checkChecksums=2)
    outlines = [g for g in range(len(LETTERS) + 1)
                if loaded["glyf"][loaded.getGlyphName(g)].numberOfContours > 0]  # fmt: skip
    assert outlines == [0, *glyphs("Ab")]


@pytest.mark.parametrize(("bold", "name"), [(False, "sans.ttf"), (True, "sans-bold.ttf")])
def test_widths_are_the_fonts_own(bold: bool, name: str) -> None:
    ttlib = pytest.importorskip("fontTools.ttLib")
    font = ttlib.TTFont(FONTS / name)
    letters, advance = font.getBestCmap(), font["hmtx"]
    for letter in LETTERS:
        assert width(letter, bold) * 2048 == advance[letters[ord(letter)]][0]


def test_an_anchor_holds_with_the_fonts_width() -> None:
    data = page_of(Stroke("text", Text(Point(50, 10), "Side rail", 5.0, across="right")))
    at = re.search(r"1 0 0 1 ([-\d.]+) ([-\d.]+) Tm", operators(data).replace("-0 ", "0 "))
    size = 5.0 / (1493 / 2048)  # capitals of DejaVu Sans are 1493 of 2048 units high
    assert float(at[1]) == pytest.approx(50.0 - width("Side rail", False) * size, abs=1e-5)
    assert float(at[2]) == 10.0


def test_a_page_has_its_size_and_asks_not_to_be_scaled() -> None:
    reader = pypdf.PdfReader(io.BytesIO(page_of(title="Bänk", subject="s")))
    box = reader.pages[0].mediabox
    # 200 x 120 mm at 72 points to 25.4 mm.
    assert (float(box.width), float(box.height)) == pytest.approx((566.929, 340.157), abs=1e-3)
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert reader.metadata.title == "Bänk"
    assert "/CreationDate" not in reader.metadata


def test_the_same_pages_give_the_same_bytes_in_another_process() -> None:
    code = (
        "import hashlib, sys; sys.path.insert(0, 'tests/writers')\n"
        "from conftest import SHAPES, drawing_of\n"
        "from flatpack.drawings.layers import DEFAULT_LAYERS\n"
        "from flatpack.drawings.shapes import Stroke\n"
        "from flatpack.writers import pdf\n"
        "d = drawing_of(*(Stroke(l, s) for l, s in SHAPES.values()))\n"
        "print(hashlib.sha256(pdf.render([pdf.PdfPage(d)], DEFAULT_LAYERS, 't')).hexdigest())"
    )
    drawing = drawing_of(*(Stroke(layer, s) for layer, s in SHAPES.values()))
    here = hashlib.sha256(pdf.render([pdf.PdfPage(drawing)], DEFAULT_LAYERS, "t")).hexdigest()
    there = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True,
                           env={"PYTHONHASHSEED": "7", "PYTHONPATH": "."})  # fmt: skip
    assert there.stdout.strip() == here


def test_text_on_a_cut_layer_is_refused() -> None:
    with pytest.raises(ValueError, match="outline"):
        page_of(Stroke("outline", Text(Point(0, 0), "no")))


def test_a_letter_that_the_font_lacks_is_a_box() -> None:
    assert glyphs("A漢") == [glyphs("A")[0], 0]
