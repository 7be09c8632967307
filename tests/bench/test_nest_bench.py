"""Nests of true shapes on sheets: against what the shapes' boxes need, and how full they get.

FLATPACK_PACKING=FOLDER pytest tests/bench/test_nest_bench.py --benchmark-enable -s
"""

from __future__ import annotations

import os
import random
from typing import Any

import pytest

from flatpack.cutting.check_nest import faults
from flatpack.cutting.nest import nest
from flatpack.cutting.nest_records import Blank, Shape, Spaces
from flatpack.geometry.outline import Outline, closed
from flatpack.geometry.shapes import rectangle, round_ended

heavy = pytest.mark.skipif(not os.environ.get("FLATPACK_PACKING"), reason="a long run")
SPACES = Spaces(between=8.0, edge=10.0)
SHEET = Blank(name="sheet", outline=rectangle(2440.0, 1220.0), price=40.0)


def elbow(a: float, b: float, t: float) -> Outline:
    """A corner of two arms."""
    return closed([(0, 0, 0), (a, 0, 0), (a, t, 0), (t, t, 0), (t, b, 0), (0, b, 0)])


def bow(length: float, width: float, rise: float) -> Outline:
    """A rail bent to an arc on both long sides, its ends square to the length."""
    bulge = 2.0 * rise / length
    return closed([(0, 0, bulge), (length, 0, 0), (length, width, -bulge), (0, width, 0)])


def wedge(length: float, foot: float, top: float) -> Outline:
    """A splayed leg."""
    return closed([(0, 0, 0), (length, 0, 0), (length, top, 0), (0, foot, 0)])


def furniture(seed: int, least: int = 110) -> list[Shape]:
    """Arms with round ends, bent rails, splayed legs, corners and slats, `least` parts or more."""
    rng = random.Random(seed)
    shapes: list[Shape] = []
    while sum(s.count for s in shapes) < least:
        wide = float(rng.randint(60, 120))
        kind: Any = rng.choice(
            (
                lambda w=wide: round_ended(float(rng.randint(200, 600)), w / 2.0),
                lambda w=wide: bow(float(rng.randint(400, 1100)), w, float(rng.randint(30, 90))),
                lambda w=wide: wedge(float(rng.randint(350, 750)), w + 60.0, w - 20.0),
                lambda w=wide: elbow(float(rng.randint(300, 600)), float(rng.randint(250, 500)), w),
                lambda w=wide: rectangle(float(rng.randint(200, 900)), w),
            )
        )
        grain: Any = rng.choice(("half turns", "half turns", "free"))
        mark = f"P{len(shapes):02}"
        shapes.append(Shape(mark=mark, outline=kind(), count=rng.randint(2, 10), grain=grain))
    return shapes


def boxed(shape: Shape) -> Shape:
    x0, y0, x1, y1 = shape.outline.bounds
    box = rectangle(x1 - x0, y1 - y0, x0, y0)
    return Shape(mark=shape.mark, outline=box, count=shape.count, grain=shape.grain)


def test_one_nest_of_fixed_effort(benchmark: Any) -> None:
    shapes = furniture(1, 40)
    made = benchmark.pedantic(lambda: nest(shapes, [SHEET], SPACES), rounds=1)
    assert faults(made, shapes, SPACES) == []


@heavy
def test_true_shapes_need_fewer_sheets_than_their_boxes() -> None:
    ours = boxes = 0
    full = []
    for seed in range(3):
        shapes = furniture(seed)
        made = nest(shapes, [SHEET], SPACES, seconds=60)
        assert faults(made, shapes, SPACES) == []
        ours += made.new_sheets
        boxes += nest([boxed(s) for s in shapes], [SHEET], SPACES).new_sheets
        dense = sorted((s.density for s in made.sheets), reverse=True)
        full += dense[:-1]
        print(f"\n{sum(s.count for s in shapes)} parts: {made.new_sheets} sheets, at least "
              f"{made.bound.sheets}; densities {[round(d, 3) for d in dense]}")  # fmt: skip
    print(f"sheets {ours}, boxes {boxes}; full sheets {sum(full) / len(full):.3f}")
    assert ours <= 0.8 * boxes
