"""Entries of a table of named tables that begin as another one: `like = "front-leg"`.

What an entry says itself counts.  Keys may hang `together`: two ends and, last, the middle between
them.  Where the model says one of a group, any other that the entry says takes its place; where
it says two, the entry changes only the end that it says, or with the middle both.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from flatpack.parameters import describing

KEY = "like"


class Wrong(NamedTuple):
    """A `like` that leads nowhere: the entry, what it says, what it may say, what is wrong.

    No message: what is wrong stands with the entry that it begins as.
    """

    entry: str
    value: Any
    allowed: str
    message: str


def inherited(
    raw: Mapping[str, Any], together: tuple[tuple[str, ...], ...], wrong: list[Wrong]
) -> dict[str, Any]:
    """The entries with what they take over; those that can't are left as they are."""
    return {name: _whole(name, raw, together, wrong) for name in raw}


def _whole(
    name: str, raw: Mapping[str, Any], together: tuple[tuple[str, ...], ...], wrong: list[Wrong]
) -> Any:
    chain, at = [name], raw[name]
    while isinstance(at, dict) and KEY in at:
        model = at[KEY]
        if not isinstance(model, str) or model not in raw or model in chain:
            own = len(chain) == 1 or model == name
            others = describing.words(sorted(k for k in raw if not _leads_to(raw, k, name)))
            message = "leads back to itself" if model in chain else "there is no such entry"
            wrong.append(Wrong(name, raw[name][KEY], others, message if own else ""))
            break
        chain.append(model)
        at = raw[model]
    if not all(isinstance(raw[one], dict) for one in chain):
        return raw[name]
    made: dict[str, Any] = {}
    for one in reversed(chain):
        made = _over(made, raw[one], together)
    return made


def _leads_to(raw: Mapping[str, Any], start: str, name: str) -> bool:
    """Whether an entry is another one, or begins as one that leads to it."""
    seen: set[str] = set()
    while start != name:
        entry = raw.get(start)
        seen.add(start)
        start = entry.get(KEY, "") if isinstance(entry, dict) else ""
        if not isinstance(start, str) or start in seen or not start:
            return False
    return True


def _over(
    base: dict[str, Any], own: dict[str, Any], together: tuple[tuple[str, ...], ...]
) -> dict[str, Any]:
    gone = {key for group in together for key in _given_up(base, own, group)}
    kept = {key: value for key, value in base.items() if key not in gone}
    return {**kept, **{key: value for key, value in own.items() if key != KEY}}


def _given_up(base: Mapping[str, Any], own: Mapping[str, Any], group: tuple[str, ...]) -> set[str]:
    """Keys of a group that an entry doesn't take over, because it says others of it."""
    said, before = own.keys() & set(group), base.keys() & set(group)
    if not said:
        return set()
    return before if len(before) == 1 or group[-1] in said else before & said
