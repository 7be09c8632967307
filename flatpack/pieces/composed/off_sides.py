r"""Places that name a side of a leaning part beyond that side's ends.

\ \         _____      its side is a plane without an end: a part that is set against it
 \ \       |part |     where the brace doesn't reach comes to lie anywhere
  \_\      |_____|
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec
from flatpack.model import Bar, Part
from flatpack.parameters import Sum
from flatpack.pieces.composed.corners import is_side
from flatpack.pieces.composed.directions import AXES, WAYS, nearest_axis
from flatpack.pieces.composed.faults import StuckError
from flatpack.pieces.composed.layout import Layout
from flatpack.pieces.composed.lengths import PIECE
from flatpack.pieces.composed.meeting import SAGITTA
from flatpack.pieces.composed.part_records import MIDDLES, SIDES
from flatpack.pieces.composed.parts import Made
from flatpack.pieces.composed.rows import Stated

WITHIN = 0.5
"""A part may stand this far beyond a leaning part's reach, mm."""
SQUARE = 1e-9


def note_off_sides(layout: Layout, made: Made) -> None:
    """Note each place that lies beyond the reach of the leaning part whose side it names."""
    for name in layout.parts:
        for key in (*SIDES, *MIDDLES):
            said = getattr(layout.parts[name].made, key)
            if said is not None and said.at is None and is_side(said.first):
                layout.faults.attempt(lambda n=name, k=key: _check(layout, made, n, k))  # type: ignore[misc]  # a loop's values bound


def _check(layout: Layout, made: Made, name: str, key: str) -> None:
    where = f"parts.{name}.{key}"
    said: Sum = getattr(layout.parts[name].made, key)
    way = (SIDES.index(key) // 2) if key in SIDES else MIDDLES.index(key)
    whose, _, side = str(said.first).partition(".")
    axes = layout.axes(name)
    number, _ = nearest_axis(axes, AXES[way])
    if whose == PIECE or abs(axes[number].dot(AXES[way])) < 1.0 - SQUARE:
        return
    pair = layout.parts[name].made.pair
    plane = layout.plane(said.first, way, Stated(0.0, said, where), pair)
    if abs(plane.normal.dot(AXES[way])) > 1.0 - SQUARE:
        return
    own = _reach(made, _key(layout, name, pair), way)
    theirs = _reach(made, _named(layout, whose, where, pair), way)
    beyond = said.sign * layout.term(said.second, where, said) if said.sign else 0.0
    at = (sum(own) / 2.0 if key in MIDDLES else own[WAYS[key].dot(AXES[way]) > 0.0]) - beyond
    off = max(theirs[0] - at, at - theirs[1])
    if off > WITHIN:
        text = (f"comes to {at:.1f} mm, {off:.1f} mm beyond {whose}, which leans and reaches from "
                f"{theirs[0]:.1f} to {theirs[1]:.1f}")  # fmt: skip
        allowed = "another part's side, or a length"
        if way < 2:
            allowed = f'the height as well, such as "{whose}.{side} at 300", or {allowed}'
        layout.faults.note(where, said, allowed, text)


def _key(layout: Layout, name: str, hand: str) -> str:
    return next(k for k, one in layout.copies(name).items() if one.hand in ("", hand))


def _named(layout: Layout, whose: str, where: str, owner: str) -> str:
    one = layout.instance(whose, where, owner)
    return next(k for k, v in layout.copies(one.base).items() if v == one)


def _reach(made: Made, key: str, way: int) -> tuple[float, float]:
    """From where to where a part reaches in one of the piece's ways, by its true corners.

    Raises:
        StuckError: the part couldn't be made.
    """
    if key not in made:
        raise StuckError
    places = [corner.dot(AXES[way]) for corner in _corners(made[key])]
    return min(places), max(places)


def _corners(one: Part | Bar) -> Iterator[Vec]:
    if isinstance(one, Bar):
        half = one.stock.diameter / 2.0
        for z in (0.0, one.length):
            yield from (one.frame.place(x, y, z) for x in (-half, half) for y in (-half, half))
        return
    for point in one.outline.sampled(SAGITTA):
        yield from (one.frame.place(*point, z) for z in (0.0, one.thickness))
