"""A width that isn't sold is told, with what is used instead."""

from __future__ import annotations

import pytest

from flatpack import job
from flatpack.pieces.asked_widths import CODE
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

TEXTS = profile_texts()
LARCH = load(TEXTS).board("larch-27")
LOOSE = """
family = "loose-parts"
name = "A shelf"
[boards]
timber = "larch-27"
[parts.shelf]
shape = "board"
board = "timber"
length = 500
width = {width}
[[parts.shelf.holes]]
diameter = 8
at = [[40, 30]]
"""
STAND = """
family = "composed"
name = "A stand"
[size]
width = 600
depth = 300
[boards]
timber = "larch-27"
[parts.leg]
shape = "board"
width = {leg}
runs = "up"
shows = "left"
pair = "left"
left = 40
front = 10
bottom = 0
top = 400
[parts.slat]
shape = "board"
width = 70
runs = "right"
shows = "up"
left = 0
right = "piece.right"
front = 10
bottom = 400
[[joints]]
kind = "screws"
through = "slat"
into = "leg"
"""


def told(source: str) -> list[str]:
    made = job.design(source, "wide", TEXTS)
    notes = [f for f in made.findings if f.code == CODE]
    assert all(f.severity == "note" for f in notes)
    return [f.message for f in notes]


def off_by(width: float, by: float) -> tuple[float, float]:
    """A width near one that is sold, and the one sold."""
    assert min(abs(w - width - by) for w in LARCH.widths if w != width) > abs(by)
    return width + by, width


def test_a_part_of_a_composed_piece_is_told_once_for_both_hands() -> None:
    asked, sold = off_by(70.0, 4.0)
    (message,) = told(STAND.format(leg=asked))
    assert message == f"Leg: width {asked:g} as asked, {sold:g} is sold and used"


def test_a_width_that_is_sold_needs_no_note() -> None:
    assert told(STAND.format(leg=70)) == []
    assert told(LOOSE.format(width=70)) == []


def test_holes_given_in_a_loose_part_are_said_to_stay() -> None:
    asked, sold = off_by(70.0, -4.0)
    (message,) = told(LOOSE.format(width=asked))
    assert message.startswith(f"Shelf: width {asked:g} as asked, {sold:g} is sold and used; ")
    assert "holes stay where they were asked" in message
    made = job.design(LOOSE.format(width=asked), "wide", TEXTS)
    hole = made.assembly.parts["shelf"].features[0]
    assert (hole.at.x, hole.at.y) == pytest.approx((40.0, 30.0))


def test_families_with_keys_tell_it_too() -> None:
    source = 'family = "bench"\nname = "B"\n[frames]\nseat_rail = {}\n'
    plain = told(source.format(70))
    found = told(source.format(74))
    assert len(found) == len(plain) + 1
    assert any("width 74 as set" in text for text in found)
