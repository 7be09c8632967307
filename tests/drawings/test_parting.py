"""Boards parted for pictures, and sides seen as one stretch: by hand."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from flatpack import job
from flatpack.drawings.parting import parted
from flatpack.drawings.projection import LENGTHWISE, Body, bodies, faces
from flatpack.geometry import Frame
from flatpack.geometry.shapes import disc
from flatpack.model import Assembly
from flatpack.profile_files import profile_texts

FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"


@cache
def piece(name: str) -> Assembly:
    text = (FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    return job.design(text, name, profile_texts()).assembly


def pieces_of(name: str, key: str) -> tuple[Body, ...]:
    whole = piece(name)
    (body,) = (b for b in bodies(whole) if b.key == key)
    return parted(body, whole)


@pytest.mark.parametrize(
    ("name", "key", "count"),
    [
        # Beyond the left side, in it, between the sides, in the right one, beyond it.
        ("radish-stool", "stretcher-1", 5),
        # Panel below the top, and two tenons in it.
        ("radish-stool", "side-left", 3),
        # Head, in the slot, tip.
        ("radish-stool", "wedge-stretcher-1-left", 3),
        ("radish-stool", "top", 1),
        # Before, in and behind the other leg; two tenons of it in the top.
        ("clover-stool", "leg-upper", 5),
        ("clover-stool", "leg-lower", 5),
    ],
)
def test_a_board_is_parted_at_the_faces_that_it_goes_through(
    name: str, key: str, count: int
) -> None:
    found = pieces_of(name, key)
    assert len(found) == count
    whole = piece(name).parts[key].outline.area
    assert sum(b.outline.area for b in found) == pytest.approx(whole, rel=2e-3)
    assert {b.key for b in found} == {key}


def test_pieces_lie_in_their_own_strips() -> None:
    """Hand: the radish stool's sides are 18.26 thick; so long is the tenon's piece in a side."""
    thickness = piece("radish-stool").parts["side-left"].thickness
    lengths = sorted(
        round(x1 - x0, 3)
        for x0, _, x1, _ in (b.outline.bounds for b in pieces_of("radish-stool", "stretcher-1"))
    )
    assert lengths[:2] == pytest.approx([thickness, thickness], abs=1e-3)


def test_a_round_side_is_one_stretch_wherever_it_begins() -> None:
    """A disc made of two half circles has no edge where they meet, from any side."""
    for turn in (0.0, 90.0, 180.0, 270.0):
        body = Body("disc", Frame(), disc(100.0).turned(turn), 0.0, 18.0)
        for view in (LENGTHWISE.main, LENGTHWISE.end):
            (side,) = faces(body, view)
            x0, y0, x1, y1 = side.bounds
            assert (x1 - x0, y1 - y0) == pytest.approx((200.0, 18.0), abs=0.6)  # chords of 0.3
