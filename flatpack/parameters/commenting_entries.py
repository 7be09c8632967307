"""Commented file: tables of named entries, and entries of several kinds.

What the defaults hold is written out with the keys that are set; below it stands, commented, every
key of every kind; many that all kinds share are written out once, and named with each.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from flatpack.parameters.commenting import body, prose, set_keys, toml_value
from flatpack.parameters.own_names import Named
from flatpack.parameters.records import record, specs_of
from flatpack.parameters.specs import UNSET, Spec

FEW = 4
"""No more keys than these are written out with every kind, though all kinds share them."""


def entries(spec: Spec, value: Any, path: str, mark: str) -> Iterator[str]:
    """The lines of one such key."""
    yield ""
    yield from prose(spec.does)
    if spec.kinds is None and spec.record is None:
        yield from _values(spec, value, path, mark)
        return
    for entry in value:
        yield ""
        yield from _entry(spec, entry, path)
    yield from _kinds(spec, path) if spec.kinds else _kind(spec, spec.record, path, "")


def _values(spec: Spec, value: tuple[Named, ...], path: str, mark: str) -> Iterator[str]:
    """Named values that are no tables themselves."""
    from flatpack.parameters.commenting import sample

    yield f"{mark}[{path}]"
    for name, entry in value:
        yield f"{mark}{name} = {toml_value(entry)}"
    if not value:
        yield f"#name-of-your-own = {toml_value(sample(spec))}"


def _entry(spec: Spec, entry: Any, path: str) -> Iterator[str]:
    made = entry
    if spec.named:
        yield f"[{path}.{entry.name}]"
        made = entry.value
    else:
        yield f"[[{path}]]"
    if spec.kinds:
        yield f"{spec.pick} = {json.dumps(made.kind)}"
        made = made.made
    yield from set_keys(made)


def _kinds(spec: Spec, path: str) -> Iterator[str]:
    """Every kind with its own keys; those that all share stand with the first."""
    every = list(spec.kinds.values())
    first = next(iter(spec.kinds))
    found = [k for k in specs_of(every[0]) if all(k in specs_of(one) for one in every)]
    shared = found if len(found) > FEW else []
    for number, (kind, cls) in enumerate(spec.kinds.items()):
        own = {k: s for k, s in specs_of(cls).items() if not number or k not in shared}
        also = f" Beside these it takes what {first} takes as well: {', '.join(shared)}."
        words = f"{cls.__doc__ or ''}{also if number and shared else ''}"
        told: Any = record(type(cls.__name__, (), {"__doc__": words, **own}))
        yield from _kind(spec, told, path, kind)


def _kind(spec: Spec, cls: Any, path: str, kind: str) -> Iterator[str]:
    yield ""
    yield from prose(cls.__doc__ or "")
    yield f"#[{path}.name]" if spec.named else f"#[[{path}]]"
    if kind:
        yield f"#{spec.pick} = {json.dumps(kind)}"
    yield from body(cls, UNSET, f"{path}.name." if spec.named else f"{path}.", "#")
