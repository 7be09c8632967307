"""Tooth blocks: one for each notch, and one more that keeps the rod on its bearer."""

from __future__ import annotations

import pytest

from flatpack.mechanism.study import study
from flatpack.model import Assembly
from flatpack.parameters import replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

ANGLES = (25.0, 40.0, 55.0)


@pytest.fixture(scope="module")
def piece() -> Assembly:
    family = PIECES["lounger"]
    record = family.record(name="Trial")
    record = replace(record, rack=replace(record.rack, kind="blocks"))
    record = replace(record, back=replace(record.back, angles=ANGLES))
    return family.build(record, load(profile_texts()))


@pytest.mark.parametrize("hand", ["left", "right"])
def test_one_block_more_than_notches(piece: Assembly, hand: str) -> None:
    blocks = [key for key in piece.parts if key.startswith("block-") and key.endswith(hand)]
    assert len(blocks) == len(ANGLES) + 1


def test_highest_notch_is_a_stop(piece: Assembly) -> None:
    """Without a block beyond it the rod would lie on an open floor and be drawn off its end."""
    made = study(piece)
    assert made is not None
    assert [stop.angle for stop in made.found.stops] == pytest.approx(ANGLES, abs=1e-6)


def test_end_block_stands_flush_with_its_bearer(piece: Assembly) -> None:
    bearer, block = piece.parts["bearer-left"], piece.parts[f"block-{len(ANGLES) + 1}-left"]
    ends = [
        min(part.frame.place(x, 0.0).x for x in part.outline.bounds[::2])
        for part in (bearer, block)
    ]
    assert ends[0] == pytest.approx(ends[1], abs=1e-9)
