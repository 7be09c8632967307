"""Usable offcuts, and the stock file that holds them for next time."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.cutting import Rest
from flatpack.cutting.nest_records import NestedSheet
from flatpack.planning.making import Plans
from flatpack.planning.sheets import NestPlan
from flatpack.profiles import Saws


def nest_rest(plan: NestPlan, sheet: NestedSheet, saws: Saws) -> Rest | None:
    """The larger of the strips beyond all parts, to the right of them or above; None if small."""
    named = {s.mark: s for s in plan.shapes}
    boxes = [named[p.mark].outline.turned(p.turn).moved(p.x, p.y).bounds for p in sheet.parts]
    x0, y0, x1, y1 = sheet.blank.outline.bounds
    whole = abs(abs(sheet.blank.outline.area) - (x1 - x0) * (y1 - y0)) < 1.0
    if not boxes or not whole:
        return None
    space = plan.spaces.between
    right, top = max(b[2] for b in boxes) + space, max(b[3] for b in boxes) + space
    strips = (
        Rest(x=right, y=y0, length=x1 - right, width=y1 - y0),
        Rest(x=x0, y=top, length=x1 - x0, width=y1 - top),
    )
    kept = [
        r for r in strips if r.length >= saws.keep_width and r.width >= saws.keep_width
        and max(r.length, r.width) >= saws.keep_length
    ]  # fmt: skip
    return max(kept, key=lambda r: r.length * r.width, default=None)


def offcut_file(plans: Plans) -> str:
    """The rests as TOML, in the form of a stock list; rows of what was in the rack are left out."""
    name = "Offcuts"
    head = [
        "# Offcuts of this plan, for next time: flatpack cut FILE --offcuts THIS-FILE --out DIR",
        "# Those of the rack that this plan didn't touch aren't here: keep their own rows.",
        f'name = "{name}"',
        'source = "rests of a cutting plan; measure them"',
    ]
    return "\n".join([*head, *_rows(plans)]) + "\n"


def _rows(plans: Plans) -> Iterator[str]:
    for plan in plans.boards:
        if plan.board is not None:
            for length in _lengths(plan.plan.boards):
                yield f'\n[[boards]]\nboard = "{plan.board.key}"\nwidth = {_n(plan.width)}'
                yield f"length = {_n(length)}\noffcut = true"
    for plan in plans.rods:
        for length in _lengths(plan.plan.boards):
            yield f'\n[[rods]]\nrod = "{plan.name}"\nlength = {_n(length)}\noffcut = true'
    for key, rest in sheet_rests(plans):
        yield f'\n[[sheets]]\nboard = "{key}"\nlength = {_n(rest.length)}'
        yield f"width = {_n(rest.width)}\noffcut = true"


def sheet_rests(plans: Plans) -> Iterator[tuple[str, Rest]]:
    """Board and size of every rest of a sheet that is kept."""
    for plan in plans.sheets:
        for sheet in plan.plan.sheets:
            yield from ((plan.lot.board.key, r) for r in sheet.rests)
    for nested in plans.nests:
        for laid in nested.nest.sheets:
            rest = nest_rest(nested, laid, plans.stock.saws)
            if rest is not None:
                yield nested.lot.board.key, rest


def _lengths(boards: object) -> list[float]:
    return sorted(high - low for board in boards for low, high in board.rests)  # type: ignore[attr-defined]  # boards of a plan


def _n(value: float) -> str:
    """Rounded down to 0.1 mm: a rest is never longer than it says."""
    return f"{int(value * 10.0 + 1e-6) / 10.0:.1f}".removesuffix(".0")
