"""Mirrored pairs that joints work differently: two parts of their own, and no pair any more.

A slanting brace on the rear edges of both sides is screwed low on one and high on the other: what
was drawn as one part and its mirror image are then two parts, each drawn by itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.finding import Finding
from flatpack.frozen import replace
from flatpack.model import Assembly, Joint, Part
from flatpack.pieces.composed.layout import Layout

FINE = 3
"""Decimals of a mm to which two hands are compared."""


class _Pair(NamedTuple):
    name: str
    left: str
    right: str


def parted(
    layout: Layout, plain: Assembly, whole: Assembly, every: Mapping[str, tuple[Joint, ...]]
) -> Assembly:
    """The machined piece, pairs that differ made two parts without hands, a note for each.

    `plain` is the piece before its joints are made, `every` has them by their entry in the file.
    """
    parts, remarks = dict(whole.parts), list(whole.remarks)
    for pair in _pairs(layout, whole):
        left, right = parts[pair.left], parts[pair.right]
        if _worked(left) == _worked(right):
            continue
        for key, part, side in ((pair.left, left, "left"), (pair.right, right, "right")):
            parts[key] = replace(part, hand="", name=f"{part.name} on the {side}")
        remarks.append(_note(pair, plain, every))
    return replace(whole, parts=parts, remarks=tuple(remarks))


def _pairs(layout: Layout, whole: Assembly) -> Iterator[_Pair]:
    for name, (_, made) in layout.parts.items():
        if made.pair == "none":
            continue
        for key, one in layout.copies(name).items():
            if one.hand == "left" and key in whole.parts:
                yield _Pair(name, key, f"{key.removesuffix('left')}right")


def _worked(part: Part) -> object:
    """What two hands of a pair have alike: outline, openings and what is worked on them."""
    return (
        [_line(s.start, s.bulge) for s in part.outline],
        [[_line(s.start, s.bulge) for s in o] for o in part.openings],
        sorted(repr(f.key()) for f in part.features),
    )


def _line(at: tuple[float, float], bulge: float) -> tuple[float, ...]:
    return tuple(round(n, FINE) + 0.0 for n in (*at, bulge))


def _note(pair: _Pair, plain: Assembly, every: Mapping[str, tuple[Joint, ...]]) -> Finding:
    uneven = [key for key, row in every.items() if not _alike(pair, plain, row)]
    return Finding(
        "pair-differs", "note", pair.left,
        f"{pair.left} and {pair.right} are worked differently ({', '.join(uneven)}): they are two "
        "parts, each with a drawing of its own, and no mirrored pair",
        remedy="nothing, if that is meant; for a pair, join both hands at places that mirror",
    )  # fmt: skip


def _alike(pair: _Pair, plain: Assembly, row: tuple[Joint, ...]) -> bool:
    """Whether one entry's joints work both hands alike."""
    done: dict[str, list[str]] = {pair.left: [], pair.right: []}
    for joint in row:
        made = joint.machine(plain)
        told = [
            *((key, repr(f.key())) for key, f in made.features),
            *((key, "cut") for key, _ in (*made.recesses, *made.openings)),
        ]
        for key, what in told:
            if key in done:
                done[key].append(what)
    return sorted(done[pair.left]) == sorted(done[pair.right])
