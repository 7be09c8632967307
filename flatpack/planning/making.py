"""All plans of some pieces: boards, sheets or nests, round bars, and what can't be done."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from flatpack.cutting import Effort
from flatpack.cutting.effort import never
from flatpack.finding import Finding, blocks, in_order
from flatpack.planning import told
from flatpack.planning.boards import BoardPlan, board_plans, rod_plan
from flatpack.planning.pool import Counted, Lot, bar_lots, pool
from flatpack.planning.saw_fits import saw_findings
from flatpack.planning.sheets import (
    NestPlan,
    SheetPlan,
    empty,
    nest_plan,
    register_room,
    sheet_plan,
)
from flatpack.planning.shop_limits import shop_findings
from flatpack.profiles import Stock, Workshop
from flatpack.wording import english_plans as words

CROSS_STEPS, SAW_STEPS, NEST_STEPS = 20_000, 3_000, 1_000_000
"""Fixed effort of each kind of plan; the same steps give the same plan."""

Progress = Callable[[str, int, float, float], None]


def silent(name: str, steps: int, best: float, bound: float) -> None:
    """Tell nobody."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How the plans are wanted.

    `shop` nests the sheets for its machine; without it they go on the panel saw.  `seconds` is a
    limit for each search, 0 for none.  `accepted` holds kept layouts by board, `first` the marks
    that are placed before all others.  `progress` is told board, steps, best and bound.
    """

    stock: Stock
    shop: Workshop | None = None
    seconds: int = 0
    stop: Callable[[], bool] = never
    progress: Progress = silent
    accepted: Mapping[str, str] = field(default_factory=dict)
    first: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Plans:
    """The pieces, and every plan that they need; `findings` worst first."""

    pieces: tuple[Counted, ...]
    lots: tuple[Lot, ...]
    stock: Stock
    shop: Workshop | None
    boards: tuple[BoardPlan, ...]
    sheets: tuple[SheetPlan, ...]
    nests: tuple[NestPlan, ...]
    rods: tuple[BoardPlan, ...]
    findings: tuple[Finding, ...]

    @property
    def incomplete(self) -> bool:
        """True when some part has no place or can't be made as planned."""
        return blocks(self.findings)

    @property
    def repeatable(self) -> bool:
        """True when neither a clock nor a hand had a part in any plan."""
        crosses = all(b.plan.repeatable for b in (*self.boards, *self.rods))
        saws = all(s.plan.repeatable for s in self.sheets)
        return crosses and saws and not any(n.by_clock for n in self.nests)


def plans(pieces: Sequence[Counted], asked: Asked) -> Plans:
    """Make every plan.  Faults of the input become findings; the rest is made all the same."""
    lots = pool(pieces)
    boards: list[BoardPlan] = []
    sheets: list[SheetPlan] = []
    nests: list[NestPlan] = []
    found: list[Finding] = []
    for lot in lots:
        if lot.board.kind == "planed":
            made, news = board_plans(lot, asked.stock, _effort(asked, lot.name, CROSS_STEPS))
            boards += made
        elif asked.shop is None:
            sheet, news = sheet_plan(lot, asked.stock, _effort(asked, lot.name, SAW_STEPS))
            sheets.append(sheet)
        else:
            nested, news = _nested(lot, asked, asked.shop)
            nests.append(nested)
            found += shop_findings(lot, asked.shop)
        found += news
    rods = [rod_plan(lot, asked.stock, _effort(asked, lot.rod.key, CROSS_STEPS))
            for lot in bar_lots(pieces)]  # fmt: skip
    for rod in rods:
        found += told.findings(rod.plan.troubles)
    found += _about(pieces, asked, sheets, nests)
    return Plans(
        pieces=tuple(pieces),
        lots=lots,
        stock=asked.stock,
        shop=asked.shop,
        boards=tuple(boards),
        sheets=tuple(sheets),
        nests=tuple(nests),
        rods=tuple(rods),
        findings=in_order(list(dict.fromkeys(found))),
    )


def _nested(lot: Lot, asked: Asked, shop: Workshop) -> tuple[NestPlan, tuple[Finding, ...]]:
    effort = _effort(asked, lot.name, NEST_STEPS)
    kept = asked.accepted.get(lot.name, "")
    return nest_plan(lot, asked.stock, shop, effort, asked.first, asked.seconds, kept)


def _effort(asked: Asked, name: str, steps: int) -> Effort:
    def tell(done: int, best: float, bound: float) -> None:
        asked.progress(name, done, best, bound)

    seconds = float(asked.seconds) if asked.seconds else None
    return Effort(steps, seconds=seconds, stop=asked.stop, progress=tell)


def _offered_twice(lots: Sequence[Lot], stock: Stock) -> Iterator[Finding]:
    """Boards measured in several thicknesses are planned apart, each from the whole rack."""
    rows = {row.board for row in stock.boards if row.available is not None}
    rows |= {row.board for row in stock.sheets if row.available is not None}
    keys = [lot.board.key for lot in lots]
    for key in dict.fromkeys(keys):
        if keys.count(key) > 1 and key in rows:
            several = [lot for lot in lots if lot.board.key == key]
            measured = tuple(f"{lot.board.thickness:g}" for lot in several)
            text = words.offered_twice(several[0].board.name, measured)
            yield told.told("offered-twice", "warning", text, remedy=words.SORT_THE_RACK)


def _about(
    pieces: Sequence[Counted], asked: Asked, sheets: Sequence[SheetPlan], nests: Sequence[NestPlan]
) -> Iterator[Finding]:
    """What concerns no single part."""
    yield from _offered_twice(pool(pieces), asked.stock)
    if asked.shop is not None and not nests:
        yield told.told("nothing-to-nest", "note", words.nothing_to_nest())
    yield from (empty(s.lot) for s in sheets if not s.stock)
    yield from (empty(n.lot) for n in nests if not n.blanks)
    if asked.shop is not None and asked.shop.both_faces:
        for nested in nests:
            for blank in dict.fromkeys(s.blank for s in nested.nest.sheets):
                if not register_room(blank, nested.spaces.edge, asked.shop.register_hole):
                    yield told.told("no-register-room", "warning",
                                    words.no_register_room(blank.name))  # fmt: skip
    yield from saw_findings(pieces, [s.lot for s in sheets], asked.stock.saws.tolerance)
