"""Reads DXF files back as a strict reader would: tags, handles, owners, names.

The rules are those of the published DXF reference: a group code and a value a line each; a
handle is used once and lies below $HANDSEED; an owner exists; names are in the tables.
"""

from __future__ import annotations

import itertools
import re

import pytest

from flatpack.drawings.layers import DEFAULT_LAYERS, LINES
from flatpack.drawings.shapes import Circle, Closed, Drawing, Ellipse, Line, Stroke, Text
from flatpack.geometry import Point, closed
from flatpack.writers import dxf

from .conftest import drawing_of

VERSIONS = tuple(dxf.ENCODINGS)
INTEGER = {*range(60, 80), *range(90, 100), *range(160, 180), *range(270, 290), *range(370, 390)}
REAL = {*range(10, 60), *range(110, 150), *range(210, 240), *range(460, 470)}

Tag = tuple[int, str]


def tags_of(data: bytes, version: str) -> list[Tag]:
    """Every tag, its code and form checked."""
    text = data.decode(dxf.ENCODINGS[version])
    assert "\r" not in text
    assert text.endswith("\n")
    lines = text[:-1].split("\n")
    assert len(lines) % 2 == 0
    tags = [(int(code), value) for code, value in zip(lines[::2], lines[1::2], strict=True)]
    assert all(len(code) == 3 for code in lines[::2])
    for code, value in tags:
        if code in REAL:
            assert re.fullmatch(r"-?\d+\.\d+", value), (code, value)
            assert value != "-0.0"
        elif code in INTEGER:
            int(value)
    return tags


def header_of(tags: list[Tag]) -> dict[str, list[str]]:
    """Header variables and their values."""
    found: dict[str, list[str]] = {}
    for i, (code, value) in enumerate(tags):
        if code == 9:
            rest = tags[i + 1 : i + 4]
            found[value] = []
            for inner_code, inner in rest:
                if inner_code in (9, 0):
                    break
                found[value].append(inner)
    return found


def records_of(tags: list[Tag]) -> list[list[Tag]]:
    """Runs of tags that each begin with code 0."""
    starts = [i for i, (code, _) in enumerate(tags) if code == 0] + [len(tags)]
    return [tags[a:b] for a, b in itertools.pairwise(starts)]


def entities_of(tags: list[Tag]) -> list[list[Tag]]:
    """The records of the ENTITIES section."""
    records = records_of(tags)
    first = next(i for i, r in enumerate(records) if r[:2] == [(0, "SECTION"), (2, "ENTITIES")])
    last = next(i for i, r in enumerate(records[first:], first) if r[0] == (0, "ENDSEC"))
    return records[first + 1 : last]


def names_in(records: list[list[Tag]], kind: str) -> set[str]:
    """Names in a table."""
    return {dict(r)[2] for r in records if r[0] == (0, kind) and 2 in dict(r)}


@pytest.mark.parametrize("version", VERSIONS)
def test_sections_open_and_close_in_order(version, every_shape: Drawing):
    tags = tags_of(dxf.render(every_shape, DEFAULT_LAYERS, version), version)
    records = records_of(tags)
    names = [r[1][1] for r in records if r[0] == (0, "SECTION")]
    order = ["HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"]
    assert names == [n for n in order if version != "R12" or n not in ("CLASSES", "OBJECTS")]
    assert sum(r[0] == (0, "ENDSEC") for r in records) == len(names)
    assert tags[-1] == (0, "EOF")


@pytest.mark.parametrize("version", VERSIONS)
def test_handles_are_unique_and_below_the_seed(version, every_shape: Drawing):
    tags = tags_of(dxf.render(every_shape, DEFAULT_LAYERS, version), version)
    seed = int(header_of(tags)["$HANDSEED"][0], 16)
    handles = []
    for record in records_of(tags):
        code = 105 if record[0] == (0, "DIMSTYLE") else 5
        handles += [value for c, value in record if c == code and record[0][1] != "SECTION"][:1]
    real = [int(h, 16) for h in handles if h]
    assert len(real) > 40
    assert len(set(real)) == len(real)
    assert min(real) > 0
    assert max(real) < seed


@pytest.mark.parametrize("version", [v for v in VERSIONS if v != "R12"])
def test_owners_exist_and_classes_are_marked(version, every_shape: Drawing):
    tags = tags_of(dxf.render(every_shape, DEFAULT_LAYERS, version), version)
    records = records_of(tags)
    handles = {dict(r).get(105 if r[0][1] == "DIMSTYLE" else 5) for r in records} | {"0"}
    owned = [(r[0][1], value) for r in records for code, value in r if code == 330]
    assert owned
    assert [o for o in owned if o[1] not in handles] == []
    for entity in entities_of(tags):
        marks = [value for code, value in entity if code == 100]
        assert marks[0] == "AcDbEntity"
        assert len(marks) >= 2
        assert [code for code, _ in entity[:4]] == [0, 5, 330, 100]


@pytest.mark.parametrize("version", VERSIONS)
def test_every_name_used_is_defined(version, every_shape: Drawing):
    tags = tags_of(dxf.render(every_shape, DEFAULT_LAYERS, version), version)
    records = records_of(tags)
    layers, lines = names_in(records, "LAYER"), names_in(records, "LTYPE")
    styles = names_in(records, "STYLE")
    entities = entities_of(tags)
    used = {value for e in entities for code, value in e if code == 8}
    assert used
    assert used <= layers
    assert layers - used == {"0", "Defpoints"}
    assert {value for r in records if r[0][1] == "LAYER" for c, value in r if c == 6} <= lines
    assert {value for e in entities for c, value in e if c == 7} <= styles
    assert header_of(tags)["$DIMSTYLE"][0] in names_in(records, "DIMSTYLE")
    count = next(r for r in records if r[:2] == [(0, "TABLE"), (2, "LAYER")])
    assert dict(count)[70] == str(len(layers))


@pytest.mark.parametrize("version", VERSIONS)
def test_line_patterns_are_those_of_the_layer_table(version):
    tags = tags_of(dxf.render(drawing_of(), DEFAULT_LAYERS, version), version)
    for record in records_of(tags):
        if record[0] == (0, "LTYPE") and dict(record)[2].lower() in LINES:
            pattern = LINES[dict(record)[2].lower()]
            steps = [abs(float(v)) / 0.25 for code, v in record if code == 49]
            assert steps == pytest.approx(pattern)
            assert float(dict(record)[40]) == pytest.approx(sum(pattern) * 0.25)


def test_extents_are_those_of_the_true_arcs():
    """A half circle of radius 20 on the right of a 100 by 40 bar reaches x = 120 (by hand)."""
    bar = Closed(closed([(0, 0, 0), (100, 0, 1), (100, 40, 0), (0, 40, 0)]))
    # Half axes 10 and 5 turned 45 degrees reach sqrt((10^2 + 5^2) / 2) each way (by hand).
    tilted = Ellipse(Point(10, 60), Point(10 / 2**0.5, 10 / 2**0.5), 0.5)
    reach = (125 / 2) ** 0.5
    tags = tags_of(
        dxf.render(
            drawing_of(Stroke("outline", bar), Stroke("pocket-hole", tilted)), DEFAULT_LAYERS
        ),
        "R2010",
    )
    header = header_of(tags)
    assert [float(v) for v in header["$EXTMIN"]] == pytest.approx([0, 0, 0])
    assert [float(v) for v in header["$EXTMAX"]] == pytest.approx([120, 60 + reach, 0])


def test_extents_of_an_empty_drawing_are_its_sheet():
    header = header_of(tags_of(dxf.render(drawing_of(), DEFAULT_LAYERS), "R2010"))
    assert header["$EXTMIN"] == ["-20.0", "-20.0", "0.0"]
    assert header["$EXTMAX"] == ["180.0", "100.0", "0.0"]


@pytest.mark.parametrize("version", VERSIONS)
def test_no_dates_and_no_changing_identifiers(version, every_shape: Drawing):
    header = header_of(tags_of(dxf.render(every_shape, DEFAULT_LAYERS, version), version))
    assert [name for name in header if name.startswith("$TD")] == []
    assert {v for n, v in ((n, header[n][0]) for n in header if n.endswith("GUID"))} <= {
        "{00000000-0000-4000-8000-000000000001}",
        "{00000000-0000-4000-8000-000000000002}",
    }


def test_r12_says_its_unit_and_the_ellipses_tolerance_off_the_cut_layers(every_shape: Drawing):
    entities = entities_of(tags_of(dxf.render(every_shape, DEFAULT_LAYERS, "R12"), "R12"))
    texts = {dict(e)[1]: dict(e)[8] for e in entities if e[0][1] == "TEXT"}
    assert texts["All sizes in millimetres"] == "TEXT"
    assert texts["Ellipses as straight chords within 0.01 mm"] == "TEXT"
    plain = dxf.render(drawing_of(Stroke("grain", Line(Point(0, 0), Point(9, 0)))), DEFAULT_LAYERS,
                       "R12")  # fmt: skip
    assert [dict(e)[1] for e in entities_of(tags_of(plain, "R12")) if e[0][1] == "TEXT"] == [
        "All sizes in millimetres"
    ]


def test_r12_layer_names_are_short_and_upper_case(every_shape: Drawing):
    tags = tags_of(dxf.render(every_shape, DEFAULT_LAYERS, "R12"), "R12")
    names = names_in(records_of(tags), "LAYER") - {"Defpoints"}
    assert all(re.fullmatch(r"[A-Z0-9_$-]{1,31}", name) for name in names)


@pytest.mark.parametrize(
    ("across", "up", "codes"),
    [("middle", "base", ("1", "0")), ("right", "top", ("2", "3")), ("left", "middle", ("0", "2"))],
)
def test_aligned_text_has_its_codes_and_second_point(across, up, codes):
    """72: 0 left, 1 centre, 2 right; 73: 0 base line, 2 middle, 3 top (DXF reference, TEXT)."""
    text = Text(Point(12, 34), "A", 5, 0, across, up)
    (entity,) = entities_of(
        tags_of(dxf.render(drawing_of(Stroke("text", text)), DEFAULT_LAYERS), "R2010")
    )
    tags = dict(entity)
    assert (tags[72], tags.get(73, "0")) == codes
    assert (tags[11], tags[21]) == ("12.0", "34.0")


def test_numbers_are_short_and_never_in_powers_of_ten():
    circle = Circle(Point(1e-7, -1e-12), 1 / 3)
    (entity,) = entities_of(
        tags_of(dxf.render(drawing_of(Stroke("opening", circle)), DEFAULT_LAYERS), "R2010")
    )
    assert [dict(entity)[code] for code in (10, 20, 40)] == ["0.0000001", "0.0", "0.3333333333"]
