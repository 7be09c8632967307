"""What of a part the shop's machine can't do: each finding names the part and the place.

Places are measured on the part as it lies on the machine, from the lower left of its bounds.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from flatpack.drawings.faces import seen_on, worked_faces
from flatpack.finding import Finding
from flatpack.geometry import Outline, Point
from flatpack.geometry.relief import relieved, square_corners
from flatpack.planning import told
from flatpack.planning.pool import Lot, Wanted
from flatpack.planning.sheets import shape_of
from flatpack.planning.supply import figure
from flatpack.profiles import Workshop
from flatpack.wording import english_plans as words

_TINY = 1e-6
_MILLED = ("drill-through", "drill-blind", "counterbore")


def shop_findings(lot: Lot, shop: Workshop) -> Iterator[Finding]:
    """Everything about the parts of a lot that breaks a limit of the shop."""
    for part in lot.parts:
        thickness = part.group.part.thickness
        if thickness > shop.thickest:
            yield _over(part.mark, "too-thick", words.too_thick(figure(thickness), shop.name),
                        thickness, shop.thickest, "fault")  # fmt: skip
        yield from _corners(part, shop)
        yield from _holes(part, shop)
        if not shop.both_faces and len(worked_faces(part.group.part)) == 2:
            yield told.told("both-faces", "note", words.second_face(shop.name), part.mark,
                            source=shop.name)  # fmt: skip


def _over(
    mark: str, code: str, text: str, measured: float, limit: float, severity: str = "warning"
) -> Finding:
    return told.told(code, severity, text, mark, "", measured, limit, "the workshop profile")  # type: ignore[arg-type]  # one of two words


def place(at: Point) -> str:
    """E.g. (120.5, 30)."""
    return f"({figure(at.x)}, {figure(at.y)})"


def _corners(part: Wanted, shop: Workshop) -> Iterator[Finding]:
    least = shop.smallest_radius()
    shape = shape_of(part, ())
    for outline, inside in ((shape.outline, False), *((o, True) for o in shape.openings)):
        eased = set()
        if least > 0.0 and shop.relief != "none":
            made = relieved(outline, least, one_sided=shop.relief == "one-sided", opening=inside)
            eased = set(made.eased)
            for at in square_corners(outline, inside):
                if at not in eased:
                    yield _over(part.mark, "no-relief", words.no_relief(place(at)), 0.0, least)
        for at, radius in tight(outline, inside, least):
            square = at in eased or at in square_corners(outline, inside)
            if not square or (shop.relief == "none" and least > 0.0):
                text = words.tight_corner(place(at), figure(radius))
                yield _over(part.mark, "tight-corner", text, radius, least)


def tight(outline: Outline, inside: bool, least: float) -> Iterator[tuple[Point, float]]:
    """Place and radius of every inside corner tighter than `least`; 0 for a sharp one."""
    way = 1.0 if inside else -1.0
    for before, segment in pairwise((outline.segments[-1], *outline.segments)):
        a, b = before.direction(1.0), segment.direction(0.0)
        if (a.x * b.y - a.y * b.x) * way > _TINY and least > 0.0:
            yield segment.start, 0.0
        if segment.bulge * way > 0.0 and segment.radius < least - _TINY:
            yield segment.middle, segment.radius


def _holes(part: Wanted, shop: Workshop) -> Iterator[Finding]:
    made = part.group.part
    seen = seen_on(made, worked_faces(made)[0])
    cutter = min(shop.cutters, default=0.0)
    kerf = shop.kerf if shop.compensated else 0.0
    found: dict[tuple[str, float], list[str]] = {}
    for feature in {f.key(): f for f in made.features}.values():
        milled = "diameter" if feature.operation in _MILLED else "width"
        across = float(getattr(feature, milled, 0.0))
        if feature.depth is None and 0.0 < across <= kerf:
            text = words.kerf_lost(figure(across), place(seen.point(feature.at)))
            yield _over(part.mark, "kerf-lost", text, across, kerf)
        if feature.operation in (*_MILLED, "slot", "housing") and 0.0 < across < cutter - _TINY:
            found.setdefault((milled, across), []).append(place(seen.point(feature.at)))
    for (milled, across), at in found.items():
        say, code = ((words.small_hole, "small-hole") if milled == "diameter"
                     else (words.narrow_slot, "narrow-slot"))  # fmt: skip
        yield _over(part.mark, code, say(figure(across), words.places(at)), across, cutter)
