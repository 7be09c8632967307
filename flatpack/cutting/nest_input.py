"""What of a nest's input can be used; the rest becomes troubles that name the part or blank."""

from __future__ import annotations

from collections.abc import Sequence

from flatpack.cutting.nest_records import TURNS, Blank, Shape, Spaces
from flatpack.cutting.records import Trouble
from flatpack.geometry.outline import Outline
from flatpack.geometry.polygon import is_simple


def shape_area(shape: Shape) -> float:
    """Area of a part less its openings, mm2."""
    return abs(shape.outline.area) - sum(abs(o.area) for o in shape.openings)


def ready(
    shapes: Sequence[Shape], blanks: Sequence[Blank], spaces: Spaces
) -> tuple[list[Shape], list[Blank], list[Trouble]]:
    """Shapes that fit some blank, blanks that can be used, and the troubles of the others."""
    troubles = []
    usable = []
    for blank in blanks:
        if not is_simple(blank.outline):
            troubles.append(
                Trouble(
                    code="outline-crosses-itself",
                    stock=blank.name,
                    text=f"the outline of {blank.name} crosses itself: it isn't used",
                )
            )
        elif blank.available != 0:
            usable.append(blank)
    good = []
    for shape in shapes:
        trouble = _trouble(shape, usable, spaces)
        if trouble is None and shape.count > 0:
            good.append(shape)
        elif trouble is not None:
            troubles.append(trouble)
    unpriced = dict.fromkeys(b.of or b.name for b in usable if b.price is None and not b.offcut)
    troubles += [
        Trouble(
            code="no-price",
            stock=name,
            text=f"no price for {name}: the nest counts sheets only",
            blocks=False,
        )
        for name in unpriced
    ]
    return good, usable, troubles


def _trouble(shape: Shape, blanks: Sequence[Blank], spaces: Spaces) -> Trouble | None:
    if not is_simple(shape.outline):
        return Trouble(
            code="outline-crosses-itself",
            mark=shape.mark,
            text=f"the outline of {shape.mark} crosses itself",
        )
    if any(_fits(shape.outline, t, b, spaces) for t in TURNS[shape.grain] for b in blanks):
        return None
    if any(_fits(shape.outline, t, b, spaces) for t in TURNS["free"] for b in blanks):
        code, text = "grain-not-met", f"part {shape.mark} fits only with its grain turned"
    else:
        code, text = "part-too-large", f"part {shape.mark} is larger than any sheet"
    x0, _, x1, _ = shape.outline.bounds
    largest = max(blanks, key=lambda b: abs(b.outline.area)).name if blanks else ""
    return Trouble(code=code, mark=shape.mark, stock=largest, text=text, measured=x1 - x0)


def _fits(outline: Outline, turn: float, blank: Blank, spaces: Spaces) -> bool:
    a, b, c, d = outline.turned(turn).bounds
    x0, y0, x1, y1 = blank.outline.bounds
    room = 2.0 * spaces.edge - 1e-9
    return c - a <= x1 - x0 - room and d - b <= y1 - y0 - room


def part_troubles(missing: Sequence[tuple[str, int]]) -> list[Trouble]:
    """Parts that found no place."""
    return [
        Trouble(
            code="stock-short",
            mark=mark,
            text=f"the stock is too little: {count} x {mark} have no place",
            measured=float(count),
        )
        for mark, count in missing
    ]
