"""Joints without fasteners, measured on the parts as they are cut: is the slot as wide as wanted?

Along each direction in which a joint holds, the faces of one part look at the faces of the other.
The nearest pair each way gives the play (or the squeeze) on that side; the two add up to slot less
tongue.  Exact for flat faces, and blind to how the joint says that it was cut.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.mates import Flat, flats, in_common
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry import Frame, Vec
from flatpack.geometry.polygon import region
from flatpack.model import Fit, Part

ALIKE = 1e-6
"""Cosine by which a face's normal may be off."""
LEAST_AREA = 1.0
"""Common area below which two faces only meet at a line, mm2."""


def all_flats(setting: Setting, part: Part) -> tuple[Flat, ...]:
    """Every flat side of a part, the walls of its openings with them."""
    return (*flats(part, setting.face(part)), *_walls(part))


def _walls(part: Part) -> Iterator[Flat]:
    f, t = part.frame, part.thickness
    for opening in part.openings:
        # Walked clockwise, so that the wood lies left of travel as it does on an outline.
        way = opening.reversed() if opening.area > 0.0 else opening
        for s in way:
            if s.bulge == 0.0:
                d = s.direction(0.0)
                shape = region(((0.0, 0.0), (s.chord, 0.0), (s.chord, t), (0.0, t)))
                along, out = f.turn(Vec(d.x, d.y, 0.0)), f.turn(Vec(d.y, -d.x, 0.0))
                yield Flat(Frame(f.place(*s.start), along, f.z, out), shape)


def clearance(some: tuple[Flat, ...], others: tuple[Flat, ...], way: Vec) -> float | None:
    """Slot less tongue along a direction, mm; None when no faces hold the parts both ways."""
    sides = [_gap(some, others, one) for one in (way, way.negated())]
    ahead, behind = sides
    return None if ahead is None or behind is None else ahead + behind


def _gap(some: tuple[Flat, ...], others: tuple[Flat, ...], way: Vec) -> float | None:
    """Least gap from faces of `some` that look along `way` to faces of others that look back."""
    ahead = [a for a in some if a.frame.z.dot(way) > 1.0 - ALIKE]
    back = [b for b in others if b.frame.z.dot(way) < ALIKE - 1.0]
    pairs = [(way.dot(b.frame.origin.minus(a.frame.origin)), a, b) for a in ahead for b in back]
    pairs.sort(key=lambda row: abs(row[0]))
    return next((gap for gap, a, b in pairs if in_common(a, b) >= LEAST_AREA), None)


def check_fits(setting: Setting) -> Iterator[Finding]:
    """Every joint that holds by its shape has the fit that it was meant to have."""
    parts = setting.assembly.parts
    sides: dict[str, tuple[Flat, ...]] = {}
    for fit in setting.assembly.fits:
        for key in (fit.part, fit.onto):
            if key not in sides:
                sides[key] = all_flats(setting, parts[key])
        for way in fit.across:
            found = clearance(sides[fit.part], sides[fit.onto], way)
            yield from _judged(setting, fit, found)


def _judged(setting: Setting, fit: Fit, found: float | None) -> Iterator[Finding]:
    pair, limits = f"{fit.part} / {fit.onto}", setting.limits
    if found is None:
        text = f"{fit.part} isn't held sideways in {fit.onto}: no slot or mortise fits round it"
        yield Finding("fit-missing", "fault", pair, text)
        return
    off = found - fit.clearance
    if abs(off) > limits.fit_off.value:
        yield Finding(
            "fit-off", "fault", pair,
            f"slot less tongue is {found:.2f}, meant to be {fit.clearance:.2f}",
            round(found, 3), round(fit.clearance, 3), "mm", limits.fit_off.source,
            f"make the slot {abs(off):.2f} mm {'narrower' if off > 0.0 else 'wider'}",
        )  # fmt: skip
    for limit, size, word, remedy in (
        (limits.fit_loosest, found, "loose", "a tighter fit"),
        (limits.squeeze_most, -found, "tight", "a looser fit"),
    ):
        if size > limit.value + ALIKE:
            yield Finding(
                f"fit-{word}", "warning", pair,
                f"slot less tongue is {found:.2f}: too {word} to "
                f"{'hold without rattling' if word == 'loose' else 'go together'}",
                round(found, 3), limit.value, "mm", limit.source, remedy,
            )  # fmt: skip
