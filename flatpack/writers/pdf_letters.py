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
        "ȘșȚț",
        "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρςστυφχψωΆΈΉΊΌΎΏάέήίόύώ",
        _run(0x401, 0x45F),  # Cyrillic
        "‐‑–—‘’‚“”„†•…‰′″‹›⁄€№™",
        "⅛⅜⅝⅞←↑→↓↔↕⌀∅−√∞≈≠≤≥□■▲△▼▽◆◇○●✓✗",
    )
)
"""Glyph n + 1 of each font is letter n; glyph 0 stands for all others."""

GLYPH = {letter: number for number, letter in enumerate(LETTERS, 1)}
