"""Letters that the PDF fonts carry: Latin of all Europe, Greek, Cyrillic, signs of drawings."""

from __future__ import annotations


def _run(first: int, last: int) -> str:
    return "".join(map(chr, range(first, last + 1)))


LETTERS = "".join(
    (
        _run(0x20, 0x7E),
        _run(0xA0, 0xAC),
        _run(0xAE, 0xFF),  # Latin-1 without the soft hyphen
        _run(0x100, 0x17F),  # Latin extended A
        "\u0218\u0219\u021a\u021b",
        chr(0x386),
        _run(0x388, 0x38A),
        chr(0x38C),
        _run(0x38E, 0x3A1),
        _run(0x3A3, 0x3CE),  # Greek
        _run(0x401, 0x45F),  # Cyrillic
        # dashes, quotes, signs; then fractions, arrows, shapes
        "\u2010\u2011\u2013\u2014\u2018\u2019\u201a\u201c\u201d\u201e\u2020\u2022\u2026"
        "\u2030\u2032\u2033\u2039\u203a\u2044\u20ac\u2116\u2122",
        "\u215b\u215c\u215d\u215e\u2190\u2191\u2192\u2193\u2194\u2195\u2300\u2205\u2212"
        "\u221a\u221e\u2248\u2260\u2264\u2265\u25a1\u25a0\u25b2\u25b3\u25bc\u25bd\u25c6"
        "\u25c7\u25cb\u25cf\u2713\u2717",
    )
)
"""Glyph n + 1 of each font is letter n; glyph 0 stands for all others."""

GLYPH = {letter: number for number, letter in enumerate(LETTERS, 1)}
