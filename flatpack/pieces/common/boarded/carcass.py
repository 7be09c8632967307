"""Setting out a boarded box: every number that follows from its keys, with the sum that gave it.

Seen from above; x from the low side (a planter's front, a chest's rear) to the high one, y along
the box from its left end, z up.

    high   .=================================.      posts stand face to the long sides, battens
           |[p]         [batten]          [p]|      face to the ends; a bearer runs across beside
    end    |  ||           ||             || |end   each of them, and the bottom's slats lie on
           |[p]         [batten]          [p]|      the bearers, notched round what stands there
    low    '=================================' -> y
"""

from __future__ import annotations

import math

from flatpack.frozen import frozen
from flatpack.pieces.common.boarded.rows import Row, rows_between, swelling_gap
from flatpack.pieces.family import Workings, even_gap, mm, slat_count, sold_width
from flatpack.profiles import Board, Screw

DRAIN = 4.0
"""From the long sides to the bottom's outer slats, mm (common practice, no source)."""
END_ROOM = 3.0
"""From the bottom's slats to the ends and to what they are notched round, mm (common practice)."""
BEARER_ROOM = 2.0
"""From a bearer's ends to the long sides, mm, so that it never pushes them (common practice)."""
BOTTOM_GAP = 10.0
"""Gap between the bottom's slats unless asked otherwise, mm (common practice, no source)."""


@frozen
class Timber:
    """Boards by use, and the screw of every joint."""

    sides: Board
    posts: Board
    bottom: Board
    screw: Screw
    tip_cover: float


@frozen
class Wish:
    """What is asked of a box, mm.

    `flat`: posts face to the long sides, else battens face to the ends.  `feet`: posts run down to
    the ground, else skids do.  `high` is the boards' top above ground, `clear` their lower edge.
    `low_side` and `high_side` name the long sides; the corner posts may stand over the boards' top.
    """

    length: float
    depth: float
    high: float
    clear: float
    flat: bool
    feet: bool
    post_width: float
    longest_span: float
    board_width: float
    board_gap: float | None
    board_screws: int
    slat_width: float
    slat_gap: float | None
    slat_screws: int
    bearer_width: float
    edge_round: float
    posts_over: float = 0.0
    low_side: str = "front"
    high_side: str = "rear"


@frozen
class Widths:
    """Widths as cut or as sold, mm."""

    post: float
    slat: float
    bearer: float


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
    """The bottom's slats: count, gap, first one's edge from the low side, ends, mm."""

    count: int
    gap: float
    first: float
    start: float
    end: float


@frozen
class Carcass:
    """All of it.  `battens` are the middles of the battens along the long sides."""

    wish: Wish
    timber: Timber
    widths: Widths
    corner: Corner
    levels: Levels
    rows: tuple[Row, ...]
    gap: float
    battens: tuple[float, ...]
    bottom: Bottom

    @property
    def sides(self) -> tuple[str, str]:
        """Names of the long sides, the low one first."""
        return self.wish.low_side, self.wish.high_side

    @property
    def floor(self) -> float:
        """The bottom's upper face above ground."""
        return self.levels.bearer_high + self.timber.bottom.thickness


def set_carcass(wish: Wish, timber: Timber, notes: Workings) -> Carcass:
    """Derived dimensions of a boarded box."""
    widths = Widths(
        post=sold_width(timber.posts, wish.post_width),
        slat=sold_width(timber.bottom, wish.slat_width),
        bearer=sold_width(timber.posts, wish.bearer_width),
    )
    thick = timber.posts.thickness
    corner = Corner(x=thick, y=widths.post) if wish.flat else Corner(x=widths.post, y=thick)
    levels = _levels(wish, widths, notes)
    width = sold_width(timber.sides, wish.board_width)
    gap = swelling_gap("side board", timber.sides, width, wish.board_gap, notes)
    return Carcass(
        wish=wish,
        timber=timber,
        widths=widths,
        corner=corner,
        levels=levels,
        gap=gap,
        rows=rows_between(timber.sides, width, (levels.low, levels.high), gap, notes),
        battens=_battens(wish, timber, corner, notes),
        bottom=_bottom(wish, timber, widths, notes),
    )


def _levels(wish: Wish, widths: Widths, notes: Workings) -> Levels:
    low = wish.clear
    bearer = low if wish.feet else 0.0
    top = notes.add(
        "Bottom's underside above ground",
        bearer + widths.bearer,
        f"{mm(low)} clear of the ground + {mm(widths.bearer)} bearer"
        if wish.feet
        else f"{mm(widths.bearer)} skid",
    )
    return Levels(low=low, high=wish.high, bearer_low=bearer, bearer_high=top)


def inner_ends(wish: Wish, timber: Timber, corner: Corner) -> tuple[float, float]:
    """Inner sides of the corner posts along the box: from left to right."""
    inset = timber.sides.thickness + corner.y
    return inset, wish.length - inset


def _battens(wish: Wish, timber: Timber, corner: Corner, notes: Workings) -> tuple[float, ...]:
    low, high = inner_ends(wish, timber, corner)
    bays = max(math.ceil((high - low) / wish.longest_span - 1e-9), 1)
    step = (high - low) / bays
    if bays > 1:
        notes.add(
            "Middle battens on each long side",
            bays - 1,
            f"{mm(high - low)} between the corners / {bays} = {mm(step)} from middle to middle, "
            f"at most {mm(wish.longest_span)}",
            "",
        )
    return tuple(low + step * i for i in range(1, bays))


def _bottom(wish: Wish, timber: Timber, widths: Widths, notes: Workings) -> Bottom:
    t = timber.sides.thickness
    first = t + DRAIN
    covered = notes.add(
        "Depth covered by the bottom's slats",
        wish.depth - 2.0 * first,
        f"{mm(wish.depth)} outside - 2 x {mm(t)} boards - 2 x {mm(DRAIN)} to drain",
    )
    wanted = BOTTOM_GAP if wish.slat_gap is None else wish.slat_gap
    count = slat_count(covered, widths.slat, wanted)
    gap = notes.add(
        "Gap between bottom slats",
        even_gap(covered, widths.slat, count),
        f"({mm(covered)} - {count} x {mm(widths.slat)} slats) / {count - 1} gaps",
    )
    start = t + END_ROOM
    return Bottom(count=count, gap=gap, first=first, start=start, end=wish.length - start)
