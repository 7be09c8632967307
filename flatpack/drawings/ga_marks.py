"""Part marks on the views of the general arrangement, each where its part can be seen."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from flatpack.drawings.boxes import Box, grown, meet
from flatpack.drawings.lettering import text_width
from flatpack.drawings.mark_place import inside
from flatpack.drawings.projection import Body, View, faces, view_box
from flatpack.drawings.shapes import Stroke, Text
from flatpack.geometry import Point

_HEIGHTS = (2.5, 1.8)
"""Capital heights tried, mm (ISO 3098 series)."""
_SHARES = (0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95)
"""Places tried along the body, as shares of its length."""

OnPaper = Callable[[View, Point], Point]


def placed_marks(
    keys_of: Mapping[str, tuple[str, ...]],
    ordered: Sequence[tuple[View, tuple[Body, ...]]],
    on_paper: OnPaper,
) -> Iterator[Stroke]:
    """Each mark once, on a stretch of its part that nothing hides; none where there is none.

    `keys_of` are the parts' keys by mark, `ordered` the bodies of each view, furthest first.
    """
    wanted = dict(keys_of)
    for view, bodies in ordered:
        boxes = [_box(body, view, on_paper) for body in bodies]
        places: dict[str, list[int]] = {}  # a board that goes through another is in pieces
        for number, body in enumerate(bodies):
            places.setdefault(body.key, []).append(number)
        for mark, keys in tuple(wanted.items()):
            every = (n for key in keys for n in places[key])
            found = (
                _on_slant(mark, n, bodies, view, boxes, on_paper)
                if _tilted(bodies[n], view)
                else _room(mark, n, boxes)
                for n in every
            )
            spot = next(filter(None, found), None)
            if spot:
                yield Stroke("text", spot)
                del wanted[mark]


def _box(body: Body, view: View, on_paper: OnPaper) -> Box:
    x0, y0, x1, y1 = view_box(body, view)
    return (*on_paper(view, Point(x0, y0)), *on_paper(view, Point(x1, y1)))


def _tilted(body: Body, view: View) -> bool:
    """True when the body doesn't fill its box on the paper: no edge of it runs along the paper."""
    return not any(
        abs(abs(axis.dot(way)) - 1.0) < 1e-6
        for axis in (body.frame.x, body.frame.y, body.frame.z)
        for way in (view.right, view.up)
    )


def _on_slant(
    mark: str, number: int, bodies: Sequence[Body], view: View, boxes: Sequence[Box],
    on_paper: OnPaper,
) -> Text | None:  # fmt: skip
    """A place within one of the faces of a body that doesn't fill its box, nearest its middle."""
    x0, y0, x1, y1 = boxes[number]
    spots = [(x0 + (x1 - x0) * a, y0 + (y1 - y0) * b) for a in _SHARES for b in _SHARES]
    for face in reversed(tuple(faces(bodies[number], view))):
        edge = [on_paper(view, p) for p in face.points]
        for height in _HEIGHTS:
            wide, high = text_width(mark, height) / 2.0 + 0.3, height / 2.0 + 0.4
            for x, y in spots:
                box = grown((x - wide, y - high, x + wide, y + high), 0.3)
                if inside(box, edge) and not any(meet(box, b) for b in boxes[number + 1 :]):
                    return Text(Point(x, y), mark, height, 0.0, "middle", "middle")
    return None


def _room(mark: str, number: int, boxes: Sequence[Box]) -> Text | None:
    own, nearer = boxes[number], boxes[number + 1 :]
    x0, y0, x1, y1 = own
    long = x1 - x0 >= y1 - y0
    for height in _HEIGHTS:
        wide, high = text_width(mark, height) / 2.0 + 0.3, height / 2.0 + 0.4
        clear = 0.5 if height == _HEIGHTS[0] else 0.0
        for share in _SHARES:
            x = x0 + (x1 - x0) * (share if long else 0.5)
            y = y0 + (y1 - y0) * (0.5 if long else share)
            box = (x - wide, y - high, x + wide, y + high)
            if _holds(own, grown(box, clear)) and not any(meet(grown(box, 0.6), b) for b in nearer):
                return Text(Point(x, y), mark, height, 0.0, "middle", "middle")
    return None


def _holds(outer: Box, inner: Box) -> bool:
    return (
        outer[0] <= inner[0]
        and outer[1] <= inner[1]
        and inner[2] <= outer[2]
        and inner[3] <= outer[3]
    )
