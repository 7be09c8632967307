"""Sheet nest for a router or laser: true shapes on sheets and offcuts.

The layout of fixed effort comes first and repeats exactly.  Given seconds, an outside engine tries
to do with fewer sheets; what it finds depends on the clock, so the layout is to be kept with the
job (`stored`) and given back to the next run, which uses it again while its input is the same.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from flatpack.cutting.bounds import Bound
from flatpack.cutting.check_nest import layout_faults
from flatpack.cutting.effort import Effort
from flatpack.cutting.nest_dense import clear_room, groups_of, share_out, squeeze, unpacked
from flatpack.cutting.nest_grid import Filled, Grid, nest_once, orders
from flatpack.cutting.nest_input import part_troubles, ready, shape_area
from flatpack.cutting.nest_records import (
    Blank,
    Nest,
    NestedSheet,
    Placed,
    Shape,
    Spaces,
    key_of,
    layout_in,
    sheets_taken,
)
from flatpack.cutting.records import Trouble

TRIES, LEAST_TRIES = 6, 2
_LEANS = (0.02, 0.2)
_DENSEST = 0.92


def nest(
    shapes: Sequence[Shape],
    blanks: Sequence[Blank],
    spaces: Spaces,
    effort: Effort | None = None,
    *,
    tries: int = TRIES,
    seed: int = 1,
    seconds: int = 0,
    accepted: str = "",
) -> Nest:
    """Nest the shapes on the blanks, offcuts first.

    `tries` is the fixed effort, in whole layouts; fewer where the bound is met.  With `seconds` > 0
    an engine that runs by the clock tries to save sheets.  `accepted` is the text of a stored
    layout.  Faults of the input become troubles, never exceptions.
    """
    effort = effort or Effort(1_000_000)
    key = key_of(shapes, blanks, spaces)
    good, usable, troubles = ready(shapes, blanks, spaces)
    kept = layout_in(accepted, key, usable) if accepted else None
    if kept is not None and not layout_faults(kept, good, spaces):
        return _assembled(kept, shapes, good, usable, troubles, key, effort, True)
    if not good or not usable:
        return _assembled([], shapes, good, usable, troubles, key, effort, True)
    sheets = _by_grid(good, usable, spaces, effort, tries, seed)
    denser = None
    if seconds > 0 and not effort.cut_short:
        denser = _denser(good, spaces, effort, seconds, seed, sheets)
    repeats = denser is None and not effort.cut_short and seconds == 0
    return _assembled(denser or sheets, shapes, good, usable, troubles, key, effort, repeats)


def _by_grid(
    shapes: Sequence[Shape],
    blanks: Sequence[Blank],
    spaces: Spaces,
    effort: Effort,
    tries: int,
    seed: int,
) -> list[NestedSheet]:
    grid = Grid(shapes, blanks, spaces)
    low = _bound(shapes, blanks).sheets
    best: tuple[tuple[float, ...], list[Filled]] | None = None
    for number, order in enumerate(orders(shapes, max(1, tries), seed)):
        met = best is not None and number >= LEAST_TRIES and best[0][:2] <= (0, low)
        if best is not None and (effort.spent or met):
            break
        stock = _stock(blanks, len(order), number)
        # The first layout is always finished, so that a stop has something to keep.
        own = Effort(effort.most) if best is None else effort
        sheets, left = nest_once(grid, order, stock, own, _LEANS[number % len(_LEANS)])
        effort.spend(own.steps if own is not effort else 0)
        new = sheets_taken(blanks[s.blank] for s in sheets)
        price = sum((price or 0.0) * n for (_, price), n in new.items())
        rank = (len(left), new.total(), price, sheets[-1].reach if sheets else 0.0)
        if best is None or rank < best[0]:
            best = rank, sheets
            effort.tell(float(new.total()), 0.0)
    return [
        NestedSheet(blank=blanks[s.blank], parts=s.parts, density=0.0)
        for s in (best[1] if best else [])
    ]


def _stock(blanks: Sequence[Blank], parts: int, turn: int) -> list[int]:
    """Blanks in the order they are filled: offcuts, smallest first, then new sheets.

    The pieces of a sheet that is parted follow one another, largest first.
    """
    area = [abs(b.outline.area) for b in blanks]
    sheets: dict[tuple[str, bool], list[int]] = {}
    for n in sorted(range(len(blanks)), key=lambda n: (-area[n], n)):
        sheets.setdefault((blanks[n].of or blanks[n].name, blanks[n].offcut), []).append(n)
    offcuts = [s for (_, offcut), s in sheets.items() if offcut]
    offcuts.sort(key=lambda s: (sum(area[n] for n in s), s))
    new = [s for (_, offcut), s in sheets.items() if not offcut]
    new.sort(key=lambda s: (-sum(area[n] for n in s), s))
    new = new[turn % len(new) :] + new[: turn % len(new)] if new else []
    found = []
    for sheet in offcuts + new:
        limit = blanks[sheet[0]].available
        many = 1 if limit is None and blanks[sheet[0]].offcut else limit or parts
        found += sheet * min(parts, many)
    return found


def _denser(
    shapes: Sequence[Shape],
    spaces: Spaces,
    effort: Effort,
    seconds: int,
    seed: int,
    sheets: Sequence[NestedSheet],
) -> list[NestedSheet] | None:
    """Fewer new sheets than the grid's, where these are all of one rectangular kind."""
    old = [s for s in sheets if s.blank.offcut]
    fresh = [s for s in sheets if not s.blank.offcut]
    kinds = {s.blank for s in fresh}
    room = clear_room(fresh[0].blank, spaces) if fresh else None
    if len(kinds) != 1 or len(fresh) < 2 or room is None:
        return None
    blank = fresh[0].blank
    on_fresh = Counter(p.mark for s in fresh for p in s.parts)
    shapes = [replace(s, count=on_fresh[s.mark]) for s in shapes if on_fresh[s.mark]]
    x0, y0, x1, y1 = room
    run, rise = x1 - x0, y1 - y0
    groups = groups_of(shapes, spaces, effort)
    area = sum(shape_area(s) * s.count for s in shapes)
    best = None
    number = len(fresh) - 1
    while number >= max(1, math.ceil(area / (_DENSEST * run * rise))) and not effort.cut_short:
        made = []
        for share in share_out(shapes, groups, number):
            placed = squeeze(shapes, share, rise, spaces, seconds, effort, seed)
            parts = [p for g, t, x, y in placed or () for p in unpacked(shapes, g, t, x, y)]
            moved = [replace(p, x=p.x + x0, y=p.y + y0) for p in parts]
            sheet = NestedSheet(blank=blank, parts=tuple(moved), density=0.0)
            if not parts or layout_faults([sheet], shapes, spaces):
                return best
            made.append(sheet)
        if sum(len(s.parts) for s in made) != sum(s.count for s in shapes):
            return best
        best, number = [*old, *made], number - 1
    return best


def _assembled(
    sheets: Sequence[NestedSheet],
    shapes: Sequence[Shape],
    good: Sequence[Shape],
    blanks: Sequence[Blank],
    troubles: Sequence[Trouble],
    key: str,
    effort: Effort,
    repeatable: bool,
) -> Nest:
    named = {s.mark: s for s in good}
    whole = [
        replace(
            s,
            parts=tuple(sorted(s.parts, key=_order)),
            density=sum(shape_area(named[p.mark]) for p in s.parts) / abs(s.blank.outline.area),
        )
        for s in sheets
    ]
    missing = _missing(shapes, whole)
    short = [t for t in part_troubles(missing) if t.mark not in {u.mark for u in troubles}]
    return Nest(
        sheets=tuple(whole),
        new_sheets=sheets_taken(s.blank for s in whole).total(),
        bound=_bound(good, blanks),
        missing=missing,
        troubles=(*troubles, *short),
        key=key,
        steps=effort.steps,
        repeatable=repeatable,
    )


def _order(placed: Placed) -> tuple[float, float, str]:
    return placed.x, placed.y, placed.mark


def _missing(shapes: Sequence[Shape], sheets: Sequence[NestedSheet]) -> tuple[tuple[str, int], ...]:
    wanted = Counter({s.mark: s.count for s in shapes})
    made = Counter(p.mark for s in sheets for p in s.parts)
    return tuple(sorted((wanted - made).items()))


def _bound(shapes: Sequence[Shape], blanks: Sequence[Blank]) -> Bound:
    """Least number of new sheets by area, offcuts counted against it."""
    new: dict[str, float] = {}
    for blank in blanks:
        if not blank.offcut:
            sheet = blank.of or blank.name
            new[sheet] = new.get(sheet, 0.0) + abs(blank.outline.area)
    given = sum(abs(b.outline.area) * (b.available or 1) for b in blanks if b.offcut)
    area = sum(shape_area(s) * s.count for s in shapes) - given
    least = math.ceil(area / max(new.values()) - 1e-9) if new else 0
    return Bound(max(0, least), "area of the shapes")
