"""The example pieces, to be broken on purpose."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from flatpack.model import Assembly
from flatpack.parameters import read_design, replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts, read_text
from flatpack.profiles import Profiles, load

FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"
Keys = Mapping[str, object]


@pytest.fixture(scope="session")
def profiles() -> Profiles:
    return load(profile_texts())


@pytest.fixture(scope="session")
def record_of(profiles: Profiles) -> Callable[..., tuple[str, Any]]:
    """Family and record of an example, with some dotted keys set."""

    @cache
    def read(name: str) -> tuple[str, Any]:
        records = {family: PIECES[family].record for family in PIECES}
        text = read_text(str(FOLDER / f"{name}.toml"))
        return read_design(records, text, name, known=profiles.known)

    def made(name: str, keys: Keys | None = None) -> tuple[str, Any]:
        family, record = read(name)
        for path, value in (keys or {}).items():
            table, _, key = path.rpartition(".")
            record = replace(record, **{table: replace(getattr(record, table), **{key: value})})
        return family, record

    return made


@pytest.fixture(scope="session")
def piece(profiles: Profiles, record_of: Callable[..., tuple[str, Any]]) -> Callable[..., Assembly]:
    """An example as built, with some dotted keys set."""

    def made(name: str, keys: Keys | None = None) -> Assembly:
        family, record = record_of(name, keys)
        assert list(PIECES[family].conflicts(record, profiles)) == []
        return PIECES[family].build(record, profiles)

    return made
