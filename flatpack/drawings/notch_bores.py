"""Notches with a round seat: they are drilled before they are sawn out, wider than the rod."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Any

from flatpack.drawings.figures import mm
from flatpack.drawings.shapes import Cross, Stroke
from flatpack.drawings.turned import Seen
from flatpack.frozen import replace
from flatpack.geometry import Segment
from flatpack.model import Feature, Part
from flatpack.wording import english_notches as words

_OFF = 2.0
"""A round seat's centre lies no further than this from the rod's own, mm."""


def is_rod(feature: Feature) -> bool:
    """True for a notch in which a rod lies."""
    return feature.operation == "thin-line" and hasattr(feature, "number")


def seat(part: Part, notch: Feature) -> Segment | None:
    """The round seat of a notch, to be drilled before it is sawn out; None where it has none."""
    rod = float(getattr(notch, "diameter", 0.0)) / 2.0
    arcs = (s for s in part.outline.segments if s.bulge and rod <= s.radius < 1.5 * rod)
    near = ((math.dist(s.centre, notch.at), s) for s in arcs)
    return next((s for off, s in near if off < _OFF), None)


def without_rods(strokes: Iterable[Stroke], part: Part, seen: Seen) -> tuple[Stroke, ...]:
    """Strokes but the crosses of rods in bored seats: nobody is to prick the wrong one."""
    rods = {seen.point(f.at) for f in part.features if is_rod(f) and seat(part, f)}
    return tuple(s for s in strokes if not (isinstance(s.shape, Cross) and s.shape.centre in rods))


def bore_crosses(part: Part, seen: Seen) -> Iterator[Stroke]:
    """Crosses at the centres of the bored seats."""
    bores = (seat(part, f) for f in part.features if is_rod(f))
    for bore in filter(None, bores):
        yield Stroke("centre-line", Cross(seen.point(bore.centre), bore.radius))


def to_drill(part: Part, feature: Feature) -> Feature:
    """A notch with a round seat as the hole that is drilled for it; any other feature as it is.

    What it is for says where the rod's own centre comes to lie, from datum end and edge.
    """
    bore = seat(part, feature) if is_rod(feature) else None
    if bore is None:
        return feature
    notch: Any = feature
    x0, y0, _, _ = part.outline.bounds
    rod = (mm(feature.at.x - x0), mm(feature.at.y - y0), mm(notch.diameter))
    purpose = words.bored_notch(notch.number, *rod, notch.purpose)
    bored: Feature = replace(notch, at=bore.centre, diameter=2.0 * bore.radius, purpose=purpose)
    return bored
