"""Makes the two small fonts that PDF pages carry; run by a developer, never by the program.

    python -m flatpack.writers.make_pdf_fonts REGULAR.ttf BOLD.ttf

The result keeps the letters of `pdf_letters` alone, each with its outline written out (no parts
shared between glyphs), so that a document can leave out the letters that it doesn't use.  The
source is DejaVu Sans, whose licence (templates/sans-licence.txt) allows this.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from flatpack.writers.pdf_letters import LETTERS

_FOLDER = Path(__file__).with_name("templates")


def small_font(source: Path) -> bytes:
    """The font with glyph 0 for what is missing, then one glyph a letter, in their order."""
    from io import BytesIO

    from fontTools.fontBuilder import FontBuilder
    from fontTools.ttLib import TTFont

    font = TTFont(source)
    names = [".notdef", *(font.getBestCmap()[ord(letter)] for letter in LETTERS)]
    order = [f"g{number}" for number in range(len(names))]
    glyphs, metrics = {}, {}
    for new, old in zip(order, names, strict=True):
        glyphs[new] = _outline(font, old)
        metrics[new] = (font["hmtx"][old][0], 0)
    built = FontBuilder(font["head"].unitsPerEm, isTTF=True)
    built.setupGlyphOrder(order)
    built.setupCharacterMap({ord(c): g for c, g in zip(LETTERS, order[1:], strict=True)})
    built.setupGlyf(glyphs)
    built.setupHorizontalMetrics({g: (metrics[g][0], getattr(glyphs[g], "xMin", 0)) for g in order})
    built.setupHorizontalHeader(ascent=font["hhea"].ascent, descent=font["hhea"].descent)
    built.setupPost(keepGlyphNames=False)
    built.font["head"].created = built.font["head"].modified = 0
    built.font.recalcTimestamp = False
    written = BytesIO()
    built.font.save(written)
    return written.getvalue()


def _outline(font: Any, name: str) -> Any:
    from fontTools.pens.recordingPen import DecomposingRecordingPen
    from fontTools.pens.ttGlyphPen import TTGlyphPen

    glyphs = font.getGlyphSet()
    flat, pen = DecomposingRecordingPen(glyphs), TTGlyphPen(None)
    glyphs[name].draw(flat)
    flat.replay(pen)
    return pen.glyph()


if __name__ == "__main__":
    for source, name in zip(sys.argv[1:3], ("sans.ttf", "sans-bold.ttf"), strict=True):
        (_FOLDER / name).write_bytes(small_font(Path(source)))
