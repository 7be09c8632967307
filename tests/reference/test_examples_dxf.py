"""Every DXF of every example: audited by ezdxf, and read again by GDAL (through pyogrio).

The areas that GDAL finds on the outline layer are held to the parts' exact areas.  Arcs become
chords of 0.1 degree there, short of the arc's area by less than 1e-6 of it.
"""

from __future__ import annotations

import io
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
TOLERANCE = 2e-6


@pytest.fixture(scope="module", params=PIECES, ids=[p.stem for p in PIECES])
def made(request) -> job.Design:
    piece: Path = request.param
    return job.design(read_text(str(piece)), piece.name, profile_texts())


def drawn(made: job.Design) -> list[Drawing]:
    sheets = job.sheets(made, ("parts", "boards"))
    return [s.content for s in sheets if s.format == "dxf" and isinstance(s.content, Drawing)]


@pytest.mark.parametrize("version", VERSIONS)
def test_ezdxf_finds_no_error(made: job.Design, version: str) -> None:
    layers = layer_set(made.workshop.layer_overrides())
    for drawing in drawn(made):
        text = dxf.render(drawing, layers, version).decode(dxf.ENCODINGS[version])
        document = ezdxf.read(io.StringIO(text))
        audit = document.audit()
        assert not audit.errors, (drawing.name, audit.errors)
        assert not audit.fixes, (drawing.name, audit.fixes)
        if version != "R12":
            assert document.units == ezdxf.units.MM


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_gdal_finds_the_same_outlines_and_holes(
    made: job.Design, version: str, tmp_path: Path
) -> None:
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
            assert sum(r.area for r in rings) == pytest.approx(exact, rel=TOLERANCE), drawing.name


def _ring(shape):
    return shape if shape.geom_type == "Polygon" else shapely.Polygon(shape.coords)


def test_the_parts_files_hold_the_parts(made: job.Design) -> None:
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
