"""Lean of raked posts and fall of rails on the view that shows them, as angles.

Of a post between upright and its rear edge, of a rail between level and its upper edge, each at
the end nearest the rear.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.drawings.figures import mm
from flatpack.drawings.ga_layout import Layout
from flatpack.drawings.shapes import Line, Path, Stroke, Text
from flatpack.geometry import Point, Segment
from flatpack.model import Assembly, Part

_RADIUS = 25.0
"""Of the arc on the paper, mm; three quarters of the post's length at most."""


def rakes(assembly: Assembly, layout: Layout) -> Iterator[Stroke]:
    """The angle from upright of the first post that leans to the rear, of each lean once."""
    done: set[float] = set()
    for part in assembly.parts.values():
        x = part.frame.x
        lean = math.degrees(math.atan2(x.x, x.z))
        if part.group != "frame" or abs(x.y) > 1e-6 or not 2.0 < lean < 60.0:
            continue
        if round(lean, 2) not in done:
            done.add(round(lean, 2))
            yield from _rake(part, lean, layout)


def _rake(part: Part, lean: float, layout: Layout) -> Iterator[Stroke]:
    view = next(v for v in layout.views if abs(v.right.x) > 0.5 and abs(v.up.z) > 0.5)
    top = max(
        (part.frame.place(x, y, 0.0) for x, y in _ends(part)), key=lambda v: (round(v.x, 3), v.z)
    )
    t, foot = layout.on_paper(view, top), layout.on_paper(view, top.plus(part.frame.x, -1.0))
    radius = min(_RADIUS, 0.75 * part.length * layout.scale)
    away = math.hypot(foot.x - t.x, foot.y - t.y)
    on_edge = Point(t.x + (foot.x - t.x) / away * radius, t.y + (foot.y - t.y) / away * radius)
    below = Point(t.x, t.y - radius)
    turn = math.copysign(math.tan(math.radians(lean) / 4.0), on_edge.x - t.x)
    yield Stroke("thin-line", Line(t, Point(t.x, t.y - radius - 2.0)))
    yield Stroke("thin-line", Path((Segment(below, on_edge, turn),)))
    outward = -math.copysign(1.2, on_edge.x - t.x)
    text = Text(Point(below.x + outward, below.y + 1.0), f"{mm(lean)}°", 2.5,
                across="right" if outward < 0.0 else "left")  # fmt: skip
    yield Stroke("text", text)


def falls(assembly: Assembly, layout: Layout) -> Iterator[Stroke]:
    """The angle from level of the first rail that falls to the rear, of each fall once."""
    done: set[float] = set()
    for part in assembly.parts.values():
        x = part.frame.x
        fall = math.degrees(math.atan2(-x.z, x.x))
        if part.group != "frame" or abs(part.frame.z.y) < 1.0 - 1e-6 or not 2.0 < fall < 30.0:
            continue
        if round(fall, 2) not in done:
            done.add(round(fall, 2))
            yield from _fall(part, fall, layout)


def _fall(part: Part, fall: float, layout: Layout) -> Iterator[Stroke]:
    view = next(v for v in layout.views if abs(v.right.x) > 0.5 and abs(v.up.z) > 0.5)
    x0, y0, x1, y1 = part.outline.bounds
    upper = y1 if part.frame.y.z > 0.0 else y0
    end = layout.on_paper(view, part.frame.place(x1, upper, 0.0))
    start = layout.on_paper(view, part.frame.place(x0, upper, 0.0))
    radius = min(_RADIUS, 0.5 * part.length * layout.scale)
    way = math.copysign(1.0, start.x - end.x)
    turn = math.radians(fall)
    level = Point(end.x + way * radius, end.y)
    edge = Point(end.x + way * radius * math.cos(turn), end.y + radius * math.sin(turn))
    arc = Segment(level, edge, way * math.tan(turn / 4.0))
    yield Stroke("thin-line", Line(end, Point(level.x + way * 2.0, level.y)))
    yield Stroke("thin-line", Path((arc,)))
    text = Text(Point(level.x + way, level.y - 3.5), f"{mm(fall)}°", 2.5,
                across="right" if way < 0.0 else "left")  # fmt: skip
    yield Stroke("text", text)


def _ends(part: Part) -> Iterator[tuple[float, float]]:
    x0, y0, x1, y1 = part.outline.bounds
    yield from ((x, y) for x in (x0, x1) for y in (y0, y1))
