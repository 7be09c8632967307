"""Denser nest by the clock: an outside engine squeezes each sheet's parts into a strip.

The engine packs polygons into a strip of given height and shortens the strip for as long as it is
given.  It knows neither sheets nor openings, keeps the spacing from the strip's edges too, and
two runs differ.  So parts are shared out over the sheets by area, small parts go into openings
beforehand and travel with their host, the strip is made higher by the spacing, and the layout is
kept with the job.
"""

from __future__ import annotations

import math
import threading
from collections import Counter
from collections.abc import Sequence
from itertools import product
from typing import Any, NamedTuple

from flatpack.cutting.effort import Effort
from flatpack.cutting.nest_grid import Grid, fill
from flatpack.cutting.nest_records import TURNS, Blank, Placed, Shape, Spaces
from flatpack.geometry.outline import Outline, cosine_sine

_SAGITTA = 0.05
_SLACK = 0.12


def clear_room(blank: Blank, spaces: Spaces) -> tuple[float, float, float, float] | None:
    """The largest rectangle (x0, y0, x1, y1) of a rectangular blank that no clamp reaches into.

    None when the blank is no rectangle, or nothing is left of it.
    """
    x0, y0, x1, y1 = blank.outline.bounds
    if not math.isclose(abs(blank.outline.area), (x1 - x0) * (y1 - y0), rel_tol=1e-9):
        return None
    held = [_grown(c, spaces.between) for c in blank.clamps]
    low, high = (x0 + spaces.edge, y0 + spaces.edge), (x1 - spaces.edge, y1 - spaces.edge)
    boxes = product(
        [low[0], *(c[2] for c in held if c[2] > low[0])],
        [low[1], *(c[3] for c in held if c[3] > low[1])],
        [high[0], *(c[0] for c in held if c[0] < high[0])],
        [high[1], *(c[1] for c in held if c[1] < high[1])],
    )
    free = [b for b in boxes if b[0] < b[2] and b[1] < b[3] and not any(_meet(b, c) for c in held)]
    return max(free, key=lambda b: (b[2] - b[0]) * (b[3] - b[1]), default=None)


def _grown(clamp: Outline, by: float) -> tuple[float, float, float, float]:
    a, b, c, d = clamp.bounds
    return a - by, b - by, c + by, d + by


def _meet(box: Sequence[float], other: Sequence[float]) -> bool:
    along = box[0] < other[2] and other[0] < box[2]
    return along and box[1] < other[3] and other[1] < box[3]


class Group(NamedTuple):
    """A part with the small ones that lie in its openings, all in the host's own axes."""

    number: int
    guests: tuple[Placed, ...]
    turns: tuple[float, ...]


def groups_of(shapes: Sequence[Shape], spaces: Spaces, effort: Effort) -> list[Group]:
    """Every copy of every part, small ones put into the openings of large ones where they fit."""
    area = [abs(s.outline.area) for s in shapes]
    left = Counter({n: s.count for n, s in enumerate(shapes)})
    found = []
    for number in sorted(range(len(shapes)), key=lambda n: (-area[n], n)):
        while left[number] > 0:
            left[number] -= 1
            guests = _guests(shapes, number, left, spaces, effort)
            for guest in guests:
                left[_number(shapes, guest.mark)] -= 1
            turns = tuple(t for t in TURNS[shapes[number].grain] if _allowed(shapes, guests, t))
            found.append(Group(number, guests, turns))
    return found


def _number(shapes: Sequence[Shape], mark: str) -> int:
    return next(n for n, s in enumerate(shapes) if s.mark == mark)


def _allowed(shapes: Sequence[Shape], guests: Sequence[Placed], turn: float) -> bool:
    return all(
        (g.turn + turn) % 360.0 in TURNS[shapes[_number(shapes, g.mark)].grain] for g in guests
    )


def _guests(
    shapes: Sequence[Shape], host: int, left: Counter[int], spaces: Spaces, effort: Effort
) -> tuple[Placed, ...]:
    guests: list[Placed] = []
    for opening in shapes[host].openings:
        low_x, low_y, high_x, high_y = opening.bounds
        fits = [
            Shape(
                mark=s.mark,
                outline=s.outline,
                openings=s.openings,
                count=left[n] - sum(g.mark == s.mark for g in guests),
                grain=s.grain,
            )
            for n, s in enumerate(shapes)
            if left[n] > 0 and _smaller(s.outline, high_x - low_x, high_y - low_y)
        ]
        if not fits:
            continue
        blank = Blank(name="opening", outline=opening)
        grid = Grid(fits, [blank], Spaces(between=spaces.between, edge=spaces.between + 0.02))
        order = sorted(
            (n for n, s in enumerate(fits) for _ in range(max(0, s.count))),
            key=lambda n: (-abs(fits[n].outline.area), n),
        )
        guests += fill(grid, 0, order, effort, 0.01).parts
    return tuple(guests)


def _smaller(outline: Outline, length: float, width: float) -> bool:
    x0, y0, x1, y1 = outline.bounds
    a, b = x1 - x0, y1 - y0
    return (a < length and b < width) or (a < width and b < length)


def share_out(shapes: Sequence[Shape], groups: Sequence[Group], sheets: int) -> list[list[Group]]:
    """Groups shared over the sheets, about equal in area, those of low priority number first."""
    area = [abs(s.outline.area) for s in shapes]
    order = sorted(groups, key=lambda g: (shapes[g.number].priority, -area[g.number], g.number))
    urgent = sorted({shapes[g.number].priority for g in order})
    made: list[list[Group]] = [[] for _ in range(sheets)]
    load = [0.0] * sheets
    total = sum(area[g.number] for g in order)
    for group in order:
        target: Sequence[int] = range(sheets)
        if len(urgent) > 1 and shapes[group.number].priority < urgent[-1]:
            target = [n for n in target if load[n] < total / sheets][:1] or target
        best = min(target, key=lambda n: (load[n], n))
        made[best].append(group)
        load[best] += area[group.number]
    return made


def squeeze(
    shapes: Sequence[Shape],
    groups: Sequence[Group],
    high: float,
    spaces: Spaces,
    seconds: int,
    effort: Effort,
    seed: int,
) -> list[tuple[Group, float, float, float]] | None:
    """Pack groups into a strip `high` mm high: each with turn and move, from x = 0.

    None when a part doesn't fit the strip or the engine found nothing before it was stopped.
    """
    import spyrrow

    gap = spaces.between + _SLACK
    kinds = sorted(set(groups), key=lambda g: (g.number, g.guests))
    counts = Counter(groups)
    items = []
    for name, group in enumerate(kinds):
        outline = shapes[group.number].outline
        turns = [t for t in group.turns if _height(outline, t) <= high]
        if not turns:
            return None
        corners = [(p.x, p.y) for p in outline.sampled(_SAGITTA)]
        items.append(spyrrow.Item(str(name), corners, counts[group], turns))
    instance = spyrrow.StripPackingInstance("sheet", high + 2.0 * gap, items)
    config = spyrrow.StripPackingConfig(
        early_termination=True,
        min_items_separation=gap,
        total_computation_time=seconds,
        num_workers=1,
        seed=seed,
    )
    solution = _solve(spyrrow, instance, config, effort)
    if solution is None:
        return None
    return [
        (kinds[int(p.id)], p.rotation % 360.0, p.translation[0] - gap, p.translation[1] - gap)
        for p in solution.placed_items
    ]


def _height(outline: Outline, turn: float) -> float:
    bounds = outline.turned(turn).bounds
    return bounds[3] - bounds[1]


def _solve(spyrrow: Any, instance: Any, config: Any, effort: Effort) -> Any:
    """Run the engine in a thread, so that a stop takes the best layout reported so far."""
    queue = spyrrow.ProgressQueue()
    answer: list[Any] = []
    thread = threading.Thread(
        target=lambda: answer.append(instance.solve(config, queue)), daemon=True
    )
    thread.start()
    best: Any = None
    try:
        while thread.is_alive():
            thread.join(0.1)
            effort.spend(0)
            for kind, solution in queue.drain():
                if kind in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas):
                    best = solution
            if effort.cut_short:
                return best
    except KeyboardInterrupt:
        effort.cut_short = True
        return best
    return answer[0] if answer else best


def unpacked(
    shapes: Sequence[Shape], group: Group, turn: float, x: float, y: float
) -> list[Placed]:
    """The parts of a group, each with its own turn and move on the sheet."""
    c, s = cosine_sine(turn)
    host = Placed(mark=shapes[group.number].mark, turn=turn, x=round(x, 4), y=round(y, 4))
    return [host] + [
        Placed(
            mark=g.mark,
            turn=(g.turn + turn) % 360.0,
            x=round(x + g.x * c - g.y * s, 4),
            y=round(y + g.x * s + g.y * c, 4),
        )
        for g in group.guests
    ]
