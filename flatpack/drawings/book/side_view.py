r"""Details seen from the side: the rod on its rack, and a hinge between its two parts.

Looking across the piece, foot at the left, head at the right:

    FOOT    (rod)|^^\__     (rod)|^^\__    HEAD
            --------------------------
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import cos, pi, sin

from flatpack.drawings.book.balloons import Patch, Target, balloons
from flatpack.drawings.book.content import Figure
from flatpack.drawings.book.details import toothed
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.steps import BuildStep
from flatpack.drawings.shapes import Closed, Drawing, Stroke, Text
from flatpack.geometry import Frame, Outline, Point, Segment
from flatpack.model import Part, placed_corners
from flatpack.wording import book_english_details as words
from flatpack.wording import book_english_steps as said

_WIDE, _HIGH = 120.0, 50.0
_NEAR, _REACH = 60.0, 250.0
"""Parts that begin nearer to the hinge axis and end nearer than these, along it, are shown, mm."""
_BESIDE, _MARGIN, _LETTERS = 25.0, 4.0, 3.0
_ROUND = 36
Seen = tuple[str, float, tuple[Point, ...]]
"""Key, tone, and corners in the piece: x along it, y up."""


def side_views(m: Matter, step: BuildStep) -> Iterator[Figure]:
    """The side views that a step needs."""
    new = [m.assembly.parts[k] for k in step.new if k in m.assembly.parts]
    racks = [p for p in new if any(f.operation == "thin-line" for f in p.features)]
    blocks = [p for p in new if toothed(p)]
    if racks and m.study is not None:
        hand = racks[0].hand
        own = [p for p in (*racks, *blocks) if p.hand == hand]
        yield _figure(m, "rack-side", words.RACK_SIDE, (*map(_part, own), *_rods(m)))
    if m.assembly.motion and any(f.kind == "hinge" for f in step.fasteners):
        motion = m.assembly.motion
        title = words.HINGE_SIDE.format(panel=motion.panel, rest=motion.rest)
        yield _figure(m, "hinge-side", title, tuple(_hinge(m, step)))


def _rods(m: Matter) -> Iterator[Seen]:
    """The rod at each stop."""
    motion, key = m.assembly.motion, next(iter(_moving_bars(m)), "")
    if motion is None or m.study is None:
        return
    for stop in m.study.found.stops:
        x, y = motion.axis.x + stop.rod.x, motion.axis.z + stop.rod.y
        r = motion.rod / 2.0
        turns = (2.0 * pi * n / _ROUND for n in range(_ROUND))
        yield key, 1.0, tuple(Point(x + r * cos(t), y + r * sin(t)) for t in turns)


def _moving_bars(m: Matter) -> Iterator[str]:
    return (key for key, bar in m.assembly.bars.items() if bar.group == "rod")


def _hinge(m: Matter, step: BuildStep) -> Iterator[Seen]:
    """Parts that the first hinge's middle plane cuts near the axis, and the hinge itself."""
    hinge = next(f for f in step.fasteners if f.kind == "hinge")
    across = hinge.start.plus(hinge.direction, hinge.length / 2.0)
    for part in m.assembly.parts.values():
        corners = placed_corners(part)
        ys, xs = [v.y for v in corners], [abs(v.x - across.x) for v in corners]
        if min(ys) < across.y < max(ys) and min(xs) < _NEAR and max(xs) < _REACH:
            yield _part(part)
    for solid in hinge.solids:
        yield solid.name, 0.2, _across(solid.frame, solid.outline, solid.low, solid.high)


def _part(part: Part) -> Seen:
    return part.key, 0.85, _across(part.frame, part.outline, 0.0, part.thickness)


def _across(frame: Frame, outline: Outline, low: float, high: float) -> tuple[Point, ...]:
    """A prism seen across the piece: its outline when that lies so, else the box round it."""
    if abs(frame.z.y) > 0.999:
        places = [frame.place(p.x, p.y) for p in outline.sampled(0.1)]
        return tuple(Point(v.x, v.z) for v in places)
    x0, y0, x1, y1 = outline.bounds
    corners = [frame.place(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (low, high)]
    xs, zs = [v.x for v in corners], [v.z for v in corners]
    return (
        Point(min(xs), min(zs)), Point(max(xs), min(zs)),
        Point(max(xs), max(zs)), Point(min(xs), max(zs)),
    )  # fmt: skip


def _figure(m: Matter, name: str, title: str, seen: tuple[Seen, ...]) -> Figure:
    every = [p for _, _, points in seen for p in points]
    x0, x1 = min(p.x for p in every), max(p.x for p in every)
    y0, y1 = min(p.y for p in every), max(p.y for p in every)
    scale = min(_WIDE / (x1 - x0), _HIGH / (y1 - y0))
    patches = tuple(
        Patch(key, "opening", tone, _reduced(points, Point(x0, y0), scale))
        for key, tone, points in seen
    )
    shown = dict.fromkeys(key for key, _, _ in seen if key in m.mark_of)
    marks = dict.fromkeys(m.mark_of[key] for key in shown)
    wanted = [Target(mark, tuple(k for k in shown if m.mark_of[k] == mark)) for mark in marks]
    wide, high = (x1 - x0) * scale, (y1 - y0) * scale
    labels, low, top = balloons(wanted, patches, (0.0, 0.0, wide, high))
    strokes = (
        *(Stroke(p.layer, Closed(p.outline, True, p.tone)) for p in patches),
        *labels,
        *_ends(m, wide, min(low, 0.0)),
    )
    bounds = (-_BESIDE, min(low, 0.0) - 2.0 * _LETTERS - _MARGIN, wide + _BESIDE, top + _MARGIN)
    return Figure(
        Drawing(name, title, bounds, strokes, (), scale), title, words.side_alt(title, tuple(marks))
    )


def _ends(m: Matter, wide: float, low: float) -> Iterable[Stroke]:
    """Names of the piece's two ends below the picture."""
    names = said.WAYS[m.assembly.bearing]
    for x, key in ((0.0, "x-"), (wide, "x+")):
        at = Point(x, low - _LETTERS - 2.0)
        yield Stroke("text", Text(at, names[key].upper(), _LETTERS, 0.0, "middle", "middle", True))


def _reduced(points: Iterable[Point], zero: Point, scale: float) -> Outline:
    made = [
        Point(round((p.x - zero.x) * scale, 2), round((p.y - zero.y) * scale, 2)) for p in points
    ]
    kept = [p for i, p in enumerate(made) if p != made[i - 1]]
    return Outline(tuple(map(Segment, kept, (*kept[1:], kept[0]), [0.0] * len(kept))))
