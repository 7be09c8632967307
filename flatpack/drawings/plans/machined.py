"""One part as the machine cuts it: relief in square corners, kerf taken into account.

Relief and kerf change what is drawn, never the part itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.faces import seen_on, worked_faces
from flatpack.drawings.part_strokes import mark_strokes, second_face, worked
from flatpack.drawings.shapes import Circle, Closed, Shape, Stroke
from flatpack.geometry import Outline
from flatpack.geometry.offset import offset
from flatpack.geometry.relief import relieved
from flatpack.planning.pool import Wanted
from flatpack.profiles import Workshop

_HOLLOW = frozenset({"opening", "drill-through", "slot"})
"""Cut through from inside: the kerf makes them larger, so that they are drawn smaller."""


class Machined(NamedTuple):
    """Strokes of a part at the origin, those that the kerf swallowed, and its own outline."""

    strokes: tuple[Stroke, ...]
    lost: tuple[str, ...]


def machined(part: Wanted, shop: Workshop) -> Machined:
    """The part on its working face, lower left of its bounds at the origin."""
    made = part.group.part
    face = worked_faces(made)[0]
    seen = seen_on(made, face)
    strokes = worked(made, face, seen)
    layer = "part-mark" if face == "back" else "thin-line"
    marked = (*strokes, *mark_strokes(made, part.mark, seen, strokes, layer))
    kept: list[Stroke] = []
    lost: list[str] = []
    for stroke in marked:
        drawn = tuple(_drawn(stroke, shop))
        kept += drawn
        if not drawn:
            lost.append(stroke.layer)
    return Machined(tuple(kept), tuple(lost))


def other_face(part: Wanted) -> tuple[Stroke, ...]:
    """What is still to be worked from the other face, as it lies under the first; () if nothing.

    Drawn as seen from the first face's side: the whole sheet is mirrored afterwards.
    """
    made = part.group.part
    faces = worked_faces(made)
    if len(faces) == 1:
        return ()
    return second_face(made, faces[1], seen_on(made, faces[0]))


def _drawn(stroke: Stroke, shop: Workshop) -> Iterator[Stroke]:
    yield from (Stroke(stroke.layer, s) for s in _shapes(stroke, shop))


def _shapes(stroke: Stroke, shop: Workshop) -> Iterator[Shape]:
    half = shop.kerf / 2.0 if shop.compensated else 0.0
    shape = stroke.shape
    if stroke.layer == "outline" and isinstance(shape, Closed):
        eased = _relieved(shape.outline, shop, opening=False)
        yield from map(Closed, offset(eased, half))
    elif stroke.layer in _HOLLOW and isinstance(shape, Closed):
        eased = _relieved(shape.outline, shop, opening=True)
        yield from map(Closed, offset(eased, -half))
    elif stroke.layer in _HOLLOW and isinstance(shape, Circle):
        if shape.radius > half:
            yield Circle(shape.centre, shape.radius - half)
    else:
        yield shape


def _relieved(outline: Outline, shop: Workshop, opening: bool) -> Outline:
    radius = shop.smallest_radius()
    if shop.relief == "none" or radius <= 0.0:
        return outline
    sided = shop.relief == "one-sided"
    return relieved(outline, radius, one_sided=sided, opening=opening).outline
