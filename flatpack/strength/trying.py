"""Single changes of a parameter file that may help a piece to hold, found from its keys alone.

A board may be thicker, a count one more, a rail or leg wider, a span or an overhang less, a screw,
bolt, washer or rod the next bigger one: whatever a family calls its keys, their kinds say which.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from flatpack.model import Assembly
from flatpack.profiles import Board, Profiles

COUNTED = {
    "slats.deck_count": "slat-",
    "slats.back_count": "back-slat-",
    "seat.count": "slat-",
    "top.count": "slat-",
    "back.count": "back-slat-",
    "frames.count": "leg-front-",
}
"""Counts that may be left out -> prefix of the parts that they count."""
WIDER, NEARER, LESS = 1.35, 0.65, 0.5
"""Factors on widths, on spans between supports, and on overhangs."""
WIDE = ("width", "apron", "seat_rail", "low_rail", "stretcher", "lap")
"""Words in a key that names the width of what bears; a slat's width changes their number."""
FAR, OUT = ("span",), ("overhang", "inset")
NOT_BORNE = ("size.", "finishing.", "as_made.", "fit.")
"""Tables whose keys say how big the piece is, or how it is made, not how strong."""


class Change(NamedTuple):
    """Keys of the parameter file with new values, and the change in words."""

    values: tuple[tuple[str, Any], ...]
    words: str


def changes(record: Any, assembly: Assembly, profiles: Profiles) -> tuple[Change, ...]:
    """Single changes that may help, each of its own kind."""
    return tuple(_changes(record, assembly, profiles))


def _changes(record: Any, assembly: Assembly, profiles: Profiles) -> Iterator[Change]:
    for path, spec in _keys(type(record)):
        if path.startswith(NOT_BORNE) or spec.many or not _reached(record, path):
            continue
        value = _get(record, path)
        if spec.kind == "board" and path.startswith("boards."):
            yield from _thicker(record, path, profiles)
        elif spec.kind == "count":
            n = value if value is not None else _counted(assembly, path)
            if n and n + 1 <= spec.most:
                yield Change(((path, n + 1),), f"{path} = {n + 1}, one more")
        elif spec.kind == "length" and value is not None:
            yield from _longer(path, value, spec)
        elif spec.kind == "item" and value is not None:
            yield from _bigger(record, path, spec.among, value, profiles)


def _keys(cls: Any, before: str = "") -> Iterator[tuple[str, Any]]:
    """Every key of a record class and of its tables, with what it may hold."""
    for name, spec in cls.record_specs.items():
        yield before + name, spec
        if spec.record is not None and not spec.named:
            yield from _keys(spec.record, f"{before}{name}.")


def _reached(record: Any, path: str) -> bool:
    """Whether a record holds the key: what stands in lists or under chosen names it doesn't."""
    for name in path.split("."):
        if not hasattr(record, name):
            return False
        record = getattr(record, name)
    return True


def _get(record: Any, path: str) -> Any:
    for name in path.split("."):
        record = getattr(record, name)
    return record


def _counted(assembly: Assembly, path: str) -> int:
    prefix = COUNTED.get(path)
    return sum(1 for k in assembly.parts if prefix and k.startswith(prefix))


def _longer(path: str, value: float, spec: Any) -> Iterator[Change]:
    last = path.rpartition(".")[2]
    if "slat" in last:
        return
    factor = next(
        (f for words, f in ((WIDE, WIDER), (FAR, NEARER), (OUT, LESS))
         if any(w in last for w in words)), None,
    )  # fmt: skip
    if factor is not None:
        new = float(min(max(round(value * factor), spec.least), spec.most))
        if new != value:
            yield Change(((path, new),), f"{path} = {new:g}")


def _thicker(record: Any, path: str, profiles: Profiles) -> Iterator[Change]:
    chosen = _get(record, path) or record.boards.timber
    board: Board = profiles.board(chosen)
    more = [
        b
        for b in profiles.every("boards")
        if b.material == board.material and b.kind == board.kind and b.thickness > board.thickness
    ]
    if more:
        near = min(more, key=lambda b: (b.thickness, b.key))
        # The same form as the record holds: a profile's name with no thickness of its own.
        value = type(chosen)(near.key)
        yield Change(((path, value),), f'{path} = "{near.key}", {near.thickness:g} mm')


def _bigger(record: Any, path: str, among: str, key: str, profiles: Profiles) -> Iterator[Change]:
    made = profiles.get(among, key) if among in _NEXT else None
    if made is None:
        return
    for other in _NEXT[among](made, profiles.every(among)):
        values = ((path, other.key), *_with_it(record, path, among, other, profiles))
        more = " with its nut and washer" if len(values) > 1 else ""
        yield Change(values, f'{path} = "{other.key}"{more}')


def _with_it(
    record: Any, path: str, among: str, bolt: Any, profiles: Profiles
) -> Iterator[tuple[str, Any]]:
    """Nut and washer of a bolt's thread, where the same table names them."""
    if among != "coach-bolts":
        return
    table = path.rpartition(".")[0]
    for name, kind in (("nut", "nuts"), ("washer", "washers")):
        at = f"{table}.{name}"
        if _reached(record, at):
            old = _get(record, at)
            stem = old.rpartition("-")[0]
            new = f"{stem}-m{bolt.diameter:g}"
            if new in profiles.names(kind):
                yield at, new


def _next_bolt(made: Any, every: tuple[Any, ...]) -> list[Any]:
    more = [b for b in every if b.diameter > made.diameter]
    return [min(more, key=lambda b: (b.diameter, b.key))] if more else []


def _next_screw(made: Any, every: tuple[Any, ...]) -> list[Any]:
    return _next_bolt(made, tuple(s for s in every if s.use == made.use and s.head == made.head))


def _wider_washer(made: Any, every: tuple[Any, ...]) -> list[Any]:
    more = [w for w in every if w.diameter == made.diameter and w.outer > made.outer]
    return [min(more, key=lambda w: (w.outer, w.key))] if more else []


def _stronger_rods(made: Any, every: tuple[Any, ...]) -> list[Any]:
    return [
        rod
        for rod in every
        if (rod.material == made.material and rod.diameter > made.diameter)
        or (rod.material != made.material and "steel" in rod.material
            and rod.diameter >= made.diameter - 6.0)
    ]  # fmt: skip


_NEXT = {
    "coach-bolts": _next_bolt,
    "screws": _next_screw,
    "washers": _wider_washer,
    "rods": _stronger_rods,
}
"""Kind of hardware -> the bigger ones to try."""
