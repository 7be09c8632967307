"""Every DXF of every example: audited by ezdxf, and read again by GDAL (through pyogrio).

The areas that GDAL finds on the outline layer are held to the parts' exact areas.  Arcs become
chords of at most h = 0.1 degree there; each leaves out r^2 (h - sin h) / 2 of its arc's area, so an
arc of sweep s no more than r^2 s h^2 / 12.
"""

from __future__ import annotations

import io
import math
from functools import cache
from pathlib import Path

import ezdxf
import pyogrio
import pytest
import shapely

from flatpack import job
from flatpack.drawings.layers import layer_set
from flatpack.drawings.marks import groups
from flatpack.drawings.plain import plain_strokes
from flatpack.drawings.shapes import Circle, Closed, Drawing
from flatpack.profile_files import profile_texts, read_text
from flatpack.writers import dxf

ROOT = Path(__file__).parents[2]
PIECES = sorted((ROOT / "profiles" / "pieces").glob("*.toml"))
VERSIONS = ("R12", "R2000", "R2010", "R2018")
STEP = math.radians(0.1)


WHOLE = ("orchard-lounger", "crew-bench", "tea-table", "clover-stool")
"""Examples read back in every version; each of the others in one, in turn."""


def pairs(versions: tuple[str, ...]) -> list[tuple[Path, str]]:
    """Each example with each version that it is read back in."""
    return [
        (piece, version)
        for number, piece in enumerate(PIECES)
        for place, version in enumerate(versions)
        if piece.stem in WHOLE or number % len(versions) == place
    ]


def each(versions: tuple[str, ...]) -> pytest.MarkDecorator:
    rows = pairs(versions)
    return pytest.mark.parametrize(
        ("piece", "version"), rows, ids=[f"{p.stem}-{version}" for p, version in rows]
    )


@cache
def made_of(piece: Path) -> job.Design:
    return job.design(read_text(str(piece)), piece.name, profile_texts())


def drawn(made: job.Design) -> list[Drawing]:
    sheets = job.sheets(made, ("parts", "boards"))
    return [s.content for s in sheets if s.format == "dxf" and isinstance(s.content, Drawing)]


@each(VERSIONS)
def test_ezdxf_finds_no_error(piece: Path, version: str) -> None:
    made = made_of(piece)
    layers = layer_set(made.workshop.layer_overrides())
    for drawing in drawn(made):
        text = dxf.render(drawing, layers, version).decode(dxf.ENCODINGS[version])
        document = ezdxf.read(io.StringIO(text))
        audit = document.audit()
        assert not audit.errors, (drawing.name, audit.errors)
        assert not audit.fixes, (drawing.name, audit.fixes)
        if version != "R12":
            assert document.units == ezdxf.units.MM


def _left_out(shape: Closed | Circle) -> float:
    """Area that chords instead of arcs may leave out or add, mm2."""
    if isinstance(shape, Circle):
        return shape.radius**2 * 2.0 * math.pi * STEP**2 / 12.0
    arcs = (s for s in shape.outline.segments if s.bulge)
    return sum(s.radius**2 * abs(s.sweep) for s in arcs) * STEP**2 / 12.0


@each(("R12", "R2010"))
def test_gdal_finds_the_same_outlines_and_holes(piece: Path, version: str, tmp_path: Path) -> None:
    made = made_of(piece)
    layers = layer_set(made.workshop.layer_overrides())
    pyogrio.set_gdal_config_options(
        {"OGR_ARC_STEPSIZE": "0.1", "DXF_ENCODING": dxf.ENCODINGS[version].upper()}
    )
    names = {(row.short if version == "R12" else row.name): row.key for row in layers}
    for drawing in drawn(made):
        path = tmp_path / "one.dxf"
        path.write_bytes(dxf.render(drawing, layers, version))
        meta, _, shapes, fields = pyogrio.raw.read(path)
        rows = dict(zip(meta["fields"], fields, strict=True))["Layer"]
        found: dict[str, list] = {}
        for name, shape in zip(rows, shapes, strict=True):
            found.setdefault(names[name], []).append(shapely.from_wkb(shape))
        ours: dict[str, list] = {}
        for stroke in plain_strokes(drawing, layers):
            if isinstance(stroke.shape, (Closed, Circle)):
                ours.setdefault(stroke.layer, []).append(stroke.shape)
        for layer in ("outline", "opening", "drill-through", "drill-blind", "counterbore"):
            exact = sum(
                s.outline.area if isinstance(s, Closed) else 3.141592653589793 * s.radius**2
                for s in ours.get(layer, [])
            )
            rings = [_ring(s) for s in found.get(layer, [])]
            assert len(rings) == len(ours.get(layer, [])), (drawing.name, layer)
            most = sum(map(_left_out, ours.get(layer, []))) + 1e-9 * exact
            assert sum(r.area for r in rings) == pytest.approx(exact, abs=most), drawing.name


def _ring(shape):
    return shape if shape.geom_type == "Polygon" else shapely.Polygon(shape.coords)


@pytest.mark.parametrize("piece", PIECES, ids=[p.stem for p in PIECES])
def test_the_parts_files_hold_the_parts(piece: Path) -> None:
    made = made_of(piece)
    """One outline a file, of the part's own exact area; as many files as distinct parts."""
    firsts = {g.mark: g.part for g in groups(made.assembly)}
    for drawing in drawn(made):
        mark = "-".join(t for t in drawing.name.split("-") if t[:1].isupper())
        outlines = [s.shape for s in drawing.strokes if s.layer == "outline"]
        if mark in firsts and outlines:
            (outline,) = outlines
            assert isinstance(outline, Closed)
            assert outline.outline.area == pytest.approx(firsts[mark].outline.area, rel=1e-12)
    stems = {d.name.split("-show")[0].split("-back-face")[0] for d in drawn(made)}
    assert len([s for s in stems if s[:1].isupper()]) >= len(firsts)
