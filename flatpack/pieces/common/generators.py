"""The shapes that parts are made by: one row a generator, for maker's own pieces and the gallery.

Each makes an outline in the part's own axes from a record of keys: x along the grain from the
left end, y across it from the lower edge.

    board        slats          rounded bar    notched bar    disc, panel, polygon, profile
    .--------.   = = = =        .--------.     _  _  _        any closed line
    '--------'   (boards in a   '--------'     |_||_||_|
     corners      row)           ( one, both )  rods' places
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, NamedTuple

from flatpack.features import Notch
from flatpack.geometry import Outline, Point, Segment, closed
from flatpack.geometry.shapes import (
    disc,
    filleted,
    one_round_end,
    rectangle,
    round_ended,
    rounded_rectangle,
    spliced,
)
from flatpack.mechanism.notches import Overlap, cut, rack_contour, seat_of
from flatpack.model import Feature
from flatpack.pieces.common.notch_forms import cornered, notch_form
from flatpack.pieces.common.shape_records import (
    NARROWEST,
    Board,
    Disc,
    NotchedBar,
    Opening,
    Panel,
    Polygon,
    Profile,
    RoundedBar,
    Slats,
)
from flatpack.profiles import Profiles


class Shaped(NamedTuple):
    """What a generator makes: outline, openings and what is worked on it, in the part's axes."""

    outline: Outline
    openings: tuple[Outline, ...] = ()
    features: tuple[Feature, ...] = ()


class Generator(NamedTuple):
    """A row of `GENERATORS`: what it makes in a line, its keys, and how.

    `snaps` says that a width given is the next one sold where the board is bought planed.
    `make` raises ValueError, with what is wrong in words, where the keys make no shape.
    """

    does: str
    record: Any
    make: Callable[[Any, Profiles], Shaped]
    snaps: bool = False


def each_of(values: tuple[float, ...], count: int, what: str) -> tuple[float, ...]:
    """One value for all of `count`, one each, or none at all (0).

    Raises:
        ValueError: another number of values.
    """
    if len(values) in (0, 1):
        return (values or (0.0,)) * count
    if len(values) != count:
        raise ValueError(f"{what} has {len(values)} entries: give one, or {count}")
    return values


def _slat(p: Slats, _: Profiles) -> Shaped:
    return Shaped(rectangle(p.length, p.width))


def _board(p: Board, _: Profiles) -> Shaped:
    radii, slants = each_of(p.corners, 4, "corners"), each_of(p.slants, 2, "slants")
    if not any(radii) and not any(slants):
        return Shaped(rectangle(p.length, p.width))
    # How far each end's upper corner stands beyond its lower one.
    left, right = (p.width * math.tan(math.radians(angle)) for angle in slants)
    below = max(left, 0.0), p.length - max(right, 0.0)
    above = max(-left, 0.0), p.length - max(-right, 0.0)
    if below[1] - below[0] < NARROWEST or above[1] - above[0] < NARROWEST:
        raise ValueError("its slanting ends leave nothing of an edge")
    places = ((below[0], 0.0), (below[1], 0.0), (above[1], p.width), (above[0], p.width))
    return Shaped(filleted(tuple((x, y, r) for (x, y), r in zip(places, radii, strict=True))))


def _rounded_bar(p: RoundedBar, _: Profiles) -> Shaped:
    radius = p.width / 2.0
    if p.length <= (2.0 if p.ends == "both" else 1.0) * radius:
        raise ValueError("it is too short for its round ends")
    if p.ends == "right":
        return Shaped(one_round_end(p.length, p.width))
    return Shaped(round_ended(p.length - p.width, radius).moved(radius, radius))


def _notched_bar(p: NotchedBar, profiles: Profiles) -> Shaped:
    """The upper edge is replaced by the notches' line, walked against its own direction."""
    profile = profiles.notch(p.notch)
    form = notch_form(profile, p.rod)
    if form.depth >= p.width:
        raise ValueError(f"notches {form.depth:g} deep cut the bar through")
    seat, slack = seat_of(form, p.rod / 2.0)
    rest = seat.y - slack  # by its own weight, at the bottom of a round notch
    floor = p.width - form.depth
    cuts = [cut(form, Point(x - seat.x, floor)) for x in sorted(p.at)]
    made = rack_contour(cuts, Point(0.0, p.width), Point(p.length, p.width))
    if isinstance(made, Overlap):
        raise ValueError("notches run into each other, or past an end")
    edge = cornered(made, profile)
    upper = tuple(s.reversed() for s in reversed(edge))
    outline = spliced(rectangle(p.length, p.width), 2, upper)
    rods = tuple(
        Notch(at=Point(x, floor + rest), number=n, diameter=p.rod, shape=profile.shape)
        for n, x in enumerate(sorted(p.at), 1)
    )
    return Shaped(outline, (), rods)


def _disc(p: Disc, _: Profiles) -> Shaped:
    radius = p.diameter / 2.0
    return Shaped(disc(radius, radius, radius))


def _panel(p: Panel, _: Profiles) -> Shaped:
    openings = tuple(_opening(o, x, y) for o in p.openings for x, y in o.at)
    return Shaped(rounded_rectangle(p.length, p.width, p.round), openings)


def _opening(p: Opening, x: float, y: float) -> Outline:
    if p.diameter is not None:
        if p.length is not None or p.width is not None:
            raise ValueError("an opening has a diameter, or length and width, not both")
        return disc(p.diameter / 2.0, x, y)
    if p.length is None or p.width is None:
        raise ValueError("an opening needs a diameter, or length and width")
    shape = rounded_rectangle(p.length, p.width, p.round)
    return shape.moved(x - p.length / 2.0, y - p.width / 2.0)


def _polygon(p: Polygon, _: Profiles) -> Shaped:
    _distinct(p.points)
    radii = each_of(p.round, len(p.points), "round")
    corners = tuple((x, y, r) for (x, y), r in zip(p.points, radii, strict=True))
    return Shaped(_leftwards(filleted(corners)))


def _profile(p: Profile, _: Profiles) -> Shaped:
    """A rise of h over a chord c has the bulge tan(sweep / 4) = 2 h / c, outwards for leftwards."""
    _distinct(p.points)
    rises = each_of(p.rises, len(p.points), "rises")
    points = [Point(*at) for at in p.points]
    ends = points[1:] + points[:1]
    straight = closed((*a, 0.0) for a in points) if len(points) > 2 else None
    way = -1.0 if straight is not None and straight.area < 0.0 else 1.0
    bulges = [
        2.0 * way * h / Segment(a, b).chord
        for a, b, h in zip(points, ends, rises, strict=True)
    ]  # fmt: skip
    return Shaped(_leftwards(closed((*a, k) for a, k in zip(points, bulges, strict=True))))


def _distinct(points: tuple[tuple[float, float], ...]) -> None:
    for number, (a, b) in enumerate(zip(points, points[1:] + points[:1], strict=True), 1):
        if a == b:
            raise ValueError(f"points {number} and {number % len(points) + 1} are the same")


def _leftwards(outline: Outline) -> Outline:
    return outline if outline.area >= 0.0 else outline.reversed()


GENERATORS: Mapping[str, Generator] = MappingProxyType(
    {
        "board": Generator("a straight board, ends square or slanting", Board, _board, True),
        "slats": Generator("boards in an even row between two places", Slats, _slat, True),
        "rounded bar": Generator("a bar with half-round ends", RoundedBar, _rounded_bar, True),
        "notched bar": Generator("a bar with notches for rods", NotchedBar, _notched_bar, True),
        "disc": Generator("a round board", Disc, _disc),
        "panel": Generator("a rectangle with openings", Panel, _panel),
        "polygon": Generator("straight sides, corners rounded or not", Polygon, _polygon),
        "profile": Generator("a line of straight pieces and arcs", Profile, _profile),
    }
)
"""Every generator, by the word that a parameter file says for it."""
