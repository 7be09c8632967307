r"""The raw path of a round rod's centre along a contour: one piece a face or corner, untrimmed.

arc about an outer corner
.---.
offset line |     \\  offset line         free side on the left of travel,
--------------'      \\-----------          wood on the right
==============+ wood  \\
                  |        \\ (next face)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from flatpack.geometry import Point, Segment

SAME = 1e-9  # mm: a seat's radius and the rod's this close are one and the same


class Touch(NamedTuple):
    """What the rod touches: face number `segment` of the contour, or the corner at its end."""

    segment: int
    corner: bool = False


class Piece(NamedTuple):
    """A line or arc of the rod centre's path.

    `heading` is the direction of travel at the start and `sweep` the turn along it, radians,
    positive to the left.  `centre` is None for a line.  A piece of radius 0 stands still and only
    turns: a rod in a round seat of its own radius.
    """

    start: Point
    end: Point
    heading: float
    sweep: float
    centre: Point | None
    radius: float
    touch: Touch

    @property
    def leaving(self) -> float:
        """Direction of travel at the end, radians."""
        return self.heading + self.sweep

    @property
    def length(self) -> float:
        """Length along the piece, mm."""
        if self.centre is None:
            return math.hypot(self.end.x - self.start.x, self.end.y - self.start.y)
        return self.radius * abs(self.sweep)

    @property
    def segment(self) -> Segment:
        """The piece as a plain segment."""
        return Segment(self.start, self.end, math.tan(self.sweep / 4.0))

    def at(self, share: float) -> Point:
        """The point at `share` (0 to 1) of the way along."""
        if share == 0.0:
            return self.start
        if share == 1.0:
            return self.end
        if self.centre is None:
            (x0, y0), (x1, y1) = self.start, self.end
            return Point(x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
        # left of travel lies the centre of a left turn, right of travel that of a right turn
        turn = self.heading + self.sweep * share
        r = math.copysign(self.radius, self.sweep)
        return Point(self.centre.x + r * math.sin(turn), self.centre.y - r * math.cos(turn))

    def cut(self, start: float, end: float) -> Piece:
        """The part between two shares of the way."""
        return self._replace(
            start=self.at(start),
            end=self.at(end),
            heading=self.heading + self.sweep * start,
            sweep=self.sweep * (end - start),
        )


def raw_pieces(contour: Sequence[Segment], radius: float) -> tuple[Piece, ...]:
    """The rod's path along each face and round each outer corner, in order, untrimmed.

    A hollow tighter than the rod gives nothing: the rod can't touch within it, only at its rims,
    and there only within the corner's own fan of normals.  Where the contour begins or ends on a
    rim, the wood goes on level: the rod can roll over the rim.
    """
    pieces: list[Piece] = _rim(contour[0].start, 0.0, heading_of(contour[0], False), radius, 0)
    for number, face in enumerate(contour):
        piece = _face(face, radius, number)
        if piece is not None:
            pieces.append(piece)
        if number + 1 < len(contour):
            corner = _corner(face, contour[number + 1], radius, number)
            if corner is not None:
                pieces.append(corner)
    last = heading_of(contour[-1], at_end=True)
    pieces += _rim(contour[-1].end, last, 0.0, radius, len(contour) - 1)
    return tuple(pieces)


def _rim(place: Point, heading: float, onwards: float, radius: float, number: int) -> list[Piece]:
    """The arc about the contour's own end, if the wood turns right there onto or from level."""
    turn = onwards - heading if heading >= 0.0 else 0.0
    return [_arc(place, radius, heading, turn, Touch(number, corner=True))] if turn < -1e-9 else []


def heading_of(face: Segment, at_end: bool) -> float:
    """Direction of travel at a face's start or end, radians."""
    chord = math.atan2(face.end.y - face.start.y, face.end.x - face.start.x)
    half = face.sweep / 2.0
    return chord + half if at_end else chord - half


def _face(face: Segment, radius: float, number: int) -> Piece | None:
    heading = heading_of(face, at_end=False)
    if face.bulge == 0.0:
        nx, ny = -math.sin(heading) * radius, math.cos(heading) * radius
        start = Point(face.start.x + nx, face.start.y + ny)
        end = Point(face.end.x + nx, face.end.y + ny)
        return Piece(start, end, heading, 0.0, None, 0.0, Touch(number))
    hollow = face.bulge > 0.0
    rest = face.radius - radius if hollow else face.radius + radius
    if rest < -SAME:
        return None
    rest = 0.0 if rest < SAME else rest
    return _arc(face.centre, rest, heading, face.sweep, Touch(number))


def _corner(face: Segment, following: Segment, radius: float, number: int) -> Piece | None:
    heading = heading_of(face, at_end=True)
    turn = math.remainder(heading_of(following, at_end=False) - heading, math.tau)
    if turn > math.pi - 1e-12:  # a blade without thickness: the rod goes round its tip
        turn -= math.tau
    if turn > -1e-9:
        return None
    return _arc(face.end, radius, heading, turn, Touch(number, corner=True))


def _arc(centre: Point, radius: float, heading: float, sweep: float, touch: Touch) -> Piece:
    blank = Piece(centre, centre, heading, sweep, centre, radius, touch)
    r = math.copysign(radius, sweep)
    start, end = (
        Point(centre.x + r * math.sin(turn), centre.y - r * math.cos(turn))
        for turn in (heading, heading + sweep)
    )
    return blank._replace(start=start, end=end)
