"""The fonts of PDF pages: widths of letters, and a font file with only the letters in use.

A TrueType file is a table of tables; `loca` says where each glyph's outline lies in `glyf`.  A
glyph that isn't used gets an outline of no bytes, so that all numbers stay as they are.
"""

from __future__ import annotations

import struct
from array import array
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

from flatpack.writers.pdf_letters import GLYPH, LETTERS

_FOLDER = Path(__file__).with_name("templates")
_FILES = {False: "sans.ttf", True: "sans-bold.ttf"}
UNITS = 2048
"""Font units per em."""
CAPITAL = 1493 / UNITS
"""Height of a capital as a share of the font size."""
_KEPT = (b"glyf", b"head", b"hhea", b"hmtx", b"loca", b"maxp")
_TIMED = 0xB1B0AFBA
"""Checksum that a whole font file is made to have (OpenType, `head`.checksumAdjustment)."""


class Font(NamedTuple):
    """A font's tables and the width of each glyph in font units."""

    tables: Mapping[bytes, bytes]
    widths: tuple[int, ...]


@cache
def font(bold: bool) -> Font:
    """The regular or bold font, read once: data of this package, as its code is."""
    data = (_FOLDER / _FILES[bold]).read_bytes()
    (count,) = struct.unpack_from(">H", data, 4)
    tables = {}
    for row in range(count):
        tag, _, start, size = struct.unpack_from(">4sLLL", data, 12 + 16 * row)
        tables[tag] = data[start : start + size]
    (measured,) = struct.unpack_from(">H", tables[b"hhea"], 34)
    own = struct.unpack_from(f">{2 * measured}h", tables[b"hmtx"])[::2]
    last = len(LETTERS) + 1 - measured
    return Font(tables, (*own, *(own[-1:] * last)))


def glyphs(text: str) -> list[int]:
    """Glyph numbers of a text; 0, an empty box, for a letter that the font lacks."""
    return [GLYPH.get(letter, 0) for letter in text]


def width(text: str, bold: bool) -> float:
    """Width of a line of text in units of its font size."""
    widths = font(bold).widths
    return sum(widths[g] for g in glyphs(text)) / UNITS


def subset(bold: bool, used: Iterable[int]) -> bytes:
    """A TrueType file with the outlines of the used glyphs alone, each under its old number."""
    tables = font(bold).tables
    places = _places(tables)
    kept = sorted({0, *used})
    outlines, loca, at = [], array("I"), 0
    for number in range(len(places) - 1):
        loca.append(at)
        if number in kept:
            piece = tables[b"glyf"][places[number] : places[number + 1]]
            outlines.append(piece)
            at += len(piece)
    loca.append(at)
    head = bytearray(tables[b"head"])
    head[8:12] = b"\0\0\0\0"
    head[50:52] = b"\0\1"  # loca in whole 4-byte offsets
    changed = {b"glyf": b"".join(outlines), b"loca": struct.pack(f">{len(loca)}L", *loca)}
    return _file({tag: tables[tag] for tag in _KEPT} | changed | {b"head": bytes(head)})


def _places(tables: Mapping[bytes, bytes]) -> tuple[int, ...]:
    loca = tables[b"loca"]
    (long,) = struct.unpack_from(">h", tables[b"head"], 50)
    if long:
        return struct.unpack(f">{len(loca) // 4}L", loca)
    return tuple(2 * half for half in struct.unpack(f">{len(loca) // 2}H", loca))


def _file(tables: Mapping[bytes, bytes]) -> bytes:
    count = len(tables)
    power = 1 << (count.bit_length() - 1)
    top = struct.pack(
        ">LHHHH", 0x10000, count, 16 * power, power.bit_length() - 1, 16 * (count - power)
    )
    rows, bodies, at = [], [], 12 + 16 * count
    for tag in sorted(tables):
        body = tables[tag]
        rows.append(struct.pack(">4sLLL", tag, _sum(body), at, len(body)))
        body += b"\0" * (-len(body) % 4)
        bodies.append(body)
        at += len(body)
    whole = bytearray(b"".join((top, *rows, *bodies)))
    head = whole.index(b"head", 12, 12 + 16 * count)
    (start,) = struct.unpack_from(">L", whole, head + 8)
    struct.pack_into(">L", whole, start + 8, (_TIMED - _sum(bytes(whole))) & 0xFFFFFFFF)
    return bytes(whole)


def _sum(data: bytes) -> int:
    padded = data + b"\0" * (-len(data) % 4)
    words: tuple[int, ...] = struct.unpack(f">{len(padded) // 4}L", padded)
    return sum(words) & 0xFFFFFFFF
