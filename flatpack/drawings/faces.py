"""Which face of a part is drawn, and how its own axes look from there.

own axes, right-handed frame          the same part seen from the back,
seen from the show face               or the other hand seen from the show face
  y |                                                | y
    |___ x   datum end at the left      x ___________|   datum end at the right
"""

from __future__ import annotations

from flatpack.drawings.turned import Seen
from flatpack.model import Face, Feature, Part

#: Operations that belong to the face they are worked from, even without a depth.
_ONE_SIDED = frozenset(
    {"drill-blind", "pocket-hole", "counterbore", "countersink", "housing", "arris"}
)
#: Operations that only help to find one's way: nothing is worked there.
_NOT_WORKED = frozenset({"hidden-edge", "thin-line"})


def one_sided(feature: Feature) -> bool:
    """True when the tool enters one face only and does not come out of the other."""
    if feature.operation in _NOT_WORKED:
        return False
    return feature.operation in _ONE_SIDED or feature.depth is not None


def worked_faces(part: Part) -> tuple[Face, ...]:
    """The face with more one-sided work (show face if equal), then the other if it has any."""
    show = sum(one_sided(f) and f.face == "show" for f in part.features)
    back = sum(one_sided(f) and f.face == "back" for f in part.features)
    if back > show:
        return ("back", "show") if show else ("back",)
    return ("show", "back") if back else ("show",)


def mirrored_view(part: Part, face: Face) -> bool:
    """True when the part's own axes run right to left, seen square on this face."""
    return part.frame.mirrored != (face == "back")


def seen_on(part: Part, face: Face, x: float = 0.0, y: float = 0.0) -> Seen:
    """The view that puts the lower left of the part's bounds at x, y."""
    low_x, low_y, high_x, _ = part.outline.bounds
    mirrored = mirrored_view(part, face)
    return Seen(mirrored, x + high_x if mirrored else x - low_x, y - low_y)


def datum_on_left(part: Part, face: Face) -> bool:
    """The datum end is the part's own x = 0 end, on either hand."""
    return not mirrored_view(part, face)
