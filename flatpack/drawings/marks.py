"""Part marks: a letter a name, -L or -R for a hand, a digit where parts of one name differ.

A  B-L  B-R  C1  C2        I and O are left out: in pencil they read as 1 and 0
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from itertools import count, product

from flatpack.drawings.turned import Seen
from flatpack.frozen import frozen
from flatpack.model import Assembly, Bar, Hand, Part

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
_HANDS: dict[Hand, str] = {"": "", "left": "-L", "right": "-R"}


@frozen(kw_only=False)
class PartGroup:
    """Parts that are cut and worked alike; `part` is the first, `keys` are all of them."""

    mark: str
    part: Part
    count: int
    keys: tuple[str, ...]


@frozen(kw_only=False)
class BarGroup:
    """Round bars that are alike."""

    mark: str
    bar: Bar
    count: int
    keys: tuple[str, ...]


def groups(assembly: Assembly) -> tuple[PartGroup, ...]:
    """Distinct parts with their marks, in the order in which the piece names its parts."""
    kinds = {key: _kind(part) for key, part in assembly.parts.items()}
    alike: dict[Hashable, list[tuple[str, Part]]] = {}
    for key, part in assembly.parts.items():
        alike.setdefault((part.name, part.hand, kinds[key]), []).append((key, part))
    letters = _letters(p.name for p in assembly.parts.values())
    variants = _variants((p.name, kinds[key]) for key, p in assembly.parts.items())
    found = []
    for same in alike.values():
        key, first = same[0]
        mark = letters[first.name] + variants[first.name, kinds[key]] + _HANDS[first.hand]
        found.append(PartGroup(mark, first, len(same), tuple(k for k, _ in same)))
    return tuple(found)


def bar_groups(assembly: Assembly) -> tuple[BarGroup, ...]:
    """Distinct round bars; their marks go on after the parts' letters."""
    alike: dict[Hashable, list[Bar]] = {}
    for bar in assembly.bars.values():
        key = (bar.name, bar.stock.name, round(bar.length, 3))
        alike.setdefault(key, []).append(bar)
    taken = len(dict.fromkeys(p.name for p in assembly.parts.values()))
    marks = _run_of_letters(taken + len(alike))[taken:]
    return tuple(
        BarGroup(mark, bars[0], len(bars), tuple(b.key for b in bars))
        for mark, bars in zip(marks, alike.values(), strict=True)
    )


def trial_groups(assembly: Assembly) -> tuple[PartGroup, ...]:
    """Parts that are cut first to try a fit; their marks go on after parts and bars."""
    names = dict.fromkeys(p.name for p in assembly.parts.values())
    taken = len(names) + len(bar_groups(assembly))
    marks = _run_of_letters(taken + len(assembly.trials))[taken:]
    return tuple(
        PartGroup(mark, part, 1, (part.key,))
        for mark, part in zip(marks, assembly.trials, strict=True)
    )


def marks_by_key(found: Iterable[PartGroup]) -> dict[str, str]:
    """Mark of every part, by the part's key."""
    return {key: group.mark for group in found for key in group.keys}


def _kind(part: Part) -> Hashable:
    """What a handed pair shares: everything in the part's own axes.

    A part without a hand that lies in a mirrored frame is another part unless its mirror image is
    itself, so its look from the show face is compared too.
    """
    own = (
        part.board.name,
        round(part.thickness, 3),
        _corners(part),
        tuple(sorted((f.key() for f in part.features), key=repr)),
        round(part.arris, 3),
        tuple(_rounded(o.points) for o in part.openings),
    )
    if part.hand or not part.frame.mirrored:
        return own
    return own if _same_mirrored(part) else (*own, "mirrored")


def _corners(part: Part) -> Hashable:
    x0, y0, _, _ = part.outline.bounds
    return tuple(
        (round(s.start.x - x0, 3), round(s.start.y - y0, 3), round(s.bulge, 6))
        for s in part.outline
    )


def _rounded(points: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    return tuple((round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in points)


def _same_mirrored(part: Part) -> bool:
    """True when the part can't be told from its mirror image, left to right."""
    low, bottom, high, _ = part.outline.bounds
    own, mirror = Seen(False, -low, -bottom), Seen(True, high, -bottom)
    return _spots(part, own) == _spots(part, mirror)


def _spots(part: Part, seen: Seen) -> frozenset[Hashable]:
    worked = (
        (f.operation, f.face, f.callout(), *_rounded((seen.point(f.at),))) for f in part.features
    )
    corners = (seen.point(p) for p in part.outline.points)
    return frozenset((*worked, *_rounded(corners)))


def _letters(names: Iterable[str]) -> dict[str, str]:
    distinct = tuple(dict.fromkeys(names))
    return dict(zip(distinct, _run_of_letters(len(distinct)), strict=True))


def _run_of_letters(wanted: int) -> tuple[str, ...]:
    """A, B ... Z, AA, AB ..."""
    found: list[str] = []
    for size in count(1):
        for letters in product(_LETTERS, repeat=size):
            if len(found) == wanted:
                return tuple(found)
            found.append("".join(letters))
    raise AssertionError("count never ends")


def _variants(parts: Iterable[tuple[str, Hashable]]) -> dict[tuple[str, Hashable], str]:
    kinds: dict[str, dict[Hashable, None]] = {}
    for name, kind in parts:
        kinds.setdefault(name, {})[kind] = None
    return {
        (name, kind): str(number) if len(known) > 1 else ""
        for name, known in kinds.items()
        for number, kind in enumerate(known, 1)
    }
