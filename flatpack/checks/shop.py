"""What of a part the shop's machine can't do: each finding names the part and the place.

Places are measured on the part as it is looked at, from the lower left of its bounds.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple, Protocol

from flatpack.checks.setting import Setting, alike
from flatpack.finding import Finding, Severity
from flatpack.geometry import Outline, Point
from flatpack.geometry.relief import relieved, square_corners
from flatpack.model import Part
from flatpack.profiles import Workshop
from flatpack.wording import english_plans as words

_TINY = 1e-6
_MILLED = ("drill-through", "drill-blind", "counterbore")


class Look(Protocol):
    """How a part lies when it is looked at."""

    def outline(self, outline: Outline) -> Outline:
        """An outline as it then lies."""

    def point(self, at: Point) -> Point:
        """A place of the part as it then lies."""


class Told(NamedTuple):
    """Whose findings they are: the part's name and how it lies, and the head of their codes."""

    name: str
    look: Look
    head: str = "shop"


class _AsDrawn:
    """The part in its own axes."""

    def outline(self, outline: Outline) -> Outline:
        return outline

    def point(self, at: Point) -> Point:
        return at


def check_shop(setting: Setting, shop: Workshop) -> Iterator[Finding]:
    """Every limit of a shop with a machine that a part of the piece breaks; of like parts once."""
    if shop.process == "bench":
        return
    for part, keys in setting.distinct:
        for finding in shop_limits(part, shop, Told(part.key, _AsDrawn())):
            yield finding._replace(message=finding.message + alike(keys))
    yield from _tolerance(setting, shop)


def _tolerance(setting: Setting, shop: Workshop) -> Iterator[Finding]:
    """A note where a slot may come out as that of another kind of fit."""
    kinds = sorted({round(fit.clearance, 6) for fit in setting.assembly.fits})
    apart = min((b - a for a, b in pairwise(kinds)), default=None)
    if apart is not None and shop.tolerance > apart + _TINY:
        yield Finding(
            "shop-fit-tolerance", "note", setting.assembly.name,
            words.fit_tolerance(f"{shop.tolerance:g}", f"{apart:g}"),
            shop.tolerance, round(apart, 3), "mm", "the workshop profile",
            words.FIT_TOLERANCE_REMEDY,
        )  # fmt: skip


def shop_limits(part: Part, shop: Workshop, told: Told) -> Iterator[Finding]:
    """Thickness, inside corners, holes and slots of one part against a shop's limits."""
    if part.thickness > shop.thickest:
        text = words.too_thick(figure(part.thickness), shop.name)
        yield _over(told, "too-thick", text, part.thickness, shop.thickest, "fault")
    outlines = ((part.outline, False), *((opening, True) for opening in part.openings))
    for outline, inside in outlines:
        yield from _corners(told.look.outline(outline), inside, shop, told)
    yield from _holes(part, shop, told)


def _over(
    told: Told, code: str, text: str, measured: float, limit: float, severity: Severity = "warning"
) -> Finding:
    source = "the workshop profile"
    return Finding(f"{told.head}-{code}", severity, told.name, text, measured, limit, "mm", source)


def figure(value: float) -> str:
    """To a tenth of a millimetre, no trailing zero."""
    return f"{value:.1f}".removesuffix(".0")


def place(at: Point) -> str:
    """E.g. (120.5, 30)."""
    return f"({figure(at.x)}, {figure(at.y)})"


def _corners(outline: Outline, inside: bool, shop: Workshop, told: Told) -> Iterator[Finding]:
    least = shop.smallest_radius()
    eased = set()
    if least > 0.0 and shop.relief != "none":
        made = relieved(outline, least, one_sided=shop.relief == "one-sided", opening=inside)
        eased = set(made.eased)
        for at in square_corners(outline, inside):
            if at not in eased:
                yield _over(told, "no-relief", words.no_relief(place(at)), 0.0, least)
    for at, radius in tight(outline, inside, least):
        square = at in eased or at in square_corners(outline, inside)
        if not square or (shop.relief == "none" and least > 0.0):
            text = words.tight_corner(place(at), figure(radius))
            yield _over(told, "tight-corner", text, radius, least)


def tight(outline: Outline, inside: bool, least: float) -> Iterator[tuple[Point, float]]:
    """Place and radius of every inside corner tighter than `least`; 0 for a sharp one."""
    way = 1.0 if inside else -1.0
    for before, segment in pairwise((outline.segments[-1], *outline.segments)):
        a, b = before.direction(1.0), segment.direction(0.0)
        if (a.x * b.y - a.y * b.x) * way > _TINY and least > 0.0:
            yield segment.start, 0.0
        if segment.bulge * way > 0.0 and segment.radius < least - _TINY:
            yield segment.middle, segment.radius


def _holes(part: Part, shop: Workshop, told: Told) -> Iterator[Finding]:
    cutter = min(shop.cutters, default=0.0)
    kerf = shop.kerf if shop.compensated else 0.0
    found: dict[tuple[str, float], list[str]] = {}
    for feature in {f.key(): f for f in part.features}.values():
        milled = "diameter" if feature.operation in _MILLED else "width"
        across = float(getattr(feature, milled, 0.0))
        at = place(told.look.point(feature.at))
        if feature.depth is None and 0.0 < across <= kerf:
            yield _over(told, "kerf-lost", words.kerf_lost(figure(across), at), across, kerf)
        if feature.operation in (*_MILLED, "slot", "housing") and 0.0 < across < cutter - _TINY:
            found.setdefault((milled, across), []).append(at)
    for (milled, across), places in found.items():
        say, code = ((words.small_hole, "small-hole") if milled == "diameter"
                     else (words.narrow_slot, "narrow-slot"))  # fmt: skip
        yield _over(told, code, say(figure(across), words.places(places)), across, cutter)
