"""Time of one drawing of 340 entities: our writers, and general-purpose libraries on the same.

Targets: DXF within 0.25 of what ezdxf takes; SVG within what svgwrite takes with its checks off.
Run with `pytest tests/bench --benchmark-enable --benchmark-only`; each ours/theirs pair is a
group, so the table shows the ratio.
"""

from __future__ import annotations

import io

import pytest

from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.shapes import Circle, Closed, Drawing, Line, Stroke, Text
from flatpack.geometry import Point, closed
from flatpack.writers import dxf, svg

NAMES = {layer.key: layer.name for layer in DEFAULT_LAYERS}


@pytest.fixture(scope="module")
def sheet() -> Drawing:
    """40 rounded slats, each with 5 holes; 60 lines and 40 texts: 340 entities."""
    strokes = []
    for i in range(40):
        x = 61.37 * i
        corners = [(x, 0, 0), (x + 47.3, 0, 0.2), (x + 47.3, 611.9, 0), (x, 611.9, 0.3)]
        strokes.append(Stroke("outline", Closed(closed(corners))))
        strokes += [
            Stroke("drill-through", Circle(Point(x + 21.7, 33.3 + 90.1 * k), 2.25))
            for k in range(5)
        ]
        strokes.append(Stroke("text", Text(Point(x, -9.7), f"Slat {i}", 5.0)))
    strokes += [
        Stroke("grain", Line(Point(7.7 * i, 700.1), Point(7.7 * i + 3.3, 710))) for i in range(60)
    ]
    return Drawing("sheet", "Sheet", (0, -20, 2500, 720), tuple(strokes))


def _with_ezdxf(sheet: Drawing) -> str:
    import ezdxf

    doc = ezdxf.new("R2010")
    doc.header["$INSUNITS"] = 4
    for name in NAMES.values():
        doc.layers.add(name)
    space = doc.modelspace()
    for stroke in sheet.strokes:
        look, shape = {"layer": NAMES[stroke.layer]}, stroke.shape
        if isinstance(shape, Closed):
            rows = [(s.start.x, s.start.y, s.bulge) for s in shape.outline.segments]
            space.add_lwpolyline(rows, format="xyb", close=True, dxfattribs=look)
        elif isinstance(shape, Circle):
            space.add_circle(shape.centre, shape.radius, dxfattribs=look)
        elif isinstance(shape, Line):
            space.add_line(shape.start, shape.end, dxfattribs=look)
        else:
            space.add_text(shape.text, height=5, dxfattribs=look).set_placement(shape.at)
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue()


def _with_svgwrite(sheet: Drawing) -> str:
    import svgwrite

    page = svgwrite.Drawing(size=("2500mm", "740mm"), viewBox="0 0 2500 740", debug=False)
    groups = {key: page.add(page.g(id=key)) for key in NAMES}
    for stroke in sheet.strokes:
        group, shape = groups[stroke.layer], stroke.shape
        if isinstance(shape, Closed):
            path = page.path(["M", *shape.outline.segments[0].start])
            for s in shape.outline.segments:
                step = ["A", s.radius, s.radius, 0, 0, 0, *s.end] if s.bulge else ["L", *s.end]
                path.push(step)
            group.add(path)
        elif isinstance(shape, Circle):
            group.add(page.circle(shape.centre, shape.radius))
        elif isinstance(shape, Line):
            group.add(page.line(shape.start, shape.end))
        else:
            group.add(page.text(shape.text, insert=shape.at))
    return page.tostring()


@pytest.mark.benchmark(group="DXF of 340 entities")
def test_dxf_ours(benchmark, sheet):
    data = benchmark(dxf.render, sheet, DEFAULT_LAYERS)
    assert data.count(b"AcDbEntity") - 4 == len(sheet.strokes) == 340


@pytest.mark.benchmark(group="DXF of 340 entities")
def test_dxf_with_ezdxf(benchmark, sheet):
    text = benchmark(_with_ezdxf, sheet)
    assert text.count("AcDbEntity") - 4 == 340


@pytest.mark.benchmark(group="SVG of 340 elements")
def test_svg_ours(benchmark, sheet):
    data = benchmark(svg.render, sheet, DEFAULT_LAYERS)
    assert sum(map(data.count, (b"<path", b"<circle", b"<line", b"<text"))) == 340


@pytest.mark.benchmark(group="SVG of 340 elements")
def test_svg_with_svgwrite(benchmark, sheet):
    text = benchmark(_with_svgwrite, sheet)
    assert sum(map(text.count, ("<path", "<circle", "<line", "<text"))) == 340
