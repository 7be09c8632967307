from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from flatpack.model import Assembly
from flatpack.parameters import replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import Profiles, load
from flatpack.strength import Report, report


@pytest.fixture(scope="session")
def profiles() -> Profiles:
    return load(profile_texts())


def changed(record: Any, values: Mapping[str, Any]) -> Any:
    """A record with some dotted keys changed."""
    for path, value in values.items():
        group, _, key = path.partition(".")
        if key:
            record = replace(record, **{group: replace(getattr(record, group), **{key: value})})
        else:
            record = replace(record, **{group: value})
    return record


class Made:
    """A family built with some keys changed, and its report."""

    def __init__(self, family: str, profiles: Profiles, **values: Any) -> None:
        self.family = PIECES[family]
        self.profiles = profiles
        self.record = changed(self.family.record(), {k.replace("__", "."): v
                                                     for k, v in values.items()})  # fmt: skip
        self.assembly: Assembly = self.family.build(self.record, profiles)

    def report(self, assembly: Assembly | None = None, **more: Any) -> Report:
        return report(assembly or self.assembly, self.record, self.profiles, **more)

    def rebuild(self, values: Mapping[str, Any]) -> Assembly | None:
        record = changed(self.record, values)
        if list(self.family.conflicts(record, self.profiles)):
            return None
        return self.family.build(record, self.profiles)


@pytest.fixture(scope="session")
def lounger(profiles: Profiles) -> Made:
    return Made("lounger", profiles)


@pytest.fixture(scope="session")
def bench(profiles: Profiles) -> Made:
    return Made("bench", profiles)
