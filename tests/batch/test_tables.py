"""Variants from a CSV, from combinations and from a folder; compared with the standard readers."""

from __future__ import annotations

import csv
import io
import tomllib
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from flatpack.batch.tables import table
from flatpack.batch.toml_text import toml_text
from flatpack.batch.variants import Variant
from flatpack.errors import FlatpackError, ParameterErrors, ReadError

gently = settings(
    deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
)
BASE = 'family = "bench"\nname = "Bench"\n[size]\ndepth = 400\n'
LOUNGER = 'family = "lounger"\nname = "Lounger"\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "bench.toml").write_text(BASE)
    (tmp_path / "lounger.toml").write_text(LOUNGER)
    return tmp_path


def variants(folder: Path, name: str, text: str) -> list[Variant]:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    found = table(str(path))
    rows = list(found)
    assert found.count() == len(rows)
    assert list(found) == rows  # it can be gone through again
    return rows


def values(variant: Variant) -> dict[str, Any]:
    assert variant.problem == ""
    return tomllib.loads(variant.text)


def test_a_row_sets_keys_of_its_base(folder: Path) -> None:
    text = "name,base,size.length,seat.gap,arms.use\nlong,bench.toml,1500,8.5,yes\n"
    (row,) = variants(folder, "t.csv", text)
    assert row.name == "long"
    assert row.place.endswith("t.csv:2")
    assert values(row) == {
        "family": "bench",
        "name": "Bench",
        "size": {"depth": 400, "length": 1500},
        "seat": {"gap": 8.5},
        "arms": {"use": True},
    }


def test_an_empty_cell_changes_nothing(folder: Path) -> None:
    text = "name,base,size.depth\na,bench.toml,\nb,bench.toml,420\nc,bench.toml, \n"
    depths = [values(row)["size"]["depth"] for row in variants(folder, "t.csv", text)]
    assert depths == [400, 420, 400]


def test_a_family_needs_no_base(folder: Path) -> None:
    (row,) = variants(folder, "t.csv", "name,family,size.length\nx,lounger,18 cm\n")
    assert values(row) == {"family": "lounger", "name": "x", "size": {"length": "18 cm"}}


def test_several_values_in_a_cell(folder: Path) -> None:
    text = "name,base,back.angles\nx,lounger.toml,24; 38.5;52\n"
    (row,) = variants(folder, "t.csv", text)
    assert values(row)["back"] == {"angles": [24, 38.5, 52]}


def test_semicolons_part_cells_as_well(folder: Path) -> None:
    text = "\ufeffname;base;size.length\r\n\r\nx;bench.toml;1400\r\n"
    (row,) = variants(folder, "t.csv", text)
    assert row.place.endswith("t.csv:3")
    assert values(row)["size"]["length"] == 1400


def test_rows_that_are_of_no_use_spoil_no_other(folder: Path) -> None:
    path = folder / "t.csv"
    path.write_bytes(
        b"name,base,size.length\n"
        b"many,bench.toml,1200,7\n"
        b"odd,bench.toml,12\xff00\n"
        b"lost,nowhere.toml,1200\n"
        b"good,bench.toml,1200\n"
    )
    many, odd, lost, good = table(str(path))
    assert "more cells" in many.problem
    assert "UTF-8" in odd.problem
    assert "nowhere.toml" in lost.problem
    assert good.problem == ""


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ("name,size.lenght", '"size.length"'),
        ("size.length", "column `name`"),
        ("name,size.length,size.length", "two columns"),
        ('name,"size', "header"),
    ],
)
def test_a_header_that_is_of_no_use(folder: Path, head: str, told: str) -> None:
    path = folder / "t.csv"
    path.write_text(f"{head}\nx,1200\n")
    with pytest.raises((ReadError, ParameterErrors)) as error:
        table(str(path))
    assert told in str(error.value)


COMBINED = """
base = "bench.toml"
[vary]
size.length = [1200, 1400, 1600]
size.depth = [380, 420]
boards.timber = ["larch-27", "pine-28"]
[[without]]
size.length = 1600
boards.timber = "pine-28"
[[without]]
size.length = [1200, 1400]
size.depth = 420
"""


def test_all_combinations_less_those_shut_out(folder: Path) -> None:
    rows = variants(folder, "v.toml", COMBINED)
    found = [
        (v["size"]["length"], v["size"]["depth"], v["boards"]["timber"]) for v in map(values, rows)
    ]
    every = product([1200, 1400, 1600], [380, 420], ["larch-27", "pine-28"])
    assert found == [
        (length, depth, board)
        for length, depth, board in every
        if not (length == 1600 and board == "pine-28") and not (length < 1600 and depth == 420)
    ]
    assert rows[0].name == "bench_1200_380_larch-27"
    assert len({row.name for row in rows}) == len(rows)


def test_names_and_lists_in_combinations(folder: Path) -> None:
    text = (
        'base = "lounger.toml"\nname = "at {back.angles}"\n[vary]\nback.angles = [[24, 40], [30]]'
    )
    assert [row.name for row in variants(folder, "v.toml", text)] == ["at 24-40", "at 30"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[vary]\nsize.length = [1]", "base"),
        ('base = "bench.toml"', "vary"),
        ('base = "bench.toml"\n[vary]\nsize.length = 3', "a list is needed"),
        ('base = "bench.toml"\n[vary]\nsize.length = []', "a list is needed"),
        ('base = "bench.toml"\n[vary]\nsize.length = [3, 3]', "twice"),
        ('base = "bench.toml"\n[vary]\nsize.lenght = [3]', '"size.length"'),
        ('base = "lounger.toml"\n[vary]\nback.angles = [30, 40]', "list of lists"),
        ('base = "bench.toml"\nnmae = "x"\n[vary]\nsize.length = [3]', '"name"'),
        ('base = "bench.toml"\nname = "{size.depth}"\n[vary]\nsize.length = [3]', "isn't varied"),
        ('base = "bench.toml"\n[vary]\nsize.length = [3]\n[[without]]\nsize.depth = 1', "varied"),
        ('base = "gone.toml"\n[vary]\nsize.length = [3]', "gone.toml"),
    ],
)
def test_combinations_that_are_of_no_use(folder: Path, text: str, told: str) -> None:
    path = folder / "v.toml"
    path.write_text(text)
    with pytest.raises((ReadError, ParameterErrors)) as error:
        table(str(path))
    assert told in str(error.value)


def test_a_folder_of_files(folder: Path) -> None:
    (folder / "note.txt").write_text("no variant")
    (folder / "bad.toml").write_bytes(b"\xff")
    rows = list(table(str(folder)))
    assert [row.name for row in rows] == ["bad", "bench", "lounger"]
    assert "UTF-8" in rows[0].problem
    assert rows[1].text == BASE


scalars = st.one_of(
    st.text(max_size=20), st.integers(-(2**63), 2**63 - 1), st.booleans(),
    st.floats(allow_nan=False), st.dates(),
)  # fmt: skip
trees = st.recursive(
    scalars,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(st.text(), inner)),
    max_leaves=12,
)


@settings(gently, max_examples=150)
@given(st.dictionaries(st.text(), trees, max_size=5))
def test_values_written_as_toml_read_back(made: dict[str, Any]) -> None:
    """Against the standard library's reader, types and signs included."""
    assert repr(tomllib.loads(toml_text(made))) == repr(_ordered(made))


def _ordered(made: dict[str, Any]) -> dict[str, Any]:
    """Plain keys stand before tables in a TOML text, at every level that has a header."""
    plain = {k: v for k, v in made.items() if not isinstance(v, dict)}
    return plain | {k: _ordered(v) for k, v in made.items() if isinstance(v, dict)}


words = st.sampled_from(
    ["name", "base", "family", "size.length", "bench.toml", "bench", "1200", "a/b", "CON", '"', ",",
     ";", "\n", "\r\n", " ", "..", "é", "é", "\x00", "\ud800", "𐐀", "24; 38", "{", "="]
)  # fmt: skip


@settings(gently, max_examples=150)
@given(st.lists(words, max_size=40), st.binary(max_size=20))
def test_any_csv_gives_rows_or_a_reason(
    tmp_path_factory: pytest.TempPathFactory, parts: list[str], more: bytes
) -> None:
    folder = tmp_path_factory.mktemp("any")
    (folder / "bench.toml").write_text(BASE)
    path = folder / "t.csv"
    text = "name,base,size.length\n" + ",".join(parts)
    path.write_bytes(text.encode("utf-8", "surrogatepass") + more)
    try:
        rows = list(table(str(path)))
    except FlatpackError:  # the whole table refused; anything else that is raised is a bug
        return
    for row in rows:
        assert row.problem or tomllib.loads(row.text).keys() <= {"family", "name", "size"}


@settings(gently, max_examples=60)
@given(st.lists(st.lists(st.text(max_size=8), min_size=3, max_size=3), max_size=6))
def test_cells_are_read_as_the_standard_writer_writes_them(
    tmp_path_factory: pytest.TempPathFactory, rows: list[list[str]]
) -> None:
    stream = io.StringIO()
    csv.writer(stream).writerows([["name", "family", "workshop"], *rows])
    path = tmp_path_factory.mktemp("cells") / "t.csv"
    path.write_bytes(stream.getvalue().encode("utf-8", "surrogatepass"))
    try:
        found = [row.name for row in table(str(path))]
    except ReadError:
        assert "\0" in stream.getvalue()  # the one letter that the standard reader refuses
        return
    wanted = [row[0].strip() for row in rows if any(cell.strip() for cell in row)]
    assert [n for n in found if n.isascii()] == [n for n in wanted if n.isascii()]
    assert len(found) == len(wanted)
