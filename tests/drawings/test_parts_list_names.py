"""The general arrangement's parts list has names whole where there is room beside the views."""

from __future__ import annotations

from dataclasses import replace

from flatpack.drawings.general_arrangement import general_arrangement
from flatpack.drawings.shapes import Text

LONG = "Middle stave of the rear wall"


def texts(piece) -> list[str]:
    (sheet, *_) = general_arrangement(piece, {})
    return [s.shape.text for s in sheet.strokes if isinstance(s.shape, Text)]


def named(piece, name: str):
    parts = {
        key: replace(part, name=name) if part.name == "leg" else part
        for key, part in piece.parts.items()
    }
    return replace(piece, parts=parts)


def test_a_long_name_stands_whole(piece) -> None:
    every = texts(named(piece, LONG))
    assert any(text.startswith(LONG) and not text.endswith("...") for text in every)


def test_a_name_without_end_is_cut_off_and_the_scale_kept(piece) -> None:
    endless = named(piece, f"{LONG} " * 12)
    assert any(text.endswith("...") for text in texts(endless))
    (one, *_), (other, *_) = (general_arrangement(p, {}) for p in (piece, endless))
    assert (one.scale, one.bounds) == (other.scale, other.bounds)
