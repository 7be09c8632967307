"""Setting out a planter box: every number that follows from the keys, with the sum that gave it.

Seen from above, front below; x from front to rear, y along the box from its left end, z up.

    rear   .=================================.      posts stand face to the long sides, battens
           |[p]         [batten]          [p]|      face to the ends; a bearer runs across beside
    end    |  ||           ||             || |end   each of them, and the bottom's slats lie on
           |[p]         [batten]          [p]|      the bearers, notched round what stands there
    front  '=================================' -> y
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.pieces.family import Workings, even_gap, mm, slat_count, sold_width
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.rows import Row, rows_between, side_gap
from flatpack.pieces.planter.stock import Stock

DRAIN = 4.0
"""From the long sides to the bottom's outer slats, mm (common practice, no source)."""
END_ROOM = 3.0
"""From the bottom's slats to the ends and to what they are notched round, mm (common practice)."""
BEARER_ROOM = 2.0
"""From a bearer's ends to the long sides, mm, so that it never pushes them (common practice)."""
BOTTOM_GAP = 10.0
"""Gap between the bottom's slats unless asked otherwise, mm (common practice, no source)."""


@frozen
class Widths:
    """Widths as cut or as sold, mm."""

    post: float
    slat: float
    bearer: float
    cap: float


@frozen
class Corner:
    """What a corner post or batten takes up: along x and along y, mm."""

    x: float
    y: float


@frozen
class Levels:
    """Heights above ground, mm: boards' lower and upper edge, bearers' lower and upper edge."""

    low: float
    high: float
    bearer_low: float
    bearer_high: float


@frozen
class Bottom:
    """The bottom's slats: count, gap, front edge of the first, ends, mm."""

    count: int
    gap: float
    first: float
    start: float
    end: float


@frozen
class SettingOut:
    """All of it.  `battens` are the middles of the battens along the long sides."""

    stock: Stock
    widths: Widths
    corner: Corner
    levels: Levels
    rows: tuple[Row, ...]
    gap: float
    battens: tuple[float, ...]
    bottom: Bottom


def set_out(p: Planter, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a planter box."""
    widths = Widths(
        post=sold_width(stock.posts, p.corners.width),
        slat=sold_width(stock.bottom, p.bottom.slat_width),
        bearer=sold_width(stock.posts, p.bottom.bearer_width),
        cap=sold_width(stock.cap, p.cap.width),
    )
    thick = stock.posts.thickness
    flat = p.corners.kind == "posts"
    corner = Corner(x=thick, y=widths.post) if flat else Corner(x=widths.post, y=thick)
    levels = _levels(p, stock, widths, notes)
    gap = side_gap(p, stock.sides, notes)
    return SettingOut(
        stock=stock,
        widths=widths,
        corner=corner,
        levels=levels,
        gap=gap,
        rows=rows_between(p, stock.sides, levels.low, levels.high, gap, notes),
        battens=_battens(p, stock, corner, notes),
        bottom=_bottom(p, stock, widths, notes),
    )


def _levels(p: Planter, stock: Stock, widths: Widths, notes: Workings) -> Levels:
    cap = stock.cap.thickness if p.cap.use else 0.0
    high = notes.add(
        "Side boards' top above ground",
        p.size.height - cap,
        f"{mm(p.size.height)} height" + (f" - {mm(cap)} cap" if cap else ""),
    )
    low, skids = p.ground.clear, p.ground.kind == "skids"
    bearer = 0.0 if skids else low
    top = notes.add(
        "Bottom's underside above ground",
        bearer + widths.bearer,
        f"{mm(widths.bearer)} skid"
        if skids
        else f"{mm(low)} clear of the ground + {mm(widths.bearer)} bearer",
    )
    return Levels(low=low, high=high, bearer_low=bearer, bearer_high=top)


def inner_ends(p: Planter, stock: Stock, corner: Corner) -> tuple[float, float]:
    """Inner sides of the corner posts along the box: from left to right."""
    inset = stock.sides.thickness + corner.y
    return inset, p.size.length - inset


def _battens(p: Planter, stock: Stock, corner: Corner, notes: Workings) -> tuple[float, ...]:
    low, high = inner_ends(p, stock, corner)
    bays = max(math.ceil((high - low) / p.corners.longest_span - 1e-9), 1)
    step = (high - low) / bays
    if bays > 1:
        notes.add(
            "Middle battens on each long side",
            bays - 1,
            f"{mm(high - low)} between the corners / {bays} = {mm(step)} from middle to middle, "
            f"at most {mm(p.corners.longest_span)}",
            "",
        )
    return tuple(low + step * i for i in range(1, bays))


def _bottom(p: Planter, stock: Stock, widths: Widths, notes: Workings) -> Bottom:
    t = stock.sides.thickness
    first = t + DRAIN
    covered = notes.add(
        "Depth covered by the bottom's slats",
        p.size.depth - 2.0 * first,
        f"{mm(p.size.depth)} outside - 2 x {mm(t)} boards - 2 x {mm(DRAIN)} to drain",
    )
    wanted = BOTTOM_GAP if p.bottom.gap is None else p.bottom.gap
    count = slat_count(covered, widths.slat, wanted)
    gap = notes.add(
        "Gap between bottom slats",
        even_gap(covered, widths.slat, count),
        f"({mm(covered)} - {count} x {mm(widths.slat)} slats) / {count - 1} gaps",
    )
    start = t + END_ROOM
    return Bottom(count=count, gap=gap, first=first, start=start, end=p.size.length - start)
