"""TOML text to a record, with every fault at once.

    text -> tomllib -> plain dict -> walk beside the record's specs -> record, or faults
                                                  then the family's own check -> conflicts -> faults

Lines are looked up only when there is a fault to place.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from flatpack.errors import Fault, FaultsError, ParameterErrors
from flatpack.parameters import describing, inheriting
from flatpack.parameters.own_names import Chosen, Named
from flatpack.parameters.parsing import parsed
from flatpack.parameters.records import fields_of, specs_of
from flatpack.parameters.specs import UNSET, Spec
from flatpack.parameters.sums import NAME
from flatpack.parameters.values import READERS, Known, NotAllowedError, nearest

Path = tuple[str | int, ...]


class Conflict(NamedTuple):
    """Values that don't go together: `key` is a dotted path such as "back.length".

    `value` is what stands there, `allowed` what would do and why; `message` says what is wrong.
    """

    key: str
    value: object
    allowed: str
    message: str = "does not fit the other values"
    nearest: str = ""


class Design(NamedTuple):
    """A parameter file as read: the family's name and its record."""

    family: str
    record: Any


# Path, value found, what is allowed, nearest, message: a fault that has no line yet.
_Misfit = tuple[Path, str, str, str, str]
Check = Callable[[Any], Iterable[Conflict]]


def read(
    families: Mapping[str, Any],
    source: str,
    file: str,
    *,
    known: Known | None = None,
    checks: Mapping[str, Check] | None = None,
) -> Any:
    """The record of a parameter file; its `family` key picks the class.

    `known` gives the names of the profiles by kind (`{"boards": [...]}`), `checks` each family's
    function that yields what doesn't go together.

    Raises:
        ReadError: the text isn't TOML.
        ParameterErrors: values that aren't allowed, all of them.
    """
    return read_design(families, source, file, known=known, checks=checks).record


def read_design(
    families: Mapping[str, Any],
    source: str,
    file: str,
    *,
    known: Known | None = None,
    checks: Mapping[str, Check] | None = None,
) -> Design:
    """As `read`, with the family's name."""
    source = source.removeprefix("\ufeff")
    raw = parsed(source, file)
    misfits: list[_Misfit] = []
    family = _family(raw.pop("family", UNSET), families, misfits)
    if misfits:
        raise _placed(misfits, source, file, ParameterErrors)
    record = _table(families[family], raw, (), known or {}, misfits, ("family",))
    check = (checks or {}).get(family)
    if check is not None and not misfits:
        misfits.extend(_conflict(c) for c in check(record))
    if misfits:
        raise _placed(misfits, source, file, ParameterErrors)
    return Design(family, record)


def read_record(
    cls: Any,
    source: str,
    file: str,
    *,
    known: Known | None = None,
    error: type[FaultsError] = ParameterErrors,
    given: Mapping[str, Any] | None = None,
    check: Check | None = None,
) -> Any:
    """A record from a text that holds nothing else.

    `given` are values that the caller knows and the text may not state, such as a profile's key;
    `check` yields what doesn't go together.

    Raises:
        ReadError: the text isn't TOML.
        FaultsError: of the type `error`: values that aren't allowed, all of them.
    """
    source = source.removeprefix("\ufeff")
    misfits: list[_Misfit] = []
    raw = parsed(source, file)
    for key in (given or {}).keys() & raw.keys():
        value = describing.shown(raw[key])
        misfits.append(((key,), value, "", "", "unknown key: it follows from the file's name"))
    record = _table(cls, {**raw, **(given or {})}, (), known or {}, misfits)
    if check is not None and not misfits:
        misfits.extend(_conflict(c) for c in check(record))
    if misfits:
        raise _placed(misfits, source, file, error)
    return record


def _family(raw: Any, families: Mapping[str, Any], misfits: list[_Misfit]) -> str:
    allowed = describing.words(families)
    if raw is UNSET:
        misfits.append((("family",), "", allowed, "", "missing: which piece is this?"))
    elif not isinstance(raw, str):
        misfits.append((("family",), describing.shown(raw), allowed, "", "text is needed"))
    elif raw not in families:
        found, like = describing.shown(raw), nearest(raw, list(families))
        misfits.append((("family",), found, allowed, like, "no such family"))
    return raw if isinstance(raw, str) else ""


def _table(
    cls: Any,
    raw: dict[str, Any],
    path: Path,
    known: Known,
    misfits: list[_Misfit],
    also: tuple[str, ...] = (),
) -> Any:
    specs = specs_of(cls)
    values: dict[str, Any] = {}
    before = len(misfits)
    for key, entry in raw.items():
        if key in specs:
            values[key] = _value(specs[key], entry, (*path, key), known, misfits)
        else:
            misfits.append(_unknown(cls, key, entry, path, also))
    for key, spec in specs.items():
        if key in raw:
            continue
        if spec.default is UNSET or spec.left_out == "must":
            misfits.append(((*path, key), "", describing.allowed(spec), "", "missing"))
        elif spec.left_out == "none":
            values[key] = ()
    return cls(**values) if len(misfits) == before else None


def _unknown(cls: Any, key: str, raw: Any, path: Path, also: tuple[str, ...]) -> _Misfit:
    names = [*also, *specs_of(cls)]
    # The right key in the wrong table is likelier than a slip of the pen.
    elsewhere = [f.path for f in fields_of(cls) if f.path.endswith("." + key)]
    like = describing.quoted(elsewhere[0]) if elsewhere else nearest(key, names)
    allowed = describing.words(names, most=len(names))
    return ((*path, key), describing.shown(raw), allowed, like, "unknown key")


def _value(spec: Spec, raw: Any, path: Path, known: Known, misfits: list[_Misfit]) -> Any:
    if spec.named:
        return _named(spec, raw, path, known, misfits)
    if not spec.many:
        return _single(spec, raw, path, known, misfits)
    if spec.lone and not isinstance(raw, (list, dict)):
        raw = [raw]
    if not isinstance(raw, list):
        message = "an array is needed, in square brackets"
        limits = f"{describing.entries(spec)}, each {describing.allowed(spec)}"
        misfits.append((path, describing.shown(raw), limits, "", message))
        return ()
    if not spec.fewest <= len(raw) <= spec.most_count:
        message = "too few entries" if len(raw) < spec.fewest else "too many entries"
        limits = describing.entries(spec)
        misfits.append((path, describing.shown(raw), limits, "", message))
    return tuple(_single(spec, r, (*path, i), known, misfits) for i, r in enumerate(raw))


def _named(spec: Spec, raw: Any, path: Path, known: Known, misfits: list[_Misfit]) -> Any:
    import re

    if not isinstance(raw, dict):
        misfits.append((path, describing.shown(raw), describing.allowed(spec), "", "no table"))
        return ()
    for name in raw:
        if not re.fullmatch(NAME, name):
            allowed = "small letters, digits and hyphens, a letter first"
            misfits.append(((*path, name), "", allowed, "", "not a name"))
    wrong: list[inheriting.Wrong] = []
    whole = inheriting.inherited(raw, spec.together, wrong) if spec.kinds else raw
    for entry, value, allowed, message in (row for row in wrong if row.message):
        slip = isinstance(value, str) and value not in raw
        likely = [k for k in raw if slip and k != entry]
        like, shown = nearest(str(value), likely), describing.shown(value)
        misfits.append(((*path, entry, inheriting.KEY), shown, allowed, like, message))
    wrong_ones, spec = {row.entry for row in wrong}, spec._replace(named=False)
    return tuple(
        Named(name, _single(spec, entry, (*path, name), known, misfits))
        for name, entry in whole.items()
        if name not in wrong_ones
    )


def _single(spec: Spec, raw: Any, path: Path, known: Known, misfits: list[_Misfit]) -> Any:
    if spec.kind in ("table", "kinds"):
        if isinstance(raw, dict):
            if spec.kind == "kinds":
                return _chosen(spec, raw, path, known, misfits)
            return _table(spec.record, raw, path, known, misfits)
        shown = describing.shown(raw)
        misfits.append((path, shown, describing.allowed(spec), "", "a table is needed"))
        return None
    try:
        return READERS[spec.kind](raw, spec, known)
    except NotAllowedError as wrong:
        found = raw
        for step in wrong.at:
            found = found[step]
        value = describing.shown(found)
        where = (*path, *wrong.at)
        misfits.append((where, value, wrong.allowed, wrong.nearest, wrong.message))
        return None


def _chosen(
    spec: Spec, raw: dict[str, Any], path: Path, known: Known, misfits: list[_Misfit]
) -> Any:
    word, allowed = raw.get(spec.pick, UNSET), describing.words(spec.kinds)
    where = (*path, spec.pick)
    if word is UNSET:
        misfits.append((where, "", allowed, "", "missing"))
    elif not isinstance(word, str) or word not in spec.kinds:
        like = nearest(word, list(spec.kinds)) if isinstance(word, str) else ""
        misfits.append((where, describing.shown(word), allowed, like, f"no such {spec.pick}"))
    else:
        rest = {key: value for key, value in raw.items() if key != spec.pick}
        also = (spec.pick,) if spec.many else (spec.pick, inheriting.KEY)
        return Chosen(word, _table(spec.kinds[word], rest, path, known, misfits, also))
    return None


def _conflict(conflict: Conflict) -> _Misfit:
    value = conflict.value
    found = "" if value is None else value if isinstance(value, str) else describing.shown(value)
    return (_steps(conflict.key), found, conflict.allowed, conflict.nearest, conflict.message)


def _steps(key: str) -> Path:
    # "stops[1].angle" -> ("stops", 1, "angle")
    parts = key.replace("[", ".").replace("]", "").split(".")
    return tuple(int(p) if p.isdecimal() else p for p in parts)


def _placed(
    misfits: list[_Misfit], source: str, file: str, error: type[FaultsError]
) -> FaultsError:
    from flatpack.parameters.locating import line_of, lines

    places = lines(source)
    faults = [Fault(file, line_of(path, places), _dotted(path), *rest) for path, *rest in misfits]
    return error(tuple(sorted(faults, key=lambda fault: fault.line)))


def _dotted(path: Path) -> str:
    out = ""
    for step in path:
        name = f"[{step}]" if isinstance(step, int) else _bare(step)
        out += name if isinstance(step, int) or not out else f".{name}"
    return out


def _bare(name: str) -> str:
    plain = name.replace("-", "").replace("_", "")
    return name if plain.isascii() and plain.isalnum() else describing.quoted(name)
