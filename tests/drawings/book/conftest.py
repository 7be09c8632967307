from __future__ import annotations

from functools import cache

import pytest

from flatpack import checks
from flatpack.drawings.book import BookSettings
from flatpack.drawings.settings import Settings
from flatpack.finding import in_order
from flatpack.mechanism.study import study
from flatpack.model import posed
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load


@cache
def built(family: str):
    profiles = load(profile_texts())
    return PIECES[family].build(PIECES[family].record(), profiles)


@cache
def studied(family: str):
    return study(built(family))


@cache
def found(family: str):
    return in_order(checks.run(built(family)))


def settings_for(family: str, **more: object) -> BookSettings:
    profiles = load(profile_texts())
    made, piece = studied(family), built(family)
    poses = {}
    if made is not None:
        top = made.found.stops[-1]
        poses = {"flat": piece, "raised": posed(piece, top.angle, top.rod)}
    drawing = Settings(workshop=profiles.workshop("default"), code="QRST-1234", poses=poses,
                       faulty=bool(more.pop("faulty", False)))  # fmt: skip
    given = {
        "glue": profiles.get("glues", "pu-d4"),
        "finish": profiles.get("finishes", "stain"),
        "sealer": profiles.get("finishes", "sealer"),
        **more,
    }
    return BookSettings(drawing=drawing, **given)


@pytest.fixture(params=["lounger", "bench"])
def family(request: pytest.FixtureRequest) -> str:
    return str(request.param)
