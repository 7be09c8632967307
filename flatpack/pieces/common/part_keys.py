"""A generator's keys for a file in which lengths may name one another.

The plain record says what a shape needs; here each of its lengths becomes one that may be a name,
and length and width may be left out where the part's places give them.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from flatpack.parameters import UNSET, Spec, Sum, record, specs_of

DERIVED = ("length", "width")


def with_names(cls: Any, shared: Mapping[str, Spec], *, derived: bool) -> Any:
    """A record with the keys of `shared` and of a generator's record, its lengths nameable.

    With `derived` length and width may be left out.
    """
    own = {name: _nameable(name, spec, derived) for name, spec in specs_of(cls).items()}
    return record(type(cls.__name__, (), {"__doc__": cls.__doc__, **own, **shared}))


def _nameable(name: str, spec: Spec, derived: bool) -> Spec:
    if spec.kind != "length":
        return spec
    default = spec.default
    if default is UNSET and derived and name in DERIVED:
        default = None
    elif isinstance(default, tuple):
        default = tuple(map(Sum, default))
    elif isinstance(default, float):
        default = Sum(default)
    does = f"{spec.does}; left out: from its places" if default is None else spec.does
    return spec._replace(kind="total", default=default, does=does)
