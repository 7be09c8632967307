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


def place_of(step: str, part: str):
    return next(p for p in places(PIECE, STEPS[step], MARKS) if part in p.part)


def test_slats_stand_a_width_and_a_gap_apart() -> None:
    deck = place_of("deck", "slat-1")
    gap = next(w.value for w in PIECE.workings if w.name == "Gap between fixed slats")
    pitch = RECORD.slats.width + gap
    assert deck.along == pytest.approx([i * pitch for i in range(len(deck.along))], abs=0.051)
    assert (deck.flush, deck.face, deck.start) == ("on high", "level", "x-")


def test_end_rails_close_both_ends_between_the_rails() -> None:
    rails = place_of("frame", "end-rail-foot")
    thick = PIECE.parts["rail-left"].thickness
    assert rails.along == pytest.approx((0.0, RECORD.size.length - thick), abs=0.051)
    assert rails.face == "on back"


def test_legs_hang_inside_the_rails_level_with_their_top() -> None:
    legs = place_of("legs", "leg-foot-left")
    thick = PIECE.parts["rail-left"].thickness
    far = RECORD.size.length - thick - RECORD.frame.leg_width
    assert legs.along == pytest.approx((thick, far), abs=0.051)
    assert (legs.flush, legs.face) == ("high", "on back")
