"""What a family's keys ask of its boarded box."""

from __future__ import annotations

from typing import Protocol

from flatpack.pieces.common.boarded.carcass import Wish
from flatpack.pieces.common.boarded.parameters import Bottom, Corners, Ground, Sides


class Boarded(Protocol):
    """The tables of keys that every family of boarded boxes has."""

    @property
    def corners(self) -> Corners:
        """Posts or battens."""

    @property
    def sides(self) -> Sides:
        """Boards of the sides."""

    @property
    def ground(self) -> Ground:
        """Feet or skids."""

    @property
    def bottom(self) -> Bottom:
        """The drained bottom."""


def wish_of(p: Boarded, length: float, depth: float, high: float) -> Wish:
    """What the keys ask of the box; `high` is its boards' top above ground, mm."""
    return Wish(
        length=length,
        depth=depth,
        high=high,
        clear=p.ground.clear,
        flat=p.corners.kind == "posts",
        feet=p.ground.kind == "feet",
        post_width=p.corners.width,
        longest_span=p.corners.longest_span,
        board_width=p.sides.board_width,
        board_gap=p.sides.gap,
        board_screws=p.sides.screws,
        slat_width=p.bottom.slat_width,
        slat_gap=p.bottom.gap,
        slat_screws=p.bottom.screws,
        bearer_width=p.bottom.bearer_width,
        edge_round=p.sides.edge_round,
    )
