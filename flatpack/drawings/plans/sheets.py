"""Every page, list and machine file of a cutting plan."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.drawings.faulty import across
from flatpack.drawings.page import Page, Sheet, Table
from flatpack.drawings.plans import lists
from flatpack.drawings.plans.board_rows import board_pages
from flatpack.drawings.plans.nest_page import nest_pages
from flatpack.drawings.plans.nested import nested_drawing, second_nested
from flatpack.drawings.plans.paper import About
from flatpack.drawings.plans.saw_sheet import saw_pages
from flatpack.drawings.shapes import Drawing
from flatpack.planning.bench_time import tasks
from flatpack.planning.buying import Amounts, Purchase, cost, purchases
from flatpack.planning.making import Plans
from flatpack.planning.packing import weight_of
from flatpack.wording import english_plan_pages as words
from flatpack.wording import english_plans as told


class Needs(NamedTuple):
    """What the plans alone don't know: code and date of the plan, areas, glue and finish."""

    code: str
    date: str
    amounts: Amounts


def plan_pages(plans: Plans, needs: Needs) -> tuple[Sheet, ...]:
    """All sheets, in the order in which they are wanted."""
    about = About(_names(plans), needs.code, needs.date, plans.incomplete)
    return (*_drawn(plans, about), *_tables(plans, needs), *_pages(plans, needs))


def _names(plans: Plans) -> str:
    return words.pieces_line([(p.count, p.assembly.name) for p in plans.pieces])


def _drawn(plans: Plans, about: About) -> Iterator[Sheet]:
    for sheet in plans.sheets:
        for drawing in saw_pages(sheet, about):
            yield _sheet("saw", "saw-sheet", drawing)
    for board in (*plans.boards, *plans.rods):
        for drawing in board_pages(board, about):
            yield _sheet("boards", "boards", drawing)
    yield from _nested(plans, about)


def _nested(plans: Plans, about: About) -> Iterator[Sheet]:
    if plans.shop is None:
        return
    for nest in plans.nests:
        for drawing in nest_pages(nest, plans.shop, plans.stock.saws, about):
            yield _sheet("nest", "nest-sheet", drawing)
        for number in range(1, len(nest.nest.sheets) + 1):
            made = nested_drawing(nest, number, plans.shop, about.code)
            yield _sheet("nest", "nest-dxf", _marked(made, about), dxf=True)
            second = second_nested(nest, number, plans.shop, about.code)
            if second is not None:
                yield _sheet("nest", "nest-second", _marked(second, about), dxf=True)


def _marked(drawing: Drawing, about: About) -> Drawing:
    return across(drawing, told.INCOMPLETE) if about.incomplete else drawing


def _sheet(folder: str, purpose: str, drawing: Drawing, dxf: bool = False) -> Sheet:
    return Sheet(folder=folder, name=drawing.name, purpose=words.PURPOSES[purpose],
                 content=drawing, format="dxf" if dxf else "svg")  # fmt: skip


def bought(plans: Plans, needs: Needs) -> tuple[Purchase, ...]:
    """The buying list."""
    return tuple(purchases(plans, needs.amounts.wets))


def _every(plans: Plans, needs: Needs) -> tuple[Table, ...]:
    done = tuple(tasks(plans, needs.amounts))
    return (
        lists.order(bought(plans, needs)),
        lists.saw_cuts(plans),
        lists.cross_cuts(plans),
        lists.nest_list(plans),
        lists.summary(plans),
        lists.waste(plans),
        lists.kit_list(plans),
        lists.bundle_list(plans),
        lists.time_list(done),
        lists.finding_list(plans),
    )


def _tables(plans: Plans, needs: Needs) -> Iterator[Sheet]:
    for table in _every(plans, needs):
        if table.rows:
            yield Sheet(folder="lists", name=table.name, purpose=_purpose(table), content=table,
                        format="csv")  # fmt: skip


def _purpose(table: Table) -> str:
    return words.PURPOSES.get(table.name, table.title)


def _pages(plans: Plans, needs: Needs) -> Iterator[Sheet]:
    every = {t.name: t for t in _every(plans, needs) if t.rows}
    for name, title, lines, held in (
        ("order", words.ORDER_TITLE, words.ORDER_LINES, ("order", "saw-cuts")),
        ("plan", words.PLAN_TITLE, words.PLAN_LINES,
         ("cut-findings", "plan-summary", "waste", "cross-cuts", "nest", "kit-bags", "bundles",
          "bench-time")),
    ):  # fmt: skip
        page = Page(
            name=name,
            title=title,
            facts=tuple(_facts(plans, needs, name)),
            lines=(*lines, *_search(plans)),
            tables=tuple(every[t] for t in held if t in every),
            warning=told.INCOMPLETE if plans.incomplete else "",
        )
        yield Sheet(folder="", name=name, purpose=words.PURPOSES[f"page-{name}"], content=page,
                    format="html")  # fmt: skip


def _search(plans: Plans) -> Iterator[str]:
    for nest in plans.nests:
        if nest.by_clock:
            yield told.BY_CLOCK.format(layout_path(nest.name))
    crosses = all(b.plan.repeatable for b in (*plans.boards, *plans.rods))
    if not crosses or not all(s.plan.repeatable for s in plans.sheets):
        yield told.STOPPED


def layout_path(name: str) -> str:
    """Where the layout of a nest is kept in the output folder."""
    return f"layouts/{name}.json"


def _facts(plans: Plans, needs: Needs, page: str) -> Iterator[tuple[str, str]]:
    saws, made = plans.stock.saws, needs.amounts
    coded = [(p.count, words.with_code(p.assembly.name, p.code)) for p in plans.pieces]
    yield words.FACTS["pieces"], words.pieces_line(coded)
    yield words.FACTS["code"], needs.code
    yield words.FACTS["stock"], plans.stock.name
    taken = (saws.kerf, saws.trim, saws.cross_kerf, saws.end_trim)
    yield words.FACTS["saw"], words.saws_line(*(f"{t:g}" for t in taken))
    yield words.FACTS["tolerance"], f"{saws.tolerance:g} mm"
    total, missing = cost(bought(plans, needs))
    yield words.FACTS["sum"], words.sum_line(f"{total:.2f}", plans.stock.currency, missing)
    if page == "order":
        return
    if plans.shop is not None:
        yield words.FACTS["shop"], plans.shop.name
    parts = (p for lot in plans.lots for p in lot.parts)
    weight = sum(weight_of(p.group.part) * p.count for p in parts)
    yield words.FACTS["weight"], words.kilograms(weight)
    yield words.FACTS["surface"], words.square_metres(made.surface)
    yield words.FACTS["glued"], words.square_metres(made.glued)
    minutes = sum(t.minutes for t in tasks(plans, made))
    yield words.FACTS["time"], words.hours(minutes)
