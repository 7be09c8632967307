"""Variants from a TOML with a list of values per key: all combinations, less those shut out.

    base = "lounger.toml"                     # a parameter file beside this one
    name = "{size.length}-{boards.timber}"    # may be left out

    [vary]
    size.length = [1800, 1900, 2000]
    boards.timber = ["larch-27", "pine-28"]

    [[without]]                               # shut out: all of a block's keys have such values
    size.length = 2000
    boards.timber = ["pine-28"]

Combinations come in the order of the keys, the last one quickest.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from itertools import product
from typing import Any

from flatpack.batch.cells import copied, put
from flatpack.batch.keys import refuse_unknown, said, spec_of
from flatpack.batch.toml_text import toml_text
from flatpack.batch.variants import Variant
from flatpack.errors import Fault, ParameterErrors
from flatpack.parameters import Spec, nearest, quoted
from flatpack.parameters.parsing import parsed
from flatpack.profile_files import read_text

_KEYS = ("base", "name", "vary", "without")
_SLOT = re.compile(r"\{([^{}]*)\}")
_UNFIT = re.compile(r"[^\w.,+()\[\]°%&=@ -]+")


class Combinations:
    """Every combination of the values listed, as a variant of the base file."""

    def __init__(self, path: str) -> None:
        """Read the table and its base.

        Raises:
            ReadError: either can't be read.
            ParameterErrors: what the table may not hold, all of it.
        """
        self.path = path
        raw = parsed(read_text(path).removeprefix("\ufeff"), path)
        faults = list(_shape_faults(raw, path))
        if faults:
            raise ParameterErrors(tuple(faults))
        base = os.path.join(os.path.dirname(path), raw["base"])
        self._base = parsed(read_text(base).removeprefix("\ufeff"), base)
        family = self._base.get("family")
        self._lists = dict(_leaves(raw["vary"], "", family))
        self._without = [dict(_leaves(block, "", family)) for block in raw.get("without", ())]
        refuse_unknown(self._lists, path, ())
        faults = list(_list_faults(self._lists, self._without, path, family))
        if faults:
            raise ParameterErrors(tuple(faults))
        self._pattern = raw.get("name", _pattern(base, self._lists))
        faults = list(_slot_faults(self._pattern, self._lists, path))
        if faults:
            raise ParameterErrors(tuple(faults))

    def count(self) -> int:
        """How many combinations there are, less those shut out."""
        if self._without:
            return sum(1 for _ in self._chosen())
        total = 1
        for values in self._lists.values():
            total *= len(values)
        return total

    def __iter__(self) -> Iterator[Variant]:
        """The combinations in order."""
        named = "name" in self._lists
        for chosen in self._chosen():
            values = copied(self._base)
            name = _SLOT.sub(lambda m: _shown(chosen[m[1]]), self._pattern)  # noqa: B023  # used at once
            place = f"{self.path} ({name})"
            if not all(put(values, path, value) for path, value in chosen.items()):
                yield Variant(name, "", place, problem="a key lies in what the base has as a value")
                continue
            if not named and values.get("name"):
                values["name"] = f"{values['name']} {name}"
            yield Variant(name, toml_text(values), place)

    def _chosen(self) -> Iterator[dict[str, Any]]:
        for values in product(*self._lists.values()):
            chosen = dict(zip(self._lists, values, strict=True))
            if not any(_matches(block, chosen) for block in self._without):
                yield chosen


def _matches(block: Mapping[str, Any], chosen: Mapping[str, Any]) -> bool:
    return all(_is(chosen[path], value) or (
        isinstance(value, list) and any(_is(chosen[path], v) for v in value)
    ) for path, value in block.items())  # fmt: skip


def _is(a: Any, b: Any) -> bool:
    # true isn't 1
    return a == b and isinstance(a, bool) == isinstance(b, bool)


def _leaves(table: Mapping[str, Any], before: str, family: object) -> Iterator[tuple[str, Any]]:
    for key, value in table.items():
        path = before + key
        if isinstance(value, dict) and spec_of(family, path) is None:
            yield from _leaves(value, f"{path}.", family)
        else:
            yield path, value


def _shape_faults(raw: Mapping[str, Any], path: str) -> Iterator[Fault]:
    for key in raw:
        if key not in _KEYS:
            yield Fault(path, 0, key, "", ", ".join(_KEYS), nearest(key, _KEYS), "unknown key")
    if not isinstance(raw.get("base"), str):
        yield Fault(path, 0, "base", "", 'text such as "lounger.toml"', "",
                    "the parameter file to start from is missing")  # fmt: skip
    if not isinstance(raw.get("vary"), dict) or not raw["vary"]:
        yield Fault(path, 0, "vary", "", "a table with a list of values per key", "", "missing")
    if not isinstance(raw.get("name", ""), str):
        yield Fault(path, 0, "name", "", "text", "", "text is needed")
    blocks = raw.get("without", [])
    if not isinstance(blocks, list) or not all(isinstance(b, dict) and b for b in blocks):
        yield Fault(path, 0, "without", "", "blocks [[without]] with keys", "", "of no use")


def _list_faults(
    lists: Mapping[str, Any], without: list[dict[str, Any]], path: str, family: object
) -> Iterator[Fault]:
    for key, values in lists.items():
        spec = spec_of(family, key)
        several: Spec | None = spec if spec is not None and spec.many else None
        if not isinstance(values, list) or not values:
            yield Fault(path, 0, f"vary.{key}", "", "a list of values", "", "a list is needed")
        elif several and not all(isinstance(value, list) for value in values):
            yield Fault(path, 0, f"vary.{key}", "", "[[20, 40], [25, 45]]", "",
                        "this key holds a list, so a list of lists is needed")  # fmt: skip
        elif any(_is(a, b) for i, a in enumerate(values) for b in values[:i]):
            yield Fault(path, 0, f"vary.{key}", "", "each value once", "", "a value stands twice")
    for block in without:
        for key in block:
            if key not in lists:
                like = nearest(key, list(lists))
                yield Fault(path, 0, f"without.{key}", "", "", like, "this key isn't varied")


def _slot_faults(pattern: str, lists: Mapping[str, Any], path: str) -> Iterator[Fault]:
    for slot in _SLOT.findall(pattern):
        if slot not in lists:
            like = nearest(slot, list(lists))
            yield Fault(path, 0, "name", quoted(pattern), "", like, f"{said(slot)} isn't varied")


def _pattern(base: str, lists: Mapping[str, Any]) -> str:
    """Name of the base, then every value that there is a choice of."""
    stem = os.path.splitext(os.path.basename(base))[0].replace("{", "(").replace("}", ")")
    return "_".join([stem, *(f"{{{key}}}" for key, values in lists.items() if len(values) > 1)])


def _shown(value: Any) -> str:
    """A value as a part of a folder's name."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return "-".join(map(_shown, value))
    if isinstance(value, dict):
        return "-".join(map(_shown, value.values()))
    return _UNFIT.sub("-", str(value))
