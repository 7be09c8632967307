"""The exact path of a rod's centre over a rack: every place where it just touches from above.

The contour is an open chain of lines and arcs from the hinge's end of the rack to the free end,
wood on the right of travel.  Each face gives its own offset, each outer corner an arc about it.
Walking these with the free side on the left, a crossing piece that comes in from the right bars
the way: the path turns left onto it.  Pieces passed over this way can't be touched, so hollows
tighter than the rod and pockets that it can't enter drop out by themselves.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from flatpack.geometry import Point, Segment
from flatpack.mechanism.crossings import END, crossings
from flatpack.mechanism.offset import Piece, Touch, raw_pieces

__all__ = ["Piece", "Touch", "clearance", "distance", "locus", "touches", "traced"]

_Box = tuple[float, float, float, float]


def locus(contour: Sequence[Segment], radius: float) -> tuple[Segment, ...]:
    """The rod centre's path as a chain of plain segments, hinge end to free end.

    Raises:
        ValueError: the path breaks off, as it may on a contour that crosses itself.
    """
    return tuple(p.segment for p in traced(contour, radius) if p.length > 0.0)


def traced(contour: Sequence[Segment], radius: float) -> tuple[Piece, ...]:
    """The same path with what is touched on each piece; `radius` is the rod's, mm.

    Raises:
        ValueError: the path breaks off, as it may on a contour that crosses itself.
    """
    raw = raw_pieces(contour, radius)
    boxes = [_box(p) for p in raw]
    here, share = _start(raw, boxes, contour, radius)
    path: list[Piece] = []
    while True:
        hit = _first_bar(raw, boxes, here, share)
        until = 1.0 if hit is None else hit[0]
        piece = raw[here]
        if piece.radius == 0.0 and piece.centre is not None:
            path.append(piece)
        elif (until - share) * piece.length > END:
            path.append(piece.cut(share, until))
        if hit is not None:
            _, here, share = hit
        elif here + 1 == len(raw):
            return tuple(path)
        else:
            here, share = _linked(raw, here), 0.0


def distance(face: Segment, place: Point) -> float:
    """Shortest distance from a point to a line or arc, mm."""
    (x0, y0), (x1, y1) = face.start, face.end
    ends = min(math.hypot(place.x - x0, place.y - y0), math.hypot(place.x - x1, place.y - y1))
    if face.bulge == 0.0:
        dx, dy = x1 - x0, y1 - y0
        squared = dx * dx + dy * dy
        share = ((place.x - x0) * dx + (place.y - y0) * dy) / squared
        if not 0.0 < share < 1.0:
            return ends
        return abs((place.x - x0) * dy - (place.y - y0) * dx) / math.sqrt(squared)
    cx, cy = face.centre
    out = math.hypot(place.x - cx, place.y - cy)
    turn = math.atan2(place.y - cy, place.x - cx) - math.atan2(y0 - cy, x0 - cx)
    sweep = face.sweep
    if math.copysign(1.0, sweep) * turn % math.tau <= abs(sweep):
        return min(ends, abs(out - face.radius))
    return ends


def clearance(contour: Sequence[Segment], place: Point) -> float:
    """Shortest distance from a point to the contour, mm."""
    return min(distance(face, place) for face in contour)


def touches(contour: Sequence[Segment], place: Point, radius: float) -> tuple[int, ...]:
    """Numbers of the faces that a rod of `radius` centred at `place` touches (to 1e-6 mm)."""
    return tuple(
        number
        for number, face in enumerate(contour)
        if _near(face, place, radius) and distance(face, place) < radius + 1e-6
    )


def _near(face: Segment, place: Point, radius: float) -> bool:
    reach = radius + 1.0 if face.bulge == 0.0 else radius + 1.0 + face.chord
    if face.bulge != 0.0 and abs(face.bulge) > 1.0:
        reach += 2.0 * face.radius
    low, high = sorted((face.start.x, face.end.x))
    return low - reach < place.x < high + reach


def _first_bar(
    raw: Sequence[Piece], boxes: Sequence[_Box], here: int, share: float
) -> tuple[float, int, float] | None:
    """The first later piece that comes in from the right: share along here, piece, share along it.

    Of several through one point the sharpest left turn bars the way.
    """
    piece = raw[here]
    x0, y0, x1, y1 = boxes[here]
    slack = END / max(piece.length, END)
    best: tuple[float, int, float] | None = None
    best_turn = 0.0
    for number in range(here + 1, len(raw)):
        a0, b0, a1, b1 = boxes[number]
        if a0 > x1 or a1 < x0 or b0 > y1 or b1 < y0:
            continue
        for s, t in crossings(piece, raw[number]):
            turn = _turn(piece, s, raw[number], t)
            if s < share - slack or turn < 1e-9:
                continue
            if best is None or s < best[0] - slack or (s < best[0] + slack and turn > best_turn):
                best, best_turn = (max(s, share), number, t), turn
    return best


def _turn(a: Piece, s: float, b: Piece, t: float) -> float:
    """Left turn (negative: right) from `a` at share s onto `b` at share t, radians."""
    return math.remainder(b.heading + b.sweep * t - a.heading - a.sweep * s, math.tau)


def _linked(raw: Sequence[Piece], here: int) -> int:
    """The next piece, which must begin where this one ends.

    Raises:
        ValueError: it doesn't, as may happen on a contour that crosses itself.
    """
    end, start = raw[here].end, raw[here + 1].start
    if math.hypot(end.x - start.x, end.y - start.y) > 10.0 * END:
        raise ValueError(f"the rod's path breaks off near {end}: does the contour cross itself?")
    return here + 1


def _start(
    raw: Sequence[Piece], boxes: Sequence[_Box], contour: Sequence[Segment], radius: float
) -> tuple[int, float]:
    """The first place along the raw path that the rod really reaches.

    Raises:
        ValueError: there is none.
    """
    for number, piece in enumerate(raw):
        others = (crossings(piece, other) for other in raw[number + 1 :])
        if clearance(contour, piece.start) > radius - END:
            return number, 0.0
        for share in sorted(s for found in others for s, _ in found):
            if clearance(contour, piece.at(share)) > radius - END:
                return number, share
    raise ValueError("the rod touches the contour nowhere")


def _box(piece: Piece) -> _Box:
    """Bounds of a piece, of a whole circle for an arc, with a little to spare."""
    if piece.centre is not None:
        (x, y), r = piece.centre, piece.radius + END
        return x - r, y - r, x + r, y + r
    (x0, y0), (x1, y1) = piece.start, piece.end
    return min(x0, x1) - END, min(y0, y1) - END, max(x0, x1) + END, max(y0, y1) + END
