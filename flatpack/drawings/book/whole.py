"""Pictures of the whole piece: finished, and taken apart."""

from __future__ import annotations

from flatpack.drawings.book.picture import Shown, ordered, picture
from flatpack.drawings.book.sight import cover_view, middle, paintable, reach, views_of
from flatpack.drawings.book.step_view import Marks
from flatpack.drawings.shapes import Drawing
from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec
from flatpack.model import Assembly, Bar, Part

_ALONG, _ACROSS, _UP = 0.12, 0.9, 1.1
"""How much further apart parts stand, as a share of their distance from the middle: along the
piece's longer way, across it, and up."""
_LIFT = 0.28
"""How far a moving sub-assembly is lifted off, as a share of the piece's length."""


def finished_picture(assembly: Assembly, title: str) -> Drawing:
    """The piece as it stands."""
    view = cover_view(assembly)
    bodies = ordered(paintable(assembly), view)
    parts = {*assembly.parts, *assembly.bars}
    looks = {o.body.key: "old" if o.body.key in parts else "metal" for o in bodies}
    return picture("finished", title, Shown(bodies, looks, {}, "", {}), view)


def exploded_picture(assembly: Assembly, title: str, marks: Marks) -> Drawing:
    """The parts moved away from the middle along the piece's own axes, each with its mark."""
    apart = exploded(assembly)
    view = views_of(assembly)[0]
    bodies = ordered(paintable(apart), view)
    return picture("exploded", title, Shown(bodies, {}, {}, "", marks), view)


def exploded(assembly: Assembly) -> Assembly:
    """The piece with its parts moved apart and its fasteners left out."""
    low, high = reach(assembly)
    size = high.minus(low)
    centre = low.plus(size, 0.5)
    share = Vec(_ALONG, _ACROSS, _UP) if size.x > size.y else Vec(_ACROSS, _ALONG, _UP)
    lift = _LIFT * max(size)
    return replace(
        assembly,
        parts={
            key: replace(part, frame=_moved(part, centre, share, lift))
            for key, part in assembly.parts.items()
        },
        bars={
            key: replace(bar, frame=_moved(bar, centre, share, lift))
            for key, bar in assembly.bars.items()
        },
        fasteners=(),
    )


def _moved(part: Part | Bar, centre: Vec, share: Vec, lift: float) -> Frame:
    off = middle(part).minus(centre)
    shift = Vec(off.x * share.x, off.y * share.y, off.z * share.z)
    if part.group != "frame":
        shift = shift.plus(Vec(0.25, 0.0, 1.0), lift)
    f = part.frame
    return Frame(f.origin.plus(shift), f.x, f.y, f.z)
