"""The whole piece, small: faces painted back to front, metal and bars darker than wood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.drawings.book.sight import cover_view, paintable
from flatpack.drawings.boxes import Box
from flatpack.drawings.hiding import painted
from flatpack.drawings.projection import Body, View, faces, view_box
from flatpack.drawings.shapes import Closed, Drawing, Stroke
from flatpack.geometry import Outline, Point, Segment
from flatpack.model import Assembly

WIDE, HIGH = 48.0, 30.0
"""Room for the picture, mm."""
_MARGIN = 0.5
_SMALLEST = 0.05
"""Faces thinner than this on the paper aren't seen, mm."""
_WOOD, _EDGE, _METAL = 1.0, 0.86, 0.45


def thumbnail(
    assembly: Assembly, poses: Mapping[str, Assembly], room: tuple[float, float] = (WIDE, HIGH)
) -> Drawing:
    """The piece from above its foot or front; one that moves with its back at its highest stop.

    `room` is the width and height that it may take, mm.
    """
    shown = list(poses.values())[-1] if poses else assembly
    view = cover_view(shown)
    bodies = painted(_large(shown), view, closely=True)
    boxes = [view_box(body, view) for body in bodies]
    box: Box = (
        min(b[0] for b in boxes), min(b[1] for b in boxes),
        max(b[2] for b in boxes), max(b[3] for b in boxes),
    )  # fmt: skip
    scale = min(room[0] / (box[2] - box[0]), room[1] / (box[3] - box[1]))
    strokes = tuple(s for body in bodies for s in _strokes(body, shown, view, box, scale))
    wide, high = (box[2] - box[0]) * scale, (box[3] - box[1]) * scale
    bounds = (-_MARGIN, -_MARGIN, wide + _MARGIN, high + _MARGIN)
    return Drawing("thumbnail", assembly.name, bounds, strokes, (), scale)


def _large(shown: Assembly) -> tuple[Body, ...]:
    """Heads and nuts would be specks."""
    own = (*shown.parts, *shown.bars)
    return tuple(b for b in paintable(shown) if b.key in own or "wheel" in b.key.casefold())


def _strokes(body: Body, shown: Assembly, view: View, box: Box, scale: float) -> Iterator[Stroke]:
    wood = body.key in shown.parts
    seen = faces(body, view)
    for number, outline in enumerate(seen, 1):
        small = _reduced(outline, box, scale)
        if small is not None:
            tone = (_WOOD if number == len(seen) else _EDGE) if wood else _METAL
            yield Stroke("thin-line", Closed(small, True, tone))


def _reduced(outline: Outline, box: Box, scale: float) -> Outline | None:
    """On the paper, to a twentieth of a mm, arcs as chords; None where nothing is left to see."""
    points: list[Point] = []
    for p in outline.sampled(_SMALLEST / scale):
        x, y = ((v - low) * scale for v, low in zip(p, box[:2], strict=True))
        at = Point(round(x * 20.0) / 20.0, round(y * 20.0) / 20.0)
        if not points or at != points[-1]:
            points.append(at)
    if len(points) > 1 and points[0] == points[-1]:
        points.pop()
    if len(points) < 3:
        return None
    return Outline(tuple(map(Segment, points, (*points[1:], points[0]))))
