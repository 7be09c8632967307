"""Bevels of any slant on any side yield findings and drawings, never a traceback."""

from __future__ import annotations

import random

import pytest

from flatpack.checks import run
from flatpack.drawings.registry import DRAWINGS, drawings
from flatpack.drawings.settings import Settings
from flatpack.features import Hole, Slant, bevels
from flatpack.geometry import Frame, Outline, Point, Vec, X, Y, Z, closed
from flatpack.geometry.shapes import filleted, rectangle
from flatpack.model import Assembly, Face, Feature, Part, corners, saw_cuts, volume
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
BOARD = PROFILES.board("ply-18")
SLANTS = (0.01, 3.0, 30.0, 60.0, 85.0, 89.99)
FACES: tuple[Face, ...] = ("show", "back")


def _outline(rng: random.Random) -> Outline:
    long, wide, lean = rng.uniform(60, 160), rng.uniform(40, 90), rng.uniform(-15, 15)
    return rng.choice(
        (
            rectangle(long, wide),
            closed(((0, 0, 0), (long, 0, 0), (long + lean, wide, 0), (lean / 2, wide, 0))),
            closed(((0, 0, 0), (long, 0, 0), (long / 2, wide / 3, 0), (0, wide, 0))),
            filleted(((0, 0, 0), (long, 0, 0), (long, wide, 12), (0, wide, 8))),
        )
    )


def _part(rng: random.Random, key: str) -> Part:
    outline = _outline(rng)
    wanted = [
        Slant(s.start, s.end, rng.choice(SLANTS), rng.choice(FACES))
        for s in outline
        if s.bulge == 0.0 and rng.random() < 0.6
    ]
    x0, y0, x1, y1 = outline.bounds
    at = Point(rng.uniform(x0, x1), rng.uniform(y0, y1))
    hole = Hole(at=at, diameter=5.0, depth=rng.choice((None, 4.0)), face=rng.choice(FACES))
    features: tuple[Feature, ...] = (*bevels(outline, BOARD.thickness, wanted), hole)
    x = Vec(rng.gauss(0, 1), rng.gauss(0, 1), rng.gauss(0, 1)).unit()
    y = x.cross(rng.choice((X, Y, Z))).unit()
    origin = Vec(*(rng.uniform(-25.0, 25.0) for _ in range(3)))
    return Part(
        key=key, name=key, board=BOARD, outline=outline, features=features,
        frame=Frame(origin, x, y, x.cross(y)),
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(40))
def test_any_bevels_are_judged_and_drawn(seed: int) -> None:
    rng = random.Random(seed)
    parts = {key: _part(rng, key) for key in ("a", "b")}
    piece = Assembly(family="test", name="any", parts=parts, mates=(("a", "b"),), machined=True)
    found = run(piece)
    assert all(f.message for f in found)
    for part in parts.values():
        whole = abs(part.outline.area) * part.thickness
        assert -1e-6 <= volume(part) <= whole + 1e-6
        assert corners(part)
        assert len(saw_cuts(part)) >= len(part.planes)
    if seed % 8 == 0:
        settings = Settings(workshop=PROFILES.workshop("default"), code="7K3M-9QXA")
        assert drawings(piece, settings, DRAWINGS)
