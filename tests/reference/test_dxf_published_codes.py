"""Published values of the DXF reference, against what the writer writes.

Sources: DXF reference (published by the format's owner): LWPOLYLINE codes, $INSUNITS 4 = mm,
$ACADVER AC1009 (R12), AC1015 (2000), AC1024 (2010), AC1032 (2018); its note on bulges: tan of a
quarter of the included angle, negative when clockwise, radius u (b^2 + 1) / (4 b) for the chord u.
$MEASUREMENT 1 = metric: from memory.
"""

from __future__ import annotations

import math

import pytest

from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.shapes import Drawing, Path, Stroke
from flatpack.geometry import Point, Segment, bulge_of
from flatpack.writers import dxf

VERSIONS = {"R12": "AC1009", "R2000": "AC1015", "R2010": "AC1024", "R2018": "AC1032"}


def _values(version: str, *segments: Segment) -> list[tuple[int, str]]:
    strokes = (Stroke("slot", Path(segments)),) if segments else ()
    drawing = Drawing("a", "A", (0, 0, 10, 10), strokes)
    lines = dxf.render(drawing, DEFAULT_LAYERS, version).decode("cp1252").split("\n")
    return list(zip(map(int, lines[:-1:2]), lines[1::2], strict=True))


def _variable(tags: list[tuple[int, str]], name: str) -> tuple[int, str] | None:
    return tags[tags.index((9, name)) + 1] if (9, name) in tags else None


def _bulges(version: str, segment: Segment) -> list[float]:
    tags = _values(version, segment)
    first = tags.index((2, "ENTITIES"))
    last = tags.index((0, "ENDSEC"), first)
    return [float(value) for code, value in tags[first:last] if code == 42]


@pytest.mark.parametrize(("version", "code"), VERSIONS.items())
def test_version_codes(version, code):
    assert _variable(_values(version), "$ACADVER") == (1, code)


@pytest.mark.parametrize("version", ["R2000", "R2010", "R2018"])
def test_millimetres_are_declared(version):
    tags = _values(version)
    assert _variable(tags, "$INSUNITS") == (70, "4")
    assert _variable(tags, "$MEASUREMENT") == (70, "1")


def test_r12_cannot_declare_a_unit():
    assert _variable(_values("R12"), "$INSUNITS") is None


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize(("degrees", "bulge"), [(180, 1.0), (-180, -1.0), (90, 0.41421356)])
def test_bulge_of_a_half_and_a_quarter_circle(version, degrees, bulge):
    segment = Segment(Point(0, 0), Point(2, 0), bulge_of(degrees))
    assert _bulges(version, segment) == [pytest.approx(bulge, abs=1e-8)]


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("degrees", [3, 45, 120, 180, 300])
def test_radius_from_the_written_bulge(version, degrees):
    """u (b^2 + 1) / (4 b) against chord / (2 sin(angle / 2)) of plane geometry."""
    chord = 70.0
    (b,) = _bulges(version, Segment(Point(0, 0), Point(chord, 0), bulge_of(degrees)))
    assert chord * (b * b + 1) / (4 * b) == pytest.approx(
        chord / (2 * math.sin(math.radians(degrees) / 2)), rel=1e-7
    )
