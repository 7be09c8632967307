"""DXF, the router shop's file: entities written straight into a ready template document.

The templates (header, tables, blocks and objects of each version) were made and audited with a
general-purpose library beforehand; only layer records, extents and entities are written here.
Millimetres are declared in the header; R12 can't declare a unit, so there it stands as text
beside the drawing.  Fills of painted sheets are not written: a cut drawing has none.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from itertools import count
from pathlib import Path
from typing import Literal, NamedTuple

from flatpack.drawings.layers import Layer, LayerSet
from flatpack.drawings.plain import Box, PlainStroke, extents, plain_strokes
from flatpack.drawings.shapes import Drawing, Ellipse, Text
from flatpack.geometry import Point
from flatpack.writers import dxf_entities, dxf_r12
from flatpack.writers.dxf_entities import Pen
from flatpack.writers.dxf_text import written_text
from flatpack.writers.numerals import decimal as n

Version = Literal["R12", "R2000", "R2010", "R2018"]

#: R2007 and later are UTF-8; those before use the code page that their header names.
ENCODINGS: Mapping[Version, str] = {
    "R12": "cp1252",
    "R2000": "cp1252",
    "R2010": "utf-8",
    "R2018": "utf-8",
}

_FOLDER = Path(__file__).with_name("templates")


class _Template(NamedTuple):
    text: str
    handles: Mapping[str, str]


def render(
    drawing: Drawing,
    layers: LayerSet,
    version: Version = "R2010",
    unit_text: str = "All sizes in millimetres",
    ellipse_text: str = "Ellipses as straight chords within {} mm",
) -> bytes:
    """The drawing as a DXF file.

    Args:
        drawing: shapes in mm at full size; only the layers that it uses are written.
        layers: the workshop's layers; R12 takes their short names.
        version: R12, R2000, R2010 or R2018.
        unit_text: what R12 says for want of a unit, on the text layer.
        ellipse_text: what R12 says when the drawing has ellipses; {} is the tolerance.

    Raises:
        ValueError: text on a layer that may not carry it, or a number that isn't finite.
        KeyError: a layer or version that doesn't exist.
    """
    strokes = plain_strokes(drawing, layers)
    box = extents(s.shape for s in strokes)
    if version == "R12":
        strokes, box = _with_unit(strokes, box or drawing.bounds, unit_text, ellipse_text)
    values = _content(strokes, layers, version)
    values |= _sizes(box or drawing.bounds)
    return (_template(version).text % values).encode(ENCODINGS[version])


def _content(strokes: Sequence[PlainStroke], layers: LayerSet, version: Version) -> dict[str, str]:
    """Layer records, entities and the first handle that is left, in the order of their handles."""
    handles = _template(version).handles
    numbers = count(int(handles["free"], 16))

    def handle() -> str:
        """The next free handle, a hexadecimal number."""
        return f"{next(numbers):X}"

    used = {s.layer for s in strokes}
    rows = [layer for layer in layers if layer.key in used]
    pens = {
        row.key: Pen(handle, handles["model"], _file_name(row, version), ENCODINGS[version])
        for row in rows
    }
    records = [_layer_record(row, pens[row.key], handles, version) for row in rows]
    return {
        "layer_count": str(len(rows) + 2),  # beside those that the template has
        "layer_records": "".join(records),
        "entities": _entities(strokes, pens, version),
        "seed": handle(),
    }


@cache
def _template(version: Version) -> _Template:
    """The version's template, read once: data of this package, as its code is."""
    text = (_FOLDER / f"{version.lower()}.dxf.txt").read_text(encoding="ascii")
    head, _, body = text.partition("\n")
    return _Template(body, dict(pair.split("=") for pair in head.split()))


def _entities(strokes: Iterable[PlainStroke], pens: Mapping[str, Pen], version: Version) -> str:
    emit = (dxf_r12 if version == "R12" else dxf_entities).EMIT
    return "".join([emit[type(shape)](pens[layer], shape) for layer, shape in strokes])


def _file_name(layer: Layer, version: Version) -> str:
    return layer.short if version == "R12" else written_text(layer.name, ENCODINGS[version])


def _layer_record(layer: Layer, pen: Pen, handles: Mapping[str, str], version: Version) -> str:
    """A row of the layer table; 370 is the weight in hundredths of a mm."""
    line = "Continuous" if layer.line == "continuous" else layer.line.upper()
    look = f"  2\n{pen.layer}\n 70\n0\n 62\n{layer.colour}\n  6\n{line}\n"
    if version == "R12":
        return f"  0\nLAYER\n  5\n{pen.handle()}\n{look}"
    opening = (
        f"  0\nLAYER\n  5\n{pen.handle()}\n330\n{handles['layers']}\n"
        "100\nAcDbSymbolTableRecord\n100\nAcDbLayerTableRecord\n"
    )
    weight = f"370\n{round(layer.weight * 100)}\n390\n{handles['plot']}\n"
    material = f"347\n{handles['material']}\n" if version in ("R2010", "R2018") else ""
    return opening + look + weight + material


def _sizes(box: Box) -> dict[str, str]:
    """Extents, and a view that shows all of them with a margin."""
    x0, y0, x1, y1 = box
    # The template's view is 1.34 times as wide as high.
    height = 1.1 * max(y1 - y0, (x1 - x0) / 1.34, 1.0)
    return {
        "x0": n(x0),
        "y0": n(y0),
        "x1": n(x1),
        "y1": n(y1),
        "view_x": n((x0 + x1) / 2.0),
        "view_y": n((y0 + y1) / 2.0),
        "view_height": n(height),
    }


def _with_unit(
    strokes: Sequence[PlainStroke], box: Box, unit_text: str, ellipse_text: str
) -> tuple[tuple[PlainStroke, ...], Box]:
    """R12: the unit, and the tolerance of ellipses, as text below the drawing."""
    lines = [unit_text]
    if any(type(s.shape) is Ellipse for s in strokes):
        lines.append(ellipse_text.format(n(dxf_r12.ELLIPSE_TOLERANCE)))
    notes = tuple(
        PlainStroke("text", Text(Point(box[0], box[1] - 8.0 - 6.0 * i), line))
        for i, line in enumerate(lines)
    )
    everything = (*strokes, *notes)
    below = extents(s.shape for s in notes) or box
    return everything, (box[0], below[1], max(box[2], below[2]), box[3])
