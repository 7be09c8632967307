"""Developer script: makes the DXF template documents with ezdxf; the program itself never runs it.

    python -m flatpack.writers.make_dxf_templates

A template is a whole, audited, empty document (header, tables, blocks, objects) with places for
what differs between drawings, in the form %(name)s; `dxf.render` fills them in.  Whatever would
change from one run to the next (dates, identifiers, the library's own marks) is taken out here.
The first line lists the handles that spliced records must name.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from importlib.metadata import version as installed
from pathlib import Path

from ezdxf.document import Drawing as Document
from ezdxf.filemanagement import new
from ezdxf.lldxf.tagger import ascii_tags_loader

from flatpack.drawings.layers import LINES

VERSIONS = ("R12", "R2000", "R2010", "R2018")
FOLDER = Path(__file__).with_name("templates")

#: Line patterns in the tables are drawn for this line width, mm.
PATTERN_WIDTH = 0.25

Tag = tuple[int, str]
Record = list[Tag]

_HEADER = {
    "$HANDSEED": ("%(seed)s",),
    "$EXTMIN": ("%(x0)s", "%(y0)s", "0.0"),
    "$EXTMAX": ("%(x1)s", "%(y1)s", "0.0"),
    "$LIMMIN": ("%(x0)s", "%(y0)s"),
    "$LIMMAX": ("%(x1)s", "%(y1)s"),
    "$PEXTMIN": ("0.0", "0.0", "0.0"),
    "$PEXTMAX": ("420.0", "297.0", "0.0"),
    "$DIMSTYLE": ("Standard",),
    "$LWDISPLAY": ("1",),
    "$FINGERPRINTGUID": ("{00000000-0000-4000-8000-000000000001}",),
    "$VERSIONGUID": ("{00000000-0000-4000-8000-000000000002}",),
}
_DROPPED = ("$TD", "$USRTIMER", "$LASTSAVEDBY", "$MENU")
_VIEW = {12: "%(view_x)s", 22: "%(view_y)s", 40: "%(view_height)s"}
_MODEL = {10: "%(x0)s", 20: "%(y0)s", 11: "%(x1)s", 21: "%(y1)s",
          14: "%(x0)s", 24: "%(y0)s", 34: "0.0", 15: "%(x1)s", 25: "%(y1)s", 35: "0.0"}  # fmt: skip
_PAPER = {14: "0.0", 24: "0.0", 34: "0.0", 15: "420.0", 25: "297.0", 35: "0.0"}


def document(version: str) -> Document:
    """An empty document with the units, line types and text styles that drawings use."""
    doc = new(version)
    if version != "R12":
        doc.header["$INSUNITS"] = 4
        doc.header["$MEASUREMENT"] = 1
    for name, pattern in LINES.items():
        if pattern:
            doc.linetypes.add(name.upper(), _lengths(pattern), description=name)
    for style, font in (("TEXT", "arial.ttf"), ("TEXT_BOLD", "arialbd.ttf")):
        doc.styles.new(style, dxfattribs={"font": "txt" if version == "R12" else font})
    return doc


def _lengths(pattern: tuple[float, ...]) -> list[float]:
    """Total, then dashes above and gaps below 0, mm."""
    signed = [k * PATTERN_WIDTH * (-1) ** i for i, k in enumerate(pattern)]
    return [sum(map(abs, signed)), *signed]


def template(version: str) -> str:
    """The template's text, its first line the handles it gives out.

    Raises:
        ValueError: ezdxf finds faults in the empty document.
    """
    doc = document(version)
    stream = io.StringIO()
    doc.write(stream)
    if doc.audit().has_issues:
        raise ValueError(f"{version}: the empty document has faults")
    records = _placed(_unmarked(list(_records(stream.getvalue()))))
    tags = (tag for record in records for tag in record)
    return _handles(doc) + "".join(
        f"{code:3d}\n{value}\n" if code >= 0 else value for code, value in tags
    )


def _handles(doc: Document) -> str:
    layer = doc.layers.get("0").dxf
    rows = {
        "model": doc.modelspace().layout_key,
        "layers": doc.layers.head.dxf.handle,
        "plot": layer.get("plotstyle_handle", "0"),
        "material": layer.get("material_handle", "0"),
        "free": f"{int(str(doc.entitydb.handles), 16):X}",
        "ezdxf": installed("ezdxf"),
    }
    return " ".join(f"{name}={value}" for name, value in rows.items()) + "\n"


def _records(text: str) -> Iterator[Record]:
    """Runs of tags, each begun by a tag with code 0 or 9 (a header variable)."""
    record: Record = []
    for code, value in ascii_tags_loader(io.StringIO(text.replace("%", "%%"))):
        if code in (0, 9) and record:
            yield record
            record = []
        record.append((code, str(value)))
    yield record


def _unmarked(records: list[Record]) -> list[Record]:
    """Without dates and without the library's notes about itself."""
    for record in records:
        if (3, "EZDXF_META") in record:
            at = record.index((3, "EZDXF_META"))
            meta = record[at + 1][1]
            del record[at : at + 2]
            records = [r for r in records if (5, meta) not in r[:2] and (330, meta) not in r]
    kept = [r for r in records if not (r[0][0] == 9 and r[0][1].startswith(_DROPPED))]
    for record in kept:
        if (1001, "EZDXF") in record:
            del record[record.index((1001, "EZDXF")) :]
        if record[:1] == [(0, "TABLE")] and (2, "APPID") in record:
            _count_less(record)
    return [r for r in kept if not (r[0] == (0, "APPID") and (2, "EZDXF") in r)]


def _count_less(record: Record) -> None:
    at = next(i for i, (code, _) in enumerate(record) if code == 70)
    record[at] = (70, str(int(record[at][1]) - 1))


def _placed(records: Iterable[Record]) -> Iterator[Record]:
    """With the places for header values, view, layers and entities."""
    table = ""
    for record in records:
        kind, name = record[0]
        if name == "TABLE":
            table = dict(record)[2]
        if kind == 9 and name in _HEADER:
            codes = (code for code, _ in record[1:])
            yield [record[0], *zip(codes, _HEADER[name], strict=True)]
        elif name == "TABLE" and table == "LAYER":
            yield [(c, "%(layer_count)s" if c == 70 else v) for c, v in record]
        elif name == "ENDTAB" and table == "LAYER":
            yield [(-1, "%(layer_records)s"), *record]
        elif (2, "ENTITIES") in record:
            yield [*record, (-1, "%(entities)s")]
        elif name == "VPORT":
            yield [(c, _VIEW.get(c, v)) for c, v in record]
        else:
            yield _layout(record) if name == "LAYOUT" else record


def _layout(record: Record) -> Record:
    at = record.index((100, "AcDbLayout"))
    places = _MODEL if (1, "Model") in record else _PAPER
    return record[:at] + [(c, places.get(c, v)) for c, v in record[at:]]


def main() -> None:
    """Write every template."""
    FOLDER.mkdir(exist_ok=True)
    for version in VERSIONS:
        path = FOLDER / f"{version.lower()}.dxf.txt"
        path.write_text(template(version), encoding="ascii", newline="\n")


if __name__ == "__main__":
    main()
