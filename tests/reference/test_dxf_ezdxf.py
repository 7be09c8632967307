"""DXF files against ezdxf, a general-purpose library: its audit, and its own file tag by tag."""

from __future__ import annotations

import io
import math

import ezdxf
import pytest
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts import Modelspace

from flatpack.drawings.dimensioning import cross_lines, dimension_parts
from flatpack.drawings.ellipses import sampled
from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.shapes import (
    Circle,
    Closed,
    Cross,
    Dimension,
    Drawing,
    Ellipse,
    Line,
    Path,
    Shape,
    Stroke,
    Text,
)  # fmt: skip
from flatpack.geometry import Point, Segment, bulge_of, chain, closed
from flatpack.writers import dxf, make_dxf_templates

VERSIONS = ("R12", "R2000", "R2010", "R2018")
HANDLES = {5, 330, 340, 350, 360, 390, 347, 105}

SHAPES: dict[str, tuple[str, Shape]] = {
    "closed": ("outline", Closed(closed([(0, 0, 0), (93.7, 0, 1), (93.7, 41.3, 0), (0, 41.3, 0)]))),
    "path": ("slot", Path(chain([(10, 5, 0), (40, 5, bulge_of(90)), (50, 15, -0.3), (61, 30, 0)]))),
    "straight path": ("grain", Path(chain([(10, 5, 0), (40, 5, 0), (50.25, 15, 0)]))),
    "line": ("centre-line", Line(Point(0, 20.65), Point(140, 20.65))),
    "circle": ("drill-through", Circle(Point(93.7, 20.65), 4.25)),
    "ellipse": ("pocket-hole", Ellipse(Point(70, 20), Point(12, 5), 0.3)),
    "part ellipse": ("hidden-edge", Ellipse(Point(70, 20), Point(-3, 14), 0.5, 30, 250)),
    "text": ("text", Text(Point(5, 30), "Side rail")),
    "turned text": ("text", Text(Point(60, 60), "Ø 8 é", 5, 30, "middle", "top", True)),
    "right text": ("text", Text(Point(60, 60), "A", 5, 0, "right", "base")),
    "dimension": ("dimension", Dimension(Point(0, 41.3), Point(93.7, 41.3), 12)),
    "cross": ("centre-line", Cross(Point(93.7, 20.65), 14)),
}


def _drawing(*names: str) -> Drawing:
    strokes = tuple(Stroke(*SHAPES[name]) for name in names or SHAPES)
    return Drawing("rail", "Side rail", (-20, -20, 180, 100), strokes)


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("shape", [*SHAPES, "all", "none"])
def test_audit_finds_nothing_to_say(version, shape, tmp_path):
    names = {"all": tuple(SHAPES)}.get(shape, (shape,))
    drawing = Drawing("a", "A", (0, 0, 1, 1), ()) if shape == "none" else _drawing(*names)
    path = tmp_path / "a.dxf"
    path.write_bytes(dxf.render(drawing, DEFAULT_LAYERS, version))
    audit = ezdxf.readfile(path).audit()
    assert audit.errors == []
    assert audit.fixes == []


def test_audit_would_find_a_missing_line_type(tmp_path):
    path = tmp_path / "a.dxf"
    data = dxf.render(_drawing("ellipse"), DEFAULT_LAYERS)
    path.write_bytes(data.replace(b"  6\nLONG-DASH-DOUBLE-DOT\n", b"  6\nNONE-SUCH\n"))
    assert ezdxf.readfile(path).audit().has_issues | ezdxf.readfile(path).audit().has_fixes


def _corners(segments: tuple[Segment, ...], is_closed: bool) -> list[tuple[float, float, float]]:
    rows = [(s.start.x, s.start.y, s.bulge) for s in segments]
    return rows if is_closed else [*rows, (*segments[-1].end, 0.0)]


def _add_polyline(space: Modelspace, rows: list, is_closed: bool, look: dict) -> None:
    add = space.add_polyline2d if space.doc.dxfversion == "AC1009" else space.add_lwpolyline
    add(rows, format="xyb", close=is_closed, dxfattribs=look)


def _add_text(space: Modelspace, text: Text, look: dict) -> None:
    align = TextEntityAlignment[
        {"base": "", "middle": "MIDDLE_", "top": "TOP_"}[text.up]
        + {"left": "LEFT", "middle": "CENTER", "right": "RIGHT"}[text.across]
    ]
    style = "TEXT_BOLD" if text.bold else "TEXT"
    entity = space.add_text(
        text.text, height=text.height, dxfattribs={**look, "style": style, "rotation": text.turn}
    )
    entity.set_placement(text.at, align=align)


def _add(space: Modelspace, shape: Shape, look: dict) -> None:
    if isinstance(shape, Closed):
        _add_polyline(space, _corners(shape.outline.segments, True), True, look)
    elif isinstance(shape, Path):
        _add_polyline(space, _corners(shape.segments, False), False, look)
    elif isinstance(shape, Line):
        space.add_line(shape.start, shape.end, dxfattribs=look)
    elif isinstance(shape, Circle):
        space.add_circle(shape.centre, shape.radius, dxfattribs=look)
    elif isinstance(shape, Text):
        _add_text(space, shape, look)
    elif isinstance(shape, Ellipse) and space.doc.dxfversion == "AC1009":
        rows = [(*p, 0.0) for p in sampled(shape, 0.01)]
        _add_polyline(space, rows, shape.end - shape.start == 360, look)
    elif isinstance(shape, Ellipse):
        start, end = math.radians(shape.start), math.radians(shape.end)
        space.add_ellipse(shape.centre, shape.major, shape.ratio, start, end, dxfattribs=look)
    elif isinstance(shape, Cross):
        for line in cross_lines(shape):
            _add(space, line, look)
    else:
        lines, text = dimension_parts(shape)
        for part in (*lines, text):
            _add(space, part, look)


def _reference(version: str) -> ezdxf.document.Drawing:
    doc = make_dxf_templates.document(version)
    for key, shape in SHAPES.values():
        layer = DEFAULT_LAYERS[key]
        name = layer.short if version == "R12" else layer.name
        if name not in doc.layers:
            line = "Continuous" if layer.line == "continuous" else layer.line.upper()
            doc.layers.add(name, color=layer.colour, linetype=line)
        _add(doc.modelspace(), shape, {"layer": name})
    return doc


def _entities(text: str) -> list[list[tuple[int, object]]]:
    """Entities with their tags in order; handles out, numbers as numbers."""
    lines = text.split("\n")
    tags = list(zip(map(int, lines[:-1:2]), lines[1::2], strict=False))
    found: list[list[tuple[int, object]]] = []
    start = tags.index((2, "ENTITIES"))
    for code, value in tags[start + 1 :]:
        if (code, value) == (0, "ENDSEC"):
            break
        if code == 0:
            found.append([])
        if code not in HANDLES:
            number = 10 <= code < 60 or 210 <= code < 240
            found[-1].append((code, float(value) if number else value))
    return found


#: Tags that only repeat what the reference gives as their default: width 0 (43), straight (42),
#: text turn 0 (50), base line (73), and the extrusion straight up (210, 220, 230).
DEFAULTS = {(43, 0.0), (42, 0.0), (50, 0.0), (73, "0"), (210, 0.0), (220, 0.0), (230, 1.0)}


def _normal(entity: list[tuple[int, object]]) -> list[tuple[int, object]]:
    """Without defaults; the order of a text's tags, which has no meaning, is made the same."""
    kept = [tag for tag in entity if tag not in DEFAULTS]
    if entity[0] == (0, "VERTEX"):
        return [tag for tag in kept if tag != (70, "0")]
    if entity[0] != (0, "TEXT"):
        return kept
    tags = dict(kept)
    aligned = tags.get(72, "0") != "0" or 73 in tags
    # Aligned, the first point is the reader's to work out; else the second one means nothing.
    idle = (10, 20, 30) if aligned else (11, 21, 31, 72)
    return sorted((t for t in kept if t[0] not in idle), key=lambda tag: (tag[0], str(tag[1])))


def _same(ours: list[tuple[int, object]], theirs: list[tuple[int, object]]) -> bool:
    """Tag by tag, numbers within a ten-millionth."""
    if [code for code, _ in ours] != [code for code, _ in theirs]:
        return False
    return all(
        abs(a - b) < 1e-7 if isinstance(a, float) and isinstance(b, float) else a == b
        for (_, a), (_, b) in zip(ours, theirs, strict=True)
    )


@pytest.mark.parametrize("version", VERSIONS)
def test_same_entities_as_ezdxf_tag_by_tag(version):
    stream = io.StringIO()
    _reference(version).write(stream)
    theirs = [_normal(e) for e in _entities(stream.getvalue())]
    data = dxf.render(_drawing(), DEFAULT_LAYERS, version).decode(dxf.ENCODINGS[version])
    ours = [_normal(e) for e in _entities(data)]
    if version == "R12":  # the two texts with unit and tolerance
        ours = ours[:-2]
    for mine, reference in zip(ours, theirs, strict=True):
        assert _same(mine, reference), (mine, reference)


@pytest.mark.parametrize("version", VERSIONS)
def test_layers_read_back_as_the_table_has_them(version, tmp_path):
    path = tmp_path / "a.dxf"
    path.write_bytes(dxf.render(_drawing(), DEFAULT_LAYERS, version))
    layers = ezdxf.readfile(path).layers
    for key in {key for key, _ in SHAPES.values()}:
        row = DEFAULT_LAYERS[key]
        layer = layers.get(row.short if version == "R12" else row.name)
        assert layer.dxf.color == row.colour
        assert layer.dxf.linetype.lower() == row.line
        if version != "R12":
            assert layer.dxf.lineweight == round(row.weight * 100)


@pytest.mark.parametrize("version", VERSIONS)
def test_the_kept_template_is_what_ezdxf_makes_today(version):
    kept = (make_dxf_templates.FOLDER / f"{version.lower()}.dxf.txt").read_text(encoding="ascii")
    if f"ezdxf={ezdxf.__version__}\n" not in kept:
        pytest.skip("the kept template was made with another version of ezdxf")
    assert _classes_sorted(kept) == _classes_sorted(make_dxf_templates.template(version))


def _classes_sorted(text):
    """The template with its CLASS records in order: ezdxf lists them as documents before did."""
    head, *records = text.split("  0\nCLASS\n")
    if not records:
        return text
    last, tail = records[-1].split("  0\nENDSEC\n", 1)
    return head, sorted([*records[:-1], last]), tail
