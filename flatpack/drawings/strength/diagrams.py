"""Bending moment and deflection of the worst members, one under another.

slat-5, bent flat: one person of 110 kg in the middle
   .--''''--.            M above the member where it sags
--+----------+--
   '--....--'            w below it, larger than life
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from typing import Literal

from flatpack.drawings.ruled import fitted
from flatpack.drawings.shapes import Closed, Drawing, Line, Path, Stroke, Text
from flatpack.geometry import Outline, Point, Segment
from flatpack.strength import Diagram, Report
from flatpack.strength.as_findings import stem
from flatpack.wording import english_strength as words

NAME = "bending"
MOST = 6
"""Members shown."""
_LONG, _TALL, _ROW = 130.0, 9.0, 39.0
_TEXT = 2.5
_SHADE = 0.85


def bending_drawing(report: Report, code: str) -> Drawing:
    """The worst members' curves at one length each, mm of paper."""
    shown = _distinct(report.diagrams)[:MOST]
    strokes = [s for row, (one, n) in enumerate(shown) for s in _member(one, n, -_ROW * row)]
    foot = -_ROW * len(shown) + 19.0
    strokes.append(Stroke("text", Text(Point(0.0, foot), words.LENGTH_NOTE, _TEXT)))
    bounds = (-4.0, foot - 4.0, _LONG + 4.0, 25.0)
    notes = (("piece", report.name), ("code", code))
    return Drawing(NAME, f"{words.DIAGRAMS_TITLE}: {report.name}", bounds, tuple(strokes), notes)


def _distinct(diagrams: Sequence[Diagram]) -> list[tuple[Diagram, int]]:
    """Each kind of curve once, the worst, with the number of like members bent in that case."""
    groups: dict[object, list[Diagram]] = {}
    for one in diagrams:
        groups.setdefault((one.plane, one.case, stem(one.part)), []).append(one)
    return [(some[0], len(some) - 1) for some in groups.values()]


def _member(one: Diagram, others: int, level: float) -> Iterator[Stroke]:
    title = words.member(one.part, others, one.plane)
    yield Stroke("text", Text(Point(0.0, level + 18.5), title, 3.0, bold=True))
    case = fitted(one.case, _LONG, _TEXT)
    yield Stroke("text", Text(Point(0.0, level + 14.2), case, _TEXT))
    yield from _curve(one, one.moment, level, 1.0, _moment)
    yield from _curve(one, one.deflection, level, -1.0, _deflection)
    yield Stroke("outline", Line(Point(0.0, level), Point(_LONG, level)))


def _moment(value: float, place: str) -> str:
    return words.moment(f"{value / 1e3:.1f}", place)


def _deflection(value: float, place: str) -> str:
    return words.deflection(f"{value:.1f}", place)


def _curve(
    one: Diagram,
    values: Sequence[float],
    level: float,
    sign: float,
    told: Callable[[float, str], str],
) -> Iterator[Stroke]:
    """Values along the member, its greatest told where it is; nothing when all are nought."""
    most = max(values, key=abs, default=0.0)
    start, length = one.places[0], one.places[-1] - one.places[0]
    if most == 0.0 or length <= 0.0:
        return
    points = [
        Point(
            round((p - start) / length * _LONG, 2), round(level + sign * v / abs(most) * _TALL, 2)
        )
        for p, v in zip(one.places, values, strict=True)
    ]
    yield from _filled(points, level, shaded=sign > 0.0)
    at = points[list(values).index(most)]
    text = told(most, f"{one.places[list(values).index(most)]:.0f}")
    across: Literal["left", "right"] = "left" if at.x < _LONG / 2.0 else "right"
    away = at.y + (1.2 if at.y > level else -1.2 - _TEXT)
    yield Stroke("text", Text(Point(at.x, away), text, _TEXT, 0.0, across))


def _filled(points: Sequence[Point], level: float, *, shaded: bool) -> Iterator[Stroke]:
    first, last = points[0], points[-1]
    ring = [Point(first.x, level), *points, Point(last.x, level)]
    kept = [p for i, p in enumerate(ring) if p != ring[i - 1]]
    if shaded and len(kept) > 2:
        sides = zip(kept, (*kept[1:], kept[0]), strict=True)
        outline = Outline(tuple(Segment(a, b) for a, b in sides))
        yield Stroke("thin-line", Closed(outline, True, _SHADE))
    steps = tuple(Segment(a, b) for a, b in pairwise(points) if a != b)
    if steps:
        yield Stroke("visible-edge", Path(steps))
