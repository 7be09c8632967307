"""DXF files read by GDAL (through pyogrio): the same count, length and area on every layer.

GDAL turns arcs into chords of 0.1 degree.  A chord's length falls short of its arc by
1 - sin(h)/h with h = 0.05 degree: 1.3e-7 of it; its area by about four times as much.  TOLERANCE
is above both.
"""

from __future__ import annotations

import math

import pyogrio
import pytest
import shapely

from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.shapes import Circle, Closed, Drawing, Ellipse, Line, Path, Stroke, Text
from flatpack.geometry import Point, bulge_of, chain, closed
from flatpack.writers import dxf

VERSIONS = ("R12", "R2000", "R2010", "R2018")
TOLERANCE = 1e-6

#: A bar 100 by 40 with a half circle of 20 on its right and a quarter circle of 40 on its left.
ENDED = closed([(0, 0, 0), (100, 0, 1), (100, 40, 0), (0, 40, bulge_of(90)), (-40, 0, 0)])
STROKES = (
    Stroke("outline", Closed(ENDED)),
    Stroke("outline", Closed(ENDED.turned(33).moved(300, 7))),
    Stroke("drill-through", Circle(Point(20, 20), 4.25)),
    Stroke("drill-through", Circle(Point(60, 20), 3)),
    Stroke("slot", Path(chain([(0, 0, 0), (30, 0, bulge_of(-270)), (60, 0, 0)]))),
    Stroke("centre-line", Line(Point(0, 0), Point(30, 40))),
    Stroke("text", Text(Point(5, 30), "Ø 8 é \u2013")),
    Stroke("pocket-hole", Ellipse(Point(60, 20), Point(12, 5), 0.25)),
)

# By hand.  Turning left from (0, 40) to (-40, 0) the quarter circle runs about (0, 0).
QUARTER, HALF = math.pi * 40 / 2, math.pi * 20
LENGTHS = {
    "outline": 2 * (100 + HALF + 100 + QUARTER + 40),
    "drill-through": 2 * math.pi * (4.25 + 3),
    "slot": 30 + 1.5 * math.pi * 30 / math.sqrt(2),
    "centre-line": 50.0,
}
AREAS = {
    "outline": 2 * (100 * 40 + math.pi * 20**2 / 2 + math.pi * 40**2 / 4),
    "drill-through": math.pi * (4.25**2 + 3**2),
    "pocket-hole": math.pi * 13 * 13 * 0.25,
}
COUNTS = {
    "outline": 2,
    "drill-through": 2,
    "slot": 1,
    "centre-line": 1,
    "text": 1,
    "pocket-hole": 1,
}


@pytest.fixture(params=VERSIONS)
def read(request, tmp_path):
    """Layer key -> geometries, as GDAL reads them."""
    drawing = Drawing("a", "A", (-50, -50, 500, 200), STROKES)
    path = tmp_path / "a.dxf"
    path.write_bytes(dxf.render(drawing, DEFAULT_LAYERS, request.param))
    # GDAL takes text as Latin-1 whatever the version (also in files that ezdxf wrote) unless told.
    encoding = dxf.ENCODINGS[request.param].upper()
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": "0.1", "DXF_ENCODING": encoding})
    meta, _, shapes, fields = pyogrio.raw.read(path)
    columns = dict(zip(meta["fields"], fields, strict=True))
    keys = {(row.short if request.param == "R12" else row.name): row.key for row in DEFAULT_LAYERS}
    found: dict[str, list] = {}
    for layer, shape, text in zip(columns["Layer"], shapes, columns["Text"], strict=True):
        found.setdefault(keys[layer], []).append((shapely.from_wkb(shape), text))
    return request.param, found


def test_counts(read):
    version, found = read
    notes = 2 if version == "R12" else 0  # unit, and the tolerance of ellipses
    assert {key: len(rows) for key, rows in found.items()} == {**COUNTS, "text": 1 + notes}


def test_lengths(read):
    _, found = read
    for key, length in LENGTHS.items():
        assert sum(_line(s).length for s, _ in found[key]) == pytest.approx(length, rel=TOLERANCE)


def test_areas(read):
    version, found = read
    for key, area in AREAS.items():
        # R12's ellipse is of chords within 0.01 mm: 0.01 round a boundary of about 55 mm.
        slack = 0.55 if version == "R12" and key == "pocket-hole" else TOLERANCE * area
        total = sum(shapely.Polygon(_line(s).coords).area for s, _ in found[key])
        assert total == pytest.approx(area, abs=slack, rel=0)


def test_texts(read):
    _, found = read
    assert "Ø 8 é \u2013" in {text for _, text in found["text"]}


def _line(shape):
    return shape.exterior if shape.geom_type == "Polygon" else shape
