"""The timber of one variant: its cutting plan as files, and what it costs and wastes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from flatpack import __version__, job
from flatpack.content_code import content_code
from flatpack.drawings.plans import Needs, bought, plan_pages
from flatpack.manifest import File
from flatpack.parameters import canonical
from flatpack.planning import Asked, Counted, Plans, plans
from flatpack.planning.buying import Purchase, cost
from flatpack.planning.glueing import amounts
from flatpack.planning.shares import shares
from flatpack.profiles import load

FOLDER = "cutting"


def planned(
    made: job.Design, stock: str, texts: Mapping[str, str]
) -> tuple[dict[str, File], dict[str, Any]]:
    """Files of the plan below `cutting/`, and the summary's price, currency and waste.

    Raises:
        ProfileError: the stock list has faults.
    """
    list_of = load(texts).stock(stock)
    plan = plans([Counted(assembly=made.assembly, code=made.code)], Asked(stock=list_of))
    code = content_code((__version__, made.code, canonical(list_of)))
    needs = Needs(code, made.assembly.date, amounts(plan.pieces))
    pages = job.written(plan_pages(plan, needs), made.workshop)
    files = {f"{FOLDER}/{path}": file for path, file in pages.items()}
    return files, money(plan, bought(plan, needs))


def money(plan: Plans, rows: Iterable[Purchase]) -> dict[str, Any]:
    """Price of what has one, how many rows have none, and the waste of boards and sheets by area.

    Empty where nothing has a price, or some part finds no board.
    """
    every = tuple(rows)
    price, unpriced = cost(every)
    areas = [share for share in shares(plan) if share.unit == "m2"]
    used = sum(s.stock for s in areas)
    lost = used - sum(s.parts + s.kept for s in areas)
    return {
        "price": "" if plan.incomplete or unpriced == len(every) else price,
        "currency": plan.stock.currency,
        "unpriced": unpriced,
        "waste": round(100.0 * lost / used, 1) if used and not plan.incomplete else "",
    }
