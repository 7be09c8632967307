"""What bears a part that runs across."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.geometry import Vec, X, Z
from flatpack.model import Part
from flatpack.strength.layout import CLOSE, Link, is_deck, is_side, middle, reach
from flatpack.strength.setting import Setting


class Support(NamedTuple):
    """A part that bears another at `place` along it; `link` None: it only lies on it."""

    place: float
    bearer: str
    link: Link | None


def supports(setting: Setting, part: Part) -> tuple[Support, ...]:
    """What bears a part: sides it is fixed to, else the outermost sides that it lies on."""
    known = setting.memo.get(("supports", part.key))
    if known is None:
        known = setting.memo["supports", part.key] = _found(setting, part)
    assert isinstance(known, tuple)
    return known


def _found(setting: Setting, part: Part) -> tuple[Support, ...]:
    fixed = []
    for link in setting.links:
        if part.key in (link.first, link.second):
            other = setting.part(link.other(part.key))
            if is_side(other):
                fixed.append(Support(_along(part, middle(other)), other.key, link))
    if len(fixed) >= 2 or not is_deck(part):
        return tuple(sorted(fixed, key=lambda s: s.place))
    return _resting(setting, part)


def _along(part: Part, place: Vec) -> float:
    return part.frame.local(place).x - part.outline.bounds[0]


def _resting(setting: Setting, part: Part) -> tuple[Support, ...]:
    """The outermost sides whose upper edge touches a level part from below, left and right."""
    low = reach(part, Z)[0]
    x0, x1 = reach(part, X)
    found = []
    for key, top, a, b, at in _tops(setting):
        if abs(top - low) < CLOSE and min(b, x1) - max(a, x0) > 0.5 * (x1 - x0):
            found.append(Support(_along(part, at), key, None))
    found.sort(key=lambda s: s.place)
    return (found[0], found[-1]) if len(found) >= 2 else tuple(found)


def _tops(setting: Setting) -> tuple[tuple[str, float, float, float, Vec], ...]:
    """Side parts with the height of their top, their reach along the piece, and their middle."""
    known = setting.memo.get("tops")
    if known is None:
        known = setting.memo["tops"] = tuple(
            (p.key, reach(p, Z)[1], *reach(p, X), middle(p))
            for p in setting.assembly.parts.values()
            if is_side(p)
        )
    assert isinstance(known, tuple)
    return known
