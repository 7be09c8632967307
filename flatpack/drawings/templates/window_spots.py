"""What of a part's holes is marked through paper, and what the story stick has instead."""

from __future__ import annotations

import math

from flatpack.drawings.boxes import Box, box_of, grown, union
from flatpack.drawings.holes import Spot
from flatpack.drawings.turned import Seen
from flatpack.geometry import Segment
from flatpack.model import Feature, Part

_LOOSE = frozenset({"centre-line", "thin-line"})
_OFF = 2.0
"""A round seat's centre lies no further than this from the rod's own, mm."""


def on_paper(spot: Spot, part: Part) -> Spot | None:
    """The spot with what is marked through paper; None when nothing is.

    A notch with a round seat is marked at the seat's centre, where its bore is drilled.
    """
    kept = tuple(f for f in spot.features if not along_edge(f))
    if not kept:
        return None
    bore = seat(part, kept[0]) if is_rod(kept[0]) else None
    if bore is None:
        return spot._replace(features=kept)
    x0, y0, _, _ = part.outline.bounds
    at = bore.centre
    return spot._replace(features=kept, x=round(at.x - x0, 3), y=round(at.y - y0, 3))


def along_edge(feature: Feature) -> bool:
    """True for a pocket hole along a long edge: the story stick has it."""
    return feature.operation == "pocket-hole" and getattr(feature, "edge", "") == "long edge"


def is_rod(feature: Feature) -> bool:
    """True for a notch in which a rod lies."""
    return feature.operation == "thin-line" and hasattr(feature, "number")


def seat(part: Part, notch: Feature) -> Segment | None:
    """The round seat of a notch, to be drilled before it is sawn out; None where it has none."""
    rod = float(getattr(notch, "diameter", 0.0)) / 2.0
    arcs = (s for s in part.outline.segments if s.bulge and rod <= s.radius < 1.5 * rod)
    near = ((math.dist(s.centre, notch.at), s) for s in arcs)
    return next((s for off, s in near if off < _OFF), None)


def spot_box(spot: Spot, seen: Seen) -> Box:
    """Room that a spot's strokes take in the part as seen, mm."""
    shapes = (s for f in spot.features for layer, s in f.shapes() if layer not in _LOOSE)
    boxes = [box_of(seen.shape(shape)) for shape in shapes]
    at = seen.point(spot.features[0].at)
    return grown(union((*boxes, (*at, *at))), 2.0)
