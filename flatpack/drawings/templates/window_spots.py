"""What of a part's holes is marked through paper, and what the story stick has instead."""

from __future__ import annotations

from flatpack.drawings.boxes import Box, box_of, grown, union
from flatpack.drawings.holes import Spot
from flatpack.drawings.turned import Seen
from flatpack.model import Feature

_LOOSE = frozenset({"centre-line", "thin-line"})


def on_paper(spot: Spot) -> Spot | None:
    """The spot with what is marked through paper; None when nothing is."""
    kept = tuple(f for f in spot.features if not along_edge(f))
    return spot._replace(features=kept) if kept else None


def along_edge(feature: Feature) -> bool:
    """True for a pocket hole along a long edge: the story stick has it."""
    return feature.operation == "pocket-hole" and getattr(feature, "edge", "") == "long edge"


def spot_box(spot: Spot, seen: Seen) -> Box:
    """Room that a spot's strokes take in the part as seen, mm."""
    shapes = (s for f in spot.features for layer, s in f.shapes() if layer not in _LOOSE)
    boxes = [box_of(seen.shape(shape)) for shape in shapes]
    at = seen.point(spot.features[0].at)
    return grown(union((*boxes, (*at, *at))), 2.0)
