"""A brace that lies askew on two rails: its corners from the rails', by trigonometry.

The brace is 70 wide and 500 long, leans 50 degrees from upright to the right, and its middle lies
in the middle of the piece: each corner is half its length and half its width from there.
"""

from __future__ import annotations

import math
import re

import pytest

from flatpack import job
from flatpack.drawings.book.matter import matter
from flatpack.drawings.book.settings import BookSettings
from flatpack.drawings.book.steps import build_steps
from flatpack.drawings.book.work import work
from flatpack.drawings.settings import Settings
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

LEAN, LONG, WIDE, MIDDLE = 50.0, 500.0, 70.0, 250.0
SOURCE = """
family = "composed"
name = "Two braced rails"
[size]
width = 600
depth = 300
[boards]
timber = "larch-27"
[parts.low]
shape = "board"
title = "Low rail"
width = 95
runs = "right"
shows = "rear"
left = 0
right = 600
front = 0
bottom = 50
[parts.high]
like = "low"
title = "High rail"
bottom = 355
[parts.brace]
shape = "board"
width = 70
length = 500
runs = "up"
shows = "rear"
leans = 50
leans_to = "right"
mid_width = "piece.middle"
mid_height = 250
front = "low.rear"
[[joints]]
kind = "screws"
through = "brace"
into = "low"
height = [120]
width = [130]
[[joints]]
kind = "screws"
through = "brace"
into = "high"
height = [380]
width = [470]
"""
PLACE = re.compile(
    r"(?P<x>[\d.]+) mm (?P<past>past|from) its (?P<end>left|right) end and "
    r"(?P<y>[\d.]+) mm (?P<beyond>beyond|from) its (?P<edge>bottom|top) edge"
)


def corners() -> list[tuple[float, float]]:
    """Of the brace from the left and from the ground, mm."""
    a = math.radians(LEAN)
    along, across = (math.sin(a), math.cos(a)), (math.cos(a), -math.sin(a))
    return [
        (300.0 + s * LONG / 2 * along[0] + t * WIDE / 2 * across[0],
         MIDDLE + s * LONG / 2 * along[1] + t * WIDE / 2 * across[1])
        for s in (-1, 1) for t in (-1, 1)
    ]  # fmt: skip


def placed(match: re.Match[str], bottom: float) -> tuple[float, float]:
    x = float(match["x"]) * (-1.0 if match["past"] == "past" else 1.0)
    y = float(match["y"]) * (-1.0 if match["beyond"] == "beyond" else 1.0)
    left = x if match["end"] == "left" else 600.0 - x
    up = bottom + y if match["edge"] == "bottom" else bottom + 95.0 - y
    return left, up


def test_joints_in_a_row_that_join_the_same_parts_are_one_step() -> None:
    made = job.design(SOURCE, "braced", profile_texts())
    steps = build_steps(made.assembly)
    assert [step.title for step in steps] == ["Brace to low, high"]
    assert {j.parts for j in steps[0].joints} == {("brace", "low"), ("brace", "high")}
    apart = SOURCE.replace('through = "brace"\ninto = "high"', 'through = "high"\ninto = "brace"')
    made = job.design(
        apart.replace("height = [380]\nwidth = [470]\n", ""), "braced", profile_texts()
    )
    assert [step.title for step in build_steps(made.assembly)] == ["Brace to low", "High to brace"]


def test_both_ends_corners_lie_where_trigonometry_puts_them() -> None:
    made = job.design(SOURCE, "braced", profile_texts())
    drawing = Settings(workshop=load(profile_texts()).workshop("default"), code="QRST-1234")
    m = matter(made.assembly, None, (), BookSettings(drawing=drawing))
    said = [t for s in build_steps(m.assembly) for t in work(m, s, False) if "lies askew" in t]
    assert len(said) == 1
    low, high = said[0].split("; ")
    assert "low rail" in low
    assert "high rail" in high
    found = [placed(p, 50.0) for p in PLACE.finditer(low)]
    found += [placed(p, 355.0) for p in PLACE.finditer(high)]
    for one, other in zip(sorted(found), sorted(corners()), strict=True):
        assert one == pytest.approx(other, abs=0.6)
