"""Records with some keys set, and pieces built from them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields
from fnmatch import fnmatchcase
from typing import Any

import pytest

from flatpack.features import Hole, PocketHole
from flatpack.geometry import Frame, Outline
from flatpack.model import Assembly, Fastener, Part
from flatpack.parameters import replace
from flatpack.pieces import Family
from flatpack.profile_files import profile_texts
from flatpack.profiles import Profiles, load


@pytest.fixture(scope="session")
def profiles() -> Profiles:
    """Those shipped, and a pocket jig of another slope, since there is only one."""
    texts = profile_texts()
    (path,) = (p for p in texts if p.replace("\\", "/").endswith("pocket-jigs/pocket-15.toml"))
    steeper = texts[path].replace("angle = 15", "angle = 20")
    assert steeper != texts[path]
    return load({**texts, path.replace("pocket-15", "pocket-20"): steeper})


@pytest.fixture(scope="session")
def with_keys() -> Callable[[Any, Mapping[str, object]], Any]:
    """A copy of a record with dotted keys set, e.g. {"size.length": 1900.0}."""

    def made(record: Any, values: Mapping[str, object]) -> Any:
        for path, value in values.items():
            table, _, key = path.rpartition(".")
            if table:
                record = replace(record, **{table: replace(getattr(record, table), **{key: value})})
            else:
                record = replace(record, **{key: value})
        return record

    return made


def _parts_measured(parts: Iterable[Part]) -> dict[str, object]:
    named: dict[str, list[Part]] = {}
    for part in parts:
        named.setdefault(part.name, []).append(part)
    found: dict[str, object] = {}
    for name, alike in named.items():
        found[f"{name}: count"] = len(alike)
        found[f"{name}: length"] = sorted({round(p.length, 6) for p in alike})
        found[f"{name}: width"] = sorted({round(p.width, 6) for p in alike})
        found[f"{name}: board"] = sorted({(p.board.key, p.thickness) for p in alike})
        found[f"{name}: arris"] = sorted({p.arris for p in alike})
        found[f"{name}: place"] = [_rounded(p.frame) for p in alike]
        found[f"{name}: outline"] = [_rounded(p.outline) for p in alike]
        found[f"{name}: openings"] = [_rounded(p.openings) for p in alike]
        found[f"{name}: work"] = [[f.key() for f in p.features] for p in alike]
        holes = [f.diameter for p in alike for f in p.features if isinstance(f, Hole)]
        found[f"{name}: hole diameters"] = sorted(holes)
        pockets = sum(isinstance(f, PocketHole) for p in alike for f in p.features)
        found[f"{name}: pockets"] = pockets
    return found


def _rounded(value: object) -> object:
    """Lengths to 0.000001 mm, so that the order of sums doesn't count."""
    if isinstance(value, float):
        return round(value, 6) + 0.0
    if isinstance(value, Outline):
        return _rounded(value.segments)
    if isinstance(value, Frame):
        return _rounded((value.origin, value.x, value.y, value.z))
    return tuple(_rounded(v) for v in value) if isinstance(value, tuple) else value


@pytest.fixture(scope="session")
def measured(profiles: Profiles) -> Callable[[Any, Assembly], dict[str, object]]:
    """Every quantity of a piece that a key may move, by name."""

    def measure(record: Any, piece: Assembly) -> dict[str, object]:
        found = _parts_measured(piece.parts.values())
        for bar in piece.bars.values():
            found[f"{bar.name}: length"] = round(bar.length, 6)
            found[f"{bar.name}: diameter"] = bar.stock.diameter
            found[f"{bar.name}: place"] = _rounded(bar.frame)
        kinds: dict[str, list[Fastener]] = {}
        for fastener in piece.fasteners:
            kinds.setdefault(fastener.kind, []).append(fastener)
        for kind, alike in kinds.items():
            found[f"{kind}: count"] = len(alike)
            found[f"{kind}: items"] = sorted({f.item for f in alike})
            found[f"{kind}: sizes"] = sorted({f.size for f in alike})
            found[f"{kind}: places"] = [_rounded((f.start, f.direction)) for f in alike]
        if piece.motion is not None:
            for one in fields(piece.motion):
                found[f"motion: {one.name}"] = _rounded(getattr(piece.motion, one.name))
        if piece.folding is not None:
            for one in fields(piece.folding):
                found[f"folding: {one.name}"] = _rounded(getattr(piece.folding, one.name))
        found["hardware"] = piece.hardware
        found["trials"] = [(p.name, _rounded(p.outline), p.board.key) for p in piece.trials]
        found["fits"] = [(f.joint, f.hold, _rounded((f.clearance, f.slope))) for f in piece.fits]
        found["workings"] = tuple((w.name, round(w.value, 6)) for w in piece.workings)
        found["gap spacers"] = tuple((s.name, round(s.width, 6)) for s in piece.spacers)
        found["steps"] = tuple(step.key for step in piece.steps)
        found["name"] = piece.name
        found["date"] = piece.date
        found["workshop"] = profiles.workshop(record.workshop)
        found["loads"] = getattr(record, "loads", None)
        for key in ("glue", "finish", "sealer", "units"):
            found[key] = getattr(record.finishing, key)
        return found

    return measure


@pytest.fixture(scope="session")
def compared(
    profiles: Profiles, measured: Callable[[Any, Assembly], dict[str, object]]
) -> Callable[..., tuple[list[str], list[str]]]:
    """Of two records: quantities that should have moved but didn't, and the other way round.

    `moves` and `stays` are names with wildcards, separated by semicolons; each must name at least
    one quantity.  A count of 0 stands for what is only there in one of the two.
    """
    known: dict[object, dict[str, object]] = {}

    def quantities(family: Family, record: Any) -> dict[str, object]:
        if record not in known:
            known[record] = measured(record, family.build(record, profiles))
            known[record]["conflicts"] = [c.key for c in family.conflicts(record, profiles)]
        return known[record]

    def compare(
        family: Family, before: Any, after: Any, moves: str, stays: str
    ) -> tuple[list[str], list[str]]:
        old, new = quantities(family, before), quantities(family, after)
        assert old["conflicts"] == []
        if "conflicts" not in moves:
            assert new["conflicts"] == []
        every = sorted(old.keys() | new.keys())
        changed = {name for name in every if old.get(name) != new.get(name)}
        return (
            [name for name in _named(moves, every) if name not in changed],
            [name for name in _named(stays, every) if name in changed],
        )

    return compare


def _named(patterns: str, names: Iterable[str]) -> list[str]:
    found = []
    for pattern in patterns.split(";"):
        matching = [name for name in names if fnmatchcase(name, pattern.strip())]
        assert matching, f"no quantity is called {pattern.strip()!r}"
        found += matching
    return found


# A row of a table of keys: the new value, what must move, what must stay; then keys set before,
# and along with it.
Row = tuple[object, str, str, Mapping[str, object], Mapping[str, object]]


@pytest.fixture(scope="session")
def row_held(
    with_keys: Callable[[Any, Mapping[str, object]], Any],
    compared: Callable[..., tuple[list[str], list[str]]],
) -> Callable[[Family, str, Row], None]:
    """Asserts one row: the key moves what it should and leaves alone what it has no say in."""

    def held(family: Family, key: str, row: Row) -> None:
        value, moves, stays, base, along = row
        before = with_keys(family.record(name="Trial"), base)
        after = with_keys(before, {key: value, **along})
        unmoved, moved = compared(family, before, after, moves, stays)
        assert (unmoved, moved) == ([], [])

    return held
