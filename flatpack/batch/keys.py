"""The keys that variants may set, of every family, with what is wrong when one isn't."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

from flatpack.errors import Fault, ParameterErrors
from flatpack.parameters import Spec, fields_of, nearest, quoted
from flatpack.pieces import PIECES


@cache
def specs(family: str) -> Mapping[str, Spec]:
    """Dotted key -> spec of all keys of a family that hold one value or a plain list."""
    rows = fields_of(PIECES[family].record)
    return MappingProxyType({f.path: f.spec for f in rows if not (f.spec.record or f.spec.kinds)})


def spec_of(family: object, path: str) -> Spec | None:
    """The spec of a key; a note or named value has the key of its table in front.

    None: no such key.
    """
    known = specs(family) if isinstance(family, str) and family in PIECES else {}
    found = known.get(path)
    if found is None:
        table = known.get(path.rpartition(".")[0])
        if table is not None and table.named:
            return table._replace(named=False)
        return table._replace(kind="text") if table is not None and table.kind == "notes" else None
    return None if found.kind == "notes" or found.named else found


def refuse_unknown(paths: Iterable[str], place: str, own: tuple[str, ...]) -> None:
    """Nothing, when each key is known to some family.

    Raises:
        ParameterErrors: those that aren't, with the nearest that is.
    """
    names = [*own, *dict.fromkeys(path for family in PIECES.sound() for path in specs(family))]
    faults = tuple(
        Fault(place, 0, path, "", "", nearest(path, names), "no family has such a key")
        for path in paths
        if path not in own and not any(spec_of(family, path) for family in PIECES.sound())
    )
    if faults:
        raise ParameterErrors(faults)


def said(path: str) -> str:
    """A key for a message, shortened and safe."""
    return quoted(path)
