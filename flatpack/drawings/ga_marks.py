"""Part marks on the views of the general arrangement, each where its part can be seen."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence

from flatpack.drawings.boxes import Box, grown, meet
from flatpack.drawings.lettering import text_width
from flatpack.drawings.projection import Body, View, view_box
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
            upright = (n for n in every if not _tilted(bodies[n], view))
            spot = next((t for n in upright if (t := _room(mark, n, boxes))), None)
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
