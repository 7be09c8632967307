"""How tightly joints without fasteners are cut, and how a workshop eases their corners."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.geometry import Outline, Point, Vec
from flatpack.geometry.relief import Relief, relieved
from flatpack.geometry.shapes import rectangle
from flatpack.model import Part
from flatpack.profiles import Workshop


class Fitting(NamedTuple):
    """Slot less tongue of each kind of fit, mm, and the relief of corners in which a square seats.

    `tolerance` is what the machine holds to; `cutter` the smallest inside radius that it can cut,
    0 for a chisel.
    """

    press: float
    push: float
    slide: float
    tolerance: float
    cutter: float
    relief: Relief | None


def fitting(shop: Workshop, chosen: float | None = None) -> Fitting:
    """A workshop's fits; all shift alike when the push fit `chosen` on a test piece is another."""
    shift = 0.0 if chosen is None else chosen - shop.fits.push
    radius = shop.smallest_radius()
    eased = radius > 0.0 and shop.relief != "none"
    return Fitting(
        press=shop.fits.press + shift,
        push=shop.fits.push + shift,
        slide=shop.fits.slide + shift,
        tolerance=shop.tolerance,
        cutter=radius,
        relief=Relief(radius, shop.relief == "one-sided") if eased else None,
    )


def flat(part: Part, place: Vec) -> Point:
    """A place of the piece in a part's own x and y, free of the noise of turning."""
    at = part.frame.local(place)
    return Point(round(at.x, 9) + 0.0, round(at.y, 9) + 0.0)


def flat_way(part: Part, direction: Vec) -> Point:
    """A direction of the piece in a part's own x and y."""
    way = part.frame.local_direction(direction)
    return Point(round(way.x, 9) + 0.0, round(way.y, 9) + 0.0)


def mortise(
    part: Part, middle: Vec, along: Vec, length: float, width: float, relief: Relief | None
) -> Outline:
    """Opening about `middle`, `length` along a direction of the piece that lies in the part.

    All its corners are eased, since what comes through it is square.
    """
    at, way = flat(part, middle), flat_way(part, along)
    turned = abs(way.y) > abs(way.x)
    sizes = (width, length) if turned else (length, width)
    made = rectangle(*sizes, at.x - sizes[0] / 2.0, at.y - sizes[1] / 2.0)
    if relief is None:
        return made
    return relieved(made, relief.radius, one_sided=relief.one_sided, opening=True).outline
