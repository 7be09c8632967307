"""Published cutting and packing instances with known results, carried as figures."""

from __future__ import annotations

import pytest

from flatpack.cutting import (
    CrossSaw,
    Effort,
    PanelSaw,
    Piece,
    StockLength,
    StockSheet,
    plan_crosscuts,
    plan_sheets,
)
from flatpack.cutting.check_crosscut import faults as cross_faults
from flatpack.cutting.check_saw import Box, stages
from flatpack.cutting.check_saw import faults as saw_faults

# Falkenauer (1996), t60_00: capacity 100, 60 items, best known 20 (= sum / capacity).
T60_00 = (
    "36.6 26.8 36.6 43 26.3 30.7 41.4 28.7 29.9 49.5 25.1 25.4 47.4 25.2 27.4 37 26.9 36.1 47.3 "
    "25.2 27.5 47.2 25.9 26.9 44.4 25.8 29.8 43.9 27.3 28.8 44.5 27.2 28.3 41.9 26.1 32 36.3 27.1 "
    "36.6 35.5 27.3 37.2 46.6 26.2 27.2 35.7 29.2 35.1 39.5 25.5 35 35 30.3 34.7 45 25.2 29.8 41 "
    "27.5 31.5"
)
# Scholl, Klein and Juergens (1997), set 1, N1C1W1_A: capacity 100, 50 items, optimum 25.
N1C1W1_A = (
    "99 99 96 96 92 92 91 88 87 86 85 76 74 72 69 67 67 62 61 56 52 51 49 46 44 42 40 40 33 33 "
    "30 30 29 28 28 27 25 24 23 22 21 20 17 14 13 11 10 7 7 3"
)
# Demand example of a public model library: rolls of 100 wide (width from memory); the optimum of
# 453 was worked out apart from this program as an exact whole-number programme.
ROLLS = {14: 211, 31: 395, 36: 610, 45: 97}
# Hopper and Turton (2001), C1P1: a 20 x 20 sheet, no turns; (width, height) and, in the same
# order, places of an optimal layout found by exact search.
C1P1 = [
    (2, 12), (7, 12), (8, 6), (3, 6), (3, 5), (5, 5), (3, 12), (3, 7),
    (5, 7), (2, 6), (3, 2), (4, 2), (3, 4), (4, 4), (9, 2), (11, 2),
]  # fmt: skip
C1P1_AT = [
    (0, 0), (2, 0), (9, 0), (17, 0), (9, 6), (12, 6), (17, 6), (9, 11),
    (12, 11), (0, 12), (2, 12), (5, 12), (2, 14), (5, 14), (0, 18), (9, 18),
]  # fmt: skip


def boards(items: dict[float, int], capacity: float) -> tuple[float, bool]:
    parts = [Piece(mark=str(n), length=float(n), count=c) for n, c in items.items()]
    stock = [StockLength(name="stock", length=capacity, price=1.0)]
    plan = plan_crosscuts(parts, stock, CrossSaw(kerf=0.0))
    assert cross_faults(plan, parts, stock, CrossSaw(kerf=0.0)) == []
    return plan.cost, plan.proved


def counted(text: str) -> dict[float, int]:
    values = [float(v) for v in text.split()]
    return {v: values.count(v) for v in values}


@pytest.mark.parametrize(
    ("items", "optimum"),
    [(counted(T60_00), 20.0), (counted(N1C1W1_A), 25.0), (ROLLS, 453.0)],
    ids=["t60_00", "N1C1W1_A", "rolls"],
)
def test_published_optimum_is_met_and_proved(items: dict[float, int], optimum: float) -> None:
    assert boards(items, 100.0) == (optimum, True)


def test_known_layout_of_c1p1_needs_four_stages() -> None:
    boxes = [
        Box(float(x), float(x + w), float(y), float(y + h))
        for (w, h), (x, y) in zip(C1P1, C1P1_AT, strict=True)
    ]
    region = Box(0.0, 20.0, 0.0, 20.0)
    assert sum(w * h for w, h in C1P1) == 400
    assert min(stages(region, boxes, axis, 0.0) for axis in (0, 1)) == 4


def test_c1p1_in_three_stages_is_a_whole_plan_within_its_bound() -> None:
    parts = [Piece(mark=f"P{n}", length=float(w), width=float(h)) for n, (w, h) in enumerate(C1P1)]
    stock = [StockSheet(name="sheet", length=20.0, width=20.0, price=1.0)]
    saw = PanelSaw(kerf=0.0)
    plan = plan_sheets(parts, stock, saw, Effort(60))
    assert saw_faults(plan, parts, stock, saw) == []
    assert 1 <= plan.bound.sheets <= plan.new_sheets <= 2
