"""The commented parameter file that a maker starts from: every key, unit, default and effect.

Prose comments start with "# ", keys that are left to be derived with "#" and no space, so that
taking away the "#" sets them.
"""

from __future__ import annotations

import json
import re
import textwrap
from collections.abc import Iterator
from typing import Any

from flatpack.parameters import describing
from flatpack.parameters.records import specs_of
from flatpack.parameters.specs import UNSET, BoardChoice, Spec
from flatpack.parameters.sums import Sum

_WIDTH = 92
_WHOLE = re.compile(r'"[^"]*"|\{[^}]*\}|\[[^]]*\]')
_HEAD = (
    'Lengths are mm as a number, or text with a unit: 18, "18 mm", "1.8 cm", "3/4 in", '
    '"1 1/2 in", "2 ft 6 in". A line that starts with # and a key is left for flatpack to '
    "derive; take the # away to set it. `flatpack list` tells the names of boards, hardware and "
    "workshops. Angles are degrees."
)


def template(cls: Any, family: str) -> str:
    """A commented parameter file; it reads back to exactly the defaults of `cls`."""
    lines = [
        *prose(cls.__doc__ or ""),
        "#",
        *prose(_HEAD),
        "",
        f"family = {json.dumps(family)}",
        *body(cls, cls(), ""),
    ]
    return "\n".join(lines) + "\n"


def toml_value(value: Any) -> str:
    """A checked value as TOML."""
    if isinstance(value, BoardChoice):
        profile, measured = map(toml_value, value)
        known = value.measured is not None
        return f"{{ profile = {profile}, measured = {measured} }}" if known else profile
    if isinstance(value, Sum):
        value = value.written() if value.plain is None else value.plain
    if hasattr(value, "record_specs"):
        return f"{{ {', '.join(set_keys(value))} }}"
    if isinstance(value, tuple):
        return f"[{', '.join(map(toml_value, value))}]"
    if isinstance(value, float):
        return describing.plain(value)
    return json.dumps(value, ensure_ascii=False)


def prose(text: str) -> list[str]:
    """Text as comment lines."""
    # What stands in quotation marks or brackets isn't broken at the end of a line.
    whole = _WHOLE.sub(lambda m: m.group().replace(" ", "\0"), " ".join(text.split()))
    return ["# " + row.replace("\0", " ") for row in textwrap.wrap(whole, _WIDTH)]


def body(cls: Any, made: Any, path: str, mark: str = "") -> Iterator[str]:
    """Keys of a record, each below its comment, then its tables; `mark` goes before each key."""
    specs = specs_of(cls)
    for name, spec in specs.items():
        if not _is_table(spec):
            yield ""
            yield from _key(name, spec, getattr(made, name, spec.default), mark)
    for name, spec in specs.items():
        if _is_table(spec):
            value = getattr(made, name, spec.default)
            if spec.named or spec.kinds:
                from flatpack.parameters.commenting_entries import entries

                yield from entries(spec, value, f"{path}{name}", mark)
            else:
                yield from _tables(spec, value, f"{path}{name}", mark)


def _is_table(spec: Spec) -> bool:
    return spec.record is not None or spec.named or spec.kinds is not None


def set_keys(made: Any) -> Iterator[str]:
    """The keys of a record that aren't at their defaults, as lines."""
    for name, spec in specs_of(made).items():
        if (value := getattr(made, name)) != spec.default:
            yield f"{name} = {toml_value(value)}"


def _key(name: str, spec: Spec, value: Any, mark: str) -> Iterator[str]:
    yield from prose(f"{spec.does[:1].upper()}{spec.does[1:].rstrip('.')} ({_limits(spec)}).")
    if value is None or value is UNSET:
        off = "#" if value is None else mark
        yield f"{off}{name} = {toml_value(sample(spec))}"
    else:
        yield f"{mark}{name} = {toml_value(value)}"


def _limits(spec: Spec) -> str:
    if spec.kind in ("length", "angle", "number"):
        limits = describing.bounds(spec)
    elif spec.kind in ("total", "place"):
        limits = f"{describing.bounds(spec)} or a name" if spec.kind == "total" else "a place"
    else:
        limits = describing.allowed(spec)
    if spec.many:
        limits = (
            f"{describing.entries(spec)}, each {limits}" if limits else describing.entries(spec)
        )
    return "; ".join(filter(None, (limits, _default(spec))))


def _default(spec: Spec) -> str:
    if spec.default is UNSET:
        return "needed"
    if spec.optional:
        return "derived when left out" if spec.kind in _DERIVED else "may be left out"
    return f"default {toml_value(spec.default)}"


_DERIVED = ("length", "angle", "number", "count")


def _tables(spec: Spec, value: Any, path: str, mark: str) -> Iterator[str]:
    yield ""
    yield from prose(" ".join(filter(None, (spec.record.__doc__, spec.does))))
    if not spec.many:
        yield f"{mark}[{path}]"
        yield from body(spec.record, value, f"{path}.", mark)
        return
    for entry in value or (UNSET,):
        off = mark if value else "#"
        yield f"{off}[[{path}]]"
        yield from body(spec.record, entry, f"{path}.", off)


def sample(spec: Spec) -> Any:
    """A value that a key may hold, for keys that have no default."""
    if spec.example is not None:
        return spec.example
    single = _SAMPLES.get(spec.kind, _middle)(spec)
    return (single,) * max(1, spec.fewest) if spec.many else single


def _middle(spec: Spec) -> Any:
    # Round where a round number lies in the range, so that a maker sees 32 and not 31.5.
    least, most = max(spec.least, -1000), min(spec.most, 1000)
    middle = round((least + most) / 2) if most - least >= 2 else (least + most) / 2
    return middle if spec.kind == "count" else float(middle)


_SAMPLES: dict[str, Any] = {
    "choice": lambda spec: spec.choices[0],
    "flag": lambda _: True,
    "text": lambda _: "text",
    "date": lambda _: "2030-05-01",
    "board": lambda _: BoardChoice("ply-18"),
    "item": lambda _: "name",
    "total": lambda _: 100.0,
    "place": lambda _: "leg.top",
    "pair": lambda spec: (_middle(spec), _middle(spec)),
}
