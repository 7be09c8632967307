"""Holes, slots and pocket holes that a maker sets out directly, not by a joint."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack import parameters as keys
from flatpack.features import Countersink, Hole, PocketHole, Slot
from flatpack.geometry import Outline, Point
from flatpack.model import Face, Feature
from flatpack.parameters import UNSET, record
from flatpack.profiles import PocketJig

OPEN = "open"
"""Fit of a hole that takes no fastener: to drain, to hang up by, to pass a cord."""


@record
class GivenHole:
    """A drilled hole, or several alike; in the part's own axes, from its lower left."""

    at: tuple[tuple[float, float], ...] = keys.pairs(
        UNSET, most=6000, fewest=1, most_count=200, does="its middle, or several: x and y"
    )
    diameter: float = keys.length(UNSET, least=1, most=200, does="across", example=10.0)
    depth: float | None = keys.length(None, least=0.5, most=200, does="left out: right through")
    sink: float | None = keys.length(
        None, least=2, most=60, does="diameter of a countersink about it"
    )
    face: str = keys.choice("show", ("show", "back"), does="face that it is worked from")
    purpose: str = keys.text("", longest=60, does="what it is for")


@record
class GivenSlot:
    """A slot or groove with round ends."""

    ends: tuple[tuple[float, float], ...] = keys.pairs(
        UNSET, most=6000, fewest=2, most_count=2, does="middles of its two ends: x and y"
    )
    width: float = keys.length(UNSET, least=2, most=200, does="across", example=10.0)
    depth: float | None = keys.length(None, least=0.5, most=200, does="left out: right through")
    face: str = keys.choice("show", ("show", "back"), does="face that it is worked from")
    purpose: str = keys.text("", longest=60, does="what it is for")


@record
class GivenPockets:
    """Pocket holes for the jig along an end or edge."""

    side: str = keys.choice(
        "right", ("left", "right", "lower", "upper"), does="end or edge that the screws leave"
    )
    at: tuple[float, ...] = keys.lengths(
        UNSET, most=6000, fewest=1, most_count=60,
        does="along that side, from the lower edge or the left end", example=(20.0, 50.0),
    )  # fmt: skip
    face: str = keys.choice("back", ("show", "back"), does="face with the pockets")
    purpose: str = keys.text("pocket screw", longest=60, does="what it is for")


def holes(rows: tuple[GivenHole, ...]) -> Iterator[Feature]:
    """The holes, each with its countersink."""
    for p in rows:
        for x, y in p.at:
            at, face = Point(x, y), _face(p.face)
            yield Hole(
                at=at, diameter=p.diameter, depth=p.depth, face=face, fit=OPEN, purpose=p.purpose
            )
            if p.sink is not None:
                yield Countersink(at=at, diameter=p.sink, face=face, purpose=p.purpose)


def slots(rows: tuple[GivenSlot, ...]) -> Iterator[Feature]:
    """The slots."""
    for p in rows:
        start, end = (Point(x, y) for x, y in p.ends)
        yield Slot(
            start=start,
            end=end,
            width=p.width,
            depth=p.depth,
            face=_face(p.face),
            purpose=p.purpose,
            fit=OPEN,
        )


def pockets(
    rows: tuple[GivenPockets, ...], outline: Outline, thickness: float, jig: PocketJig
) -> Iterator[Feature]:
    """The pocket holes; the side is that of the outline's bounds."""
    x0, y0, x1, y1 = outline.bounds
    for p in rows:
        for at in p.at:
            exit_at, inward = {
                "left": (Point(x0, y0 + at), Point(1.0, 0.0)),
                "right": (Point(x1, y0 + at), Point(-1.0, 0.0)),
                "lower": (Point(x0 + at, y0), Point(0.0, 1.0)),
                "upper": (Point(x0 + at, y1), Point(0.0, -1.0)),
            }[p.side]
            shoulder = jig.shoulder(thickness)
            yield PocketHole(
                exit=exit_at,
                inward=inward,
                thickness=thickness,
                face=_face(p.face),
                slope=jig.angle,
                diameter=jig.drill,
                pilot=jig.pilot,
                shoulder=shoulder,
                collar=f"collar set for {thickness:g} board, shoulder {shoulder:g} from the edge",
                edge="end" if p.side in ("left", "right") else "long edge",
                purpose=p.purpose,
            )


def _face(word: str) -> Face:
    return "show" if word == "show" else "back"
