from __future__ import annotations

import pytest

from flatpack.profile_files import profile_texts
from flatpack.profiles import Profiles, load


@pytest.fixture(scope="session")
def shipped() -> Profiles:
    return load(profile_texts())
