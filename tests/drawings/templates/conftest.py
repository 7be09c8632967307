"""The two families as they come, and a part made by hand."""

from __future__ import annotations

import pytest

from flatpack.model import Assembly
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import Profiles, load


@pytest.fixture(scope="session")
def profiles() -> Profiles:
    return load(profile_texts())


def piece(family: str, profiles: Profiles) -> Assembly:
    made: Assembly = PIECES[family].build(PIECES[family].record(), profiles)
    return made


@pytest.fixture(scope="session")
def lounger(profiles: Profiles) -> Assembly:
    return piece("lounger", profiles)


@pytest.fixture(scope="session")
def bench(profiles: Profiles) -> Assembly:
    return piece("bench", profiles)
