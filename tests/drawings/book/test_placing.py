"""Places of parts on others, from the piece's own sizes by hand."""

from __future__ import annotations

import pytest

from flatpack.drawings.book.placing import places
from flatpack.drawings.book.steps import build_steps
from flatpack.drawings.marks import groups, marks_by_key
from flatpack.pieces import PIECES

from .conftest import built

PIECE = built("lounger")
RECORD = PIECES["lounger"].record()
MARKS = marks_by_key(groups(PIECE))
STEPS = {step.key: step for step in build_steps(PIECE)}


def places_of(step: str, part: str):
    found = places(PIECE, STEPS[step], MARKS)
    return [p for p in found if MARKS[part] in {MARKS[key] for key in p.part}]


def place_of(step: str, part: str):
    return next(p for p in places_of(step, part) if part in p.part)


def test_slats_stand_a_width_and_a_gap_apart() -> None:
    deck = place_of("deck", "slat-1")
    gap = next(w.value for w in PIECE.workings if w.name == "Gap between fixed slats")
    pitch = RECORD.slats.width + gap
    assert deck.along == pytest.approx([i * pitch for i in range(len(deck.along))], abs=0.051)
    assert (deck.flush, deck.face, deck.start) == ("on high", "level show", "x-")


def test_end_rails_close_both_ends_between_the_rails() -> None:
    rails = places_of("frame", "end-rail-foot")
    thick = PIECE.parts["rail-left"].thickness
    along = [along for rail in rails for along in rail.along]
    assert along == pytest.approx([0.0, RECORD.size.length - thick], abs=0.051)
    assert [rail.near for rail in rails] == ["show", "back"]
    assert {rail.face for rail in rails} == {"on back"}


def test_legs_hang_inside_the_rails_level_with_their_top() -> None:
    legs = place_of("legs", "leg-foot-left")
    thick = PIECE.parts["rail-left"].thickness
    far = RECORD.size.length - thick - RECORD.frame.leg_width
    assert legs.along == pytest.approx((thick, far), abs=0.051)
    assert (legs.flush, legs.face) == ("high", "on back")
