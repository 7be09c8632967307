"""Single parts as an assembly of nothing: one above the other, each worked as its file says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.model import Assembly, Part
from flatpack.parameters import Conflict
from flatpack.pieces.common import given
from flatpack.pieces.composed.faults import Faults
from flatpack.pieces.composed.lengths import Lengths
from flatpack.pieces.composed.shaping import own_extent, shape_of
from flatpack.pieces.loose_parts.parameters import LooseParts
from flatpack.profiles import Profiles

APART = 50.0
"""Room between one part and the next, mm."""


class Sizes(Lengths):
    """The file's lengths; every part states its own."""

    def extent(self, name: str, axis: int) -> float:
        """A part's length, width or thickness, mm."""
        known = own_extent(self, name, axis)
        assert known is not None  # without places every size is needed
        return known


def build(p: LooseParts, profiles: Profiles) -> Assembly:
    """All parts, worked.

    Raises:
        ValueError: the file has faults (a bug: conflicts tells them first).
    """
    faults = Faults()
    parts = {part.key: part for part in _parts(Sizes(p, profiles, faults))}
    if faults.rows:
        raise ValueError(f"this file has faults: {faults.rows}")
    return Assembly(
        family="loose-parts",
        name=p.name,
        date=p.date or "",
        parts=parts,
        bearing="standing",
        machined=True,
        loose=True,
    )


def conflicts(p: LooseParts, profiles: Profiles) -> Iterable[Conflict]:
    """All that is wrong with the file."""
    faults = Faults()
    sizes = Sizes(p, profiles, faults)
    for name in sizes.measures:
        faults.attempt(lambda name=name: sizes.measure(name, f"measures.{name}"))  # type: ignore[misc]  # a loop's value bound
    tuple(_parts(sizes))
    return tuple(faults.rows)


def _parts(sizes: Sizes) -> Iterator[Part]:
    """Every part with its copies and hands, upright, one above the other."""
    above = 0.0
    for name in sizes.parts:
        whole = sizes.faults.attempt(lambda name=name: _part(sizes, name))  # type: ignore[misc]  # a loop's value bound
        if whole is None:
            continue
        made = sizes.parts[name].made
        for number in range(1, made.pieces + 1):
            key = name if made.pieces == 1 else f"{name}-{number}"
            for part in _hands(whole, key, made.hands):
                low = above - part.outline.bounds[1]
                frame, above = part.frame, above + part.width + APART
                at = Vec(frame.origin.x, frame.origin.y, low)
                yield replace(part, frame=replace(frame, origin=at))


def _hands(whole: Part, key: str, both: bool) -> Iterator[Part]:
    if not both:
        yield replace(whole, key=key)
        return
    left = replace(whole, key=f"{key}-left", hand="left")
    yield left
    yield left.other_hand(f"{key}-right", -left.length / 2.0)


def _part(sizes: Sizes, name: str) -> Part:
    made, board, shape = sizes.parts[name].made, sizes.board_of(name), shape_of(sizes, name)
    worked = (
        *shape.features,
        *given.holes(made.holes),
        *given.slots(made.slots),
        *given.pockets(made.pockets, shape.outline, board.thickness, sizes.jig),
    )
    return Part(
        key=name,
        name=made.title or name.replace("-", " ").capitalize(),
        board=board,
        outline=shape.outline,
        frame=Frame(Vec(0.0, 0.0, 0.0), Y.negated(), Z, X.negated()),
        features=worked,
        arris=sizes.length(made.arris, f"parts.{name}.arris"),
        openings=shape.openings,
    )
