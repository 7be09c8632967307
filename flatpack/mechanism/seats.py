"""Where a rod rests on a rack: freely under its own weight, and loaded by the arm's thrust.

A seat is a dip of the rod's path: the path comes down, may run level, and climbs again.  The
free rest is its lowest point, or the whole of a level floor.  Under a thrust the rod slides along
the path until a left turn holds it (see `hollows`), at most up to the crests on both sides.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from flatpack.frozen import frozen
from flatpack.geometry import Point, Segment
from flatpack.mechanism.hollows import LEVEL, Hollow, hollows
from flatpack.mechanism.locus import Piece, traced

DOWN = Point(0.0, -1.0)


@frozen
class Seat:
    """A dip of the rod's path, `number` counted from 1 at the hinge's end.

    `low` and `high` are the ends of the free rest, low nearer the hinge; equal for a point.
    `hollows` are the left turns between the crests, `rest` the range of them (first, last) that
    bound the free rest.  `crests` are the numbers of the path's pieces that carry the crest on
    the hinge's side and on the free end's; None where the rack ends before a crest.
    """

    number: int
    low: Point
    high: Point
    hollows: tuple[Hollow, ...]
    rest: tuple[int, int]
    crests: tuple[int | None, int | None]

    @property
    def level(self) -> float:
        """Length of the level floor on which the rod may rest, mm; 0 for a point."""
        return math.dist(self.low, self.high)


@frozen
class Rack:
    """A rack's contour with the path and the seats of one rod on it; `rod` is its diameter."""

    contour: tuple[Segment, ...]
    rod: float
    path: tuple[Piece, ...]
    seats: tuple[Seat, ...]


@frozen
class Loaded:
    """The rod settled by a thrust: in `hollow` at `rod`, touching `faces` of the contour.

    `held` is False when the thrust would push it over the crest: `hollow` is then the one of
    the free rest, and `rod` the rim of it where the rod leaves.  `thrust` is the unit vector of
    the push there.
    """

    hollow: Hollow
    rod: Point
    thrust: Point
    held: bool

    @property
    def faces(self) -> tuple[int, ...]:
        """Numbers of the contour's faces that the rod touches."""
        return self.hollow.faces

    @property
    def margin(self) -> float:
        """Degrees from the thrust to the edge of the faces' normals; negative when outside."""
        return -math.degrees(self.hollow.excess(self.thrust))


Push = Callable[[Hollow], Point | None]


def laid(contour: Sequence[Segment], rod: float) -> Rack:
    """A rod of diameter `rod` laid on the rack: its path and seats.

    Raises:
        ValueError: the path breaks off, as it may on a contour that crosses itself.
    """
    chain = tuple(contour)
    path = traced(chain, rod / 2.0)
    return Rack(contour=chain, rod=rod, path=path, seats=_seats(chain, path, rod / 2.0))


def seats(contour: Sequence[Segment], rod: float) -> tuple[Seat, ...]:
    """Every seat of a rod of diameter `rod`, from the hinge's end.

    Raises:
        ValueError: the path breaks off, as it may on a contour that crosses itself.
    """
    return laid(contour, rod).seats


def loaded_seat(seat: Seat, thrust: Point) -> Loaded:
    """Where a thrust of fixed direction (any length) settles the rod in a seat."""
    size = math.hypot(thrust.x, thrust.y)
    found = settled(seat, lambda _: Point(thrust.x / size, thrust.y / size))
    assert found is not None
    return found


def settled(seat: Seat, push: Push) -> Loaded | None:
    """Where the rod comes to rest when each hollow has its own push; None when none applies.

    The rod sets out from the end of the free rest to which the push there tends, and slides that
    way to the first hollow whose fan the push doesn't leave on the far side.  Near upright a long
    floor may hold it at either end: the free end's is taken, whence the rod comes.
    """
    first, last = seat.rest
    start = last
    here = push(seat.hollows[start])
    if here is not None and first != last and here.x < 0.0:
        start, here = first, push(seat.hollows[first])
    if here is None:
        return None
    side = seat.hollows[start].leans(here)
    number, thrust = start, here
    while 0 <= number < len(seat.hollows):
        hollow = seat.hollows[number]
        if hollow.excess(thrust) <= LEVEL or hollow.leans(thrust) != side:
            return Loaded(hollow=hollow, rod=hollow.rest(thrust), thrust=thrust, held=True)
        number += side
        following = push(seat.hollows[number]) if 0 <= number < len(seat.hollows) else None
        if following is None:
            break
        thrust = following
    left = seat.hollows[start]
    return Loaded(hollow=left, rod=left.rim(side), thrust=here, held=False)


def _seats(contour: Sequence[Segment], path: Sequence[Piece], radius: float) -> tuple[Seat, ...]:
    turns = hollows(contour, path, radius)
    found: list[Seat] = []
    number = 0
    while number < len(turns):
        last = _dip(turns, path, number)
        if last is not None:
            found.append(_seat(turns, path, number, last, len(found) + 1))
            number = last
        number += 1
    return tuple(found)


def _dip(turns: Sequence[Hollow], path: Sequence[Piece], first: int) -> int | None:
    """Number of the hollow where the path climbs again after coming down in `first`, if it does.

    The same hollow for a pointed or round dip; the next one when a level floor lies between.
    """
    coming = math.remainder(turns[first].heading, math.tau)
    going = coming + turns[first].turn
    if coming > -LEVEL or going < -LEVEL:
        return None
    if going > LEVEL:
        return first
    following = first + 1
    if following == len(turns) or turns[following].before > turns[first].after:
        return None
    return following if _is_level(path[turns[first].after]) else None


def _is_level(piece: Piece) -> bool:
    return piece.centre is None and abs(math.sin(piece.heading)) < LEVEL


def _seat(
    turns: Sequence[Hollow], path: Sequence[Piece], first: int, last: int, number: int
) -> Seat:
    hinge_crest = _crest(path, turns[first].before, -1)
    free_crest = _crest(path, turns[last].after, 1)
    low = -1 if hinge_crest is None else hinge_crest
    high = len(path) if free_crest is None else free_crest
    within = [k for k, t in enumerate(turns) if low <= t.before and t.after <= high]
    return Seat(
        number=number,
        low=turns[first].rest(DOWN),
        high=turns[last].rest(DOWN),
        hollows=tuple(turns[k] for k in within),
        rest=(within.index(first), within.index(last)),
        crests=(hinge_crest, free_crest),
    )


def _crest(path: Sequence[Piece], start: int, step: int) -> int | None:
    """The piece on which the climb out of a dip ends: level, or turning right through level."""
    number = start
    while 0 <= number < len(path):
        piece = path[number]
        ahead = piece.leaving if step > 0 else piece.heading
        over = step * math.sin(ahead) < LEVEL and math.cos(ahead) > 0.0
        if over and (number != start or piece.sweep < 0.0):
            return number
        number += step
    return None
