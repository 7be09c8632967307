"""Encodings of the DXF versions; the strings are checked by ezdxf as an outside reader."""

from __future__ import annotations

import io

import ezdxf
import pytest

from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.shapes import Stroke, Text
from flatpack.geometry import Point
from flatpack.writers import dxf
from flatpack.writers.dxf_text import written_text

from .conftest import drawing_of

# Ø, é and the dash are in cp1252; ≥ and the clef (beyond U+FFFF) are not.
SAMPLE = "Ø 8 é \u2013 ≥ 𝄞"


def _text_line(data: bytes) -> bytes:
    return data.split(b"AcDbText\n")[1].split(b"\n  1\n")[1].split(b"\n")[0]


def test_r2000_writes_the_code_page_and_escapes_the_rest():
    data = dxf.render(
        drawing_of(Stroke("text", Text(Point(0, 0), SAMPLE))), DEFAULT_LAYERS, "R2000"
    )
    # cp1252: Ø D8, é E9, en dash 96; U+2265 and the pair D834 DD1E of U+1D11E (Unicode tables).
    assert _text_line(data) == b"\xd8 8 \xe9 \x96 \\U+2265 \\U+D834\\U+DD1E"
    assert b"$DWGCODEPAGE\n  3\nANSI_1252\n" in data


@pytest.mark.parametrize("version", ["R2010", "R2018"])
def test_later_versions_write_utf8(version):
    data = dxf.render(
        drawing_of(Stroke("text", Text(Point(0, 0), SAMPLE))), DEFAULT_LAYERS, version
    )
    assert _text_line(data) == SAMPLE.encode("utf-8")


@pytest.mark.parametrize("version", dxf.ENCODINGS)
def test_an_outside_reader_reads_the_text_back(version, tmp_path):
    text = "Ø 8 é \u2013"
    path = tmp_path / "text.dxf"
    path.write_bytes(
        dxf.render(drawing_of(Stroke("text", Text(Point(0, 0), text))), DEFAULT_LAYERS, version)
    )
    texts = ezdxf.readfile(path).modelspace().query("TEXT")
    assert texts[0].dxf.text == text


def test_the_formats_own_signs_are_escaped():
    """ "^ " is a caret and "%%%" one per cent sign in a DXF string (DXF reference, strings)."""
    assert written_text("a^b", "utf-8") == "a^ b"
    assert written_text("5%", "utf-8") == "5%"
    assert written_text("%%c", "utf-8") == "%%%%%%c"
    assert written_text("one\ntwo", "utf-8") == "one two"


def test_a_line_end_in_a_text_cannot_forge_a_tag():
    text = "A\n  0\nEOF"
    data = dxf.render(drawing_of(Stroke("text", Text(Point(0, 0), text))), DEFAULT_LAYERS)
    doc = ezdxf.read(io.StringIO(data.decode()))
    assert doc.modelspace().query("TEXT")[0].dxf.text == "A   0 EOF"
