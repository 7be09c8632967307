"""CSV read back by Python's csv module; rules of RFC 4180."""

from __future__ import annotations

import csv
import io

import pytest

from flatpack.writers import table_csv

HEADER = ["part", "length", "note"]


def _read(data: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""), strict=True))


def test_reads_back_as_written():
    rows = [["A", 638, 'says "18", or so'], ["é Ø", -12.5, "two\nlines"]]
    assert _read(table_csv.render(rows, HEADER)) == [
        HEADER, ["A", "638", 'says "18", or so'], ["é Ø", "-12.5", "two\nlines"]
    ]  # fmt: skip


def test_bytes_after_the_rfc():
    data = table_csv.render([["a,b", 1, 'c"d']], HEADER, signature=False)
    assert data == b'part,length,note\r\n"a,b",1,"c""d"\r\n'
    assert table_csv.render([], HEADER) == b"\xef\xbb\xbfpart,length,note\r\n"


@pytest.mark.parametrize("text", ["=1+1", "+SUM(A1)", "@A1", "-2+3", "-cmd|x", "\t=1", "=-1"])
def test_a_formula_is_made_text(text):
    assert _read(table_csv.render([[text, 0, ""]], HEADER))[1][0] == "'" + text


@pytest.mark.parametrize("text", ["-12.5", "-", "--", "+3", "A-L", "3 - 4", ""])
def test_numbers_and_dashes_stay_as_they_are(text):
    assert _read(table_csv.render([[text, 0, ""]], HEADER))[1][0] == text


@pytest.mark.parametrize(
    ("value", "text"),
    [(638.0, "638"), (1 / 3, "0.333333"), (-0.0, "0"), (1e-9, "0"), (1e7, "10000000")],
)
def test_numbers_are_plain(value, text):
    assert _read(table_csv.render([["", value, ""]], HEADER))[1][1] == text


def test_a_row_of_the_wrong_width_is_refused():
    with pytest.raises(ValueError, match="a row of 2 under a header of 3"):
        table_csv.render([["A", 1]], HEADER)
