"""Cross-cut plans against hand sums, against every plan there is, and against their checker."""

from __future__ import annotations

import itertools
import random
from dataclasses import replace

import pytest

from flatpack.cutting import (
    CrossPlan,
    CrossSaw,
    Effort,
    Piece,
    StockLength,
    plan_crosscuts,
)
from flatpack.cutting.check_crosscut import faults

SAW = CrossSaw(kerf=3.0)


def pieces(*wanted: tuple[str, float, int]) -> list[Piece]:
    return [Piece(mark=m, length=n, count=c) for m, n, c in wanted]


def checked(parts: list[Piece], stock: list[StockLength], saw: CrossSaw = SAW) -> CrossPlan:
    plan = plan_crosscuts(parts, stock, saw)
    assert faults(plan, parts, stock, saw) == []
    return plan


def test_n_parts_take_n_lengths_and_one_kerf_less() -> None:
    # By hand: 3 x 400 + 2 x 3 = 1206.
    parts = pieces(("A", 400.0, 3))
    assert len(checked(parts, [StockLength(name="b", length=1206.0, price=1.0)]).boards) == 1
    assert len(checked(parts, [StockLength(name="b", length=1205.9, price=1.0)]).boards) == 2


def test_end_trim_is_kept_clear() -> None:
    # By hand: 1206 and 10 off each end.
    parts = pieces(("A", 400.0, 3))
    saw = CrossSaw(kerf=3.0, trim=10.0)
    assert len(checked(parts, [StockLength(name="b", length=1226.0, price=1.0)], saw).boards) == 1
    assert len(checked(parts, [StockLength(name="b", length=1225.0, price=1.0)], saw).boards) == 2


def test_defect_is_cut_out() -> None:
    # A knot at the middle leaves two lengths of 495: one part each, where 1000 would hold two.
    knot = StockLength(name="k", length=1000.0, price=1.0, available=1, defects=((495.0, 505.0),))
    plan = checked(pieces(("A", 495.0, 2)), [knot])
    assert [(c.start, c.end) for c in plan.boards[0].cuts] == [(0.0, 495.0), (505.0, 1000.0)]
    longer = checked(pieces(("A", 496.0, 2)), [knot, StockLength(name="n", length=600.0, price=1)])
    assert all(b.stock.name == "n" for b in longer.boards)


def cheapest(lengths: list[int], stock: list[tuple[int, int]], kerf: int) -> int:
    """Least cost by trying every way to share the parts out (no column, no relaxation)."""
    best = [10**9]

    def put(index: int, boards: list[tuple[int, int]]) -> None:
        if sum(p for _, p in boards) >= best[0]:
            return
        if index == len(lengths):
            best[0] = sum(p for _, p in boards)
            return
        need = lengths[index] + kerf
        for n, (room, price) in enumerate(boards):
            if room >= need and boards[n] not in boards[:n]:
                put(index + 1, [*boards[:n], (room - need, price), *boards[n + 1 :]])
        for length, price in stock:
            if length + kerf >= need:
                put(index + 1, [*boards, (length + kerf - need, price)])

    put(0, [])
    return best[0]


@pytest.mark.parametrize("seed", range(8))
def test_cost_is_the_least_of_all_plans(seed: int) -> None:
    rng = random.Random(seed)
    lengths = sorted((rng.randint(150, 900) for _ in range(8)), reverse=True)
    stock = [(1000, rng.randint(8, 11)), (1500, rng.randint(12, 16)), (2100, rng.randint(18, 24))]
    parts = pieces(*((f"P{n}", float(v), 1) for n, v in enumerate(lengths)))
    boards = [StockLength(name=str(n), length=float(n), price=float(p)) for n, p in stock]
    plan = checked(parts, boards)
    assert plan.proved
    assert plan.cost == pytest.approx(cheapest(lengths, stock, 3))
    assert plan.relaxed <= plan.bound == plan.cost


def test_limited_stock_is_respected() -> None:
    cheap = StockLength(name="cheap", length=2000.0, price=1.0, available=2)
    dear = StockLength(name="dear", length=2000.0, price=5.0)
    plan = checked(pieces(("A", 990.0, 7)), [cheap, dear])
    # By hand: 2 parts a board, 4 boards, 2 of them cheap.
    assert (plan.cost, plan.proved) == (12.0, True)


def test_offcuts_come_first() -> None:
    rest = StockLength(name="rest", length=700.0, offcut=True)
    new = StockLength(name="new", length=1400.0, price=9.0)
    plan = checked(pieces(("A", 690.0, 3)), [new, rest])
    assert [b.stock.name for b in plan.boards] == ["rest", "new"]
    assert plan.cost == 9.0


def test_bad_input_is_named_and_the_rest_still_cut() -> None:
    parts = pieces(("A", 500.0, 2), ("LONG", 5000.0, 1), ("CHIP", 2.0, 1))
    plan = checked(parts, [StockLength(name="b", length=1100.0)])
    assert {(t.code, t.mark, t.stock) for t in plan.troubles} == {
        ("part-too-long", "LONG", "b"),
        ("part-thinner-than-kerf", "CHIP", ""),
        ("no-price", "", "b"),
    }
    assert plan.missing == (("LONG", 1),)
    assert not plan.proved
    assert sum(len(b.cuts) for b in plan.boards) == 3


def test_stock_too_little_is_named() -> None:
    plan = checked(
        pieces(("A", 900.0, 3)), [StockLength(name="b", length=1000.0, price=1.0, available=2)]
    )
    assert plan.missing == (("A", 1),)
    assert [t.code for t in plan.troubles] == ["stock-short"]


def test_same_input_gives_the_same_plan() -> None:
    rng = random.Random(3)
    parts = pieces(*((f"P{n}", float(rng.randint(200, 1500)), 4) for n in range(9)))
    stock = [
        StockLength(name=str(n), length=float(n), price=n / 100.0 + 1.0) for n in (2400, 3600, 4800)
    ]
    one, other = checked(parts, stock), checked(parts, stock)
    assert one == other
    assert one.repeatable


def test_a_stopped_search_says_so_and_keeps_its_best() -> None:
    parts = pieces(*((f"P{n}", 300.0 + 37.0 * n, 5) for n in range(12)))
    stock = [StockLength(name="b", length=2400.0, price=7.0)]
    plan = plan_crosscuts(parts, stock, SAW, Effort(10_000, stop=lambda: True))
    assert faults(plan, parts, stock, SAW) == []
    assert not plan.repeatable
    assert plan.missing == ()
    assert 0.0 < plan.bound <= plan.cost


def broken(plan: CrossPlan) -> list[CrossPlan]:
    board = plan.boards[0]
    first, *others = board.cuts
    longer = replace(first, end=first.end + 5.0)
    lost = replace(board, cuts=tuple(others))
    return [
        replace(plan, boards=(replace(board, cuts=(longer, *others)), *plan.boards[1:])),
        replace(plan, boards=(lost, *plan.boards[1:])),
        replace(plan, boards=(replace(board, rests=((0.0, 400.0),)), *plan.boards[1:])),
    ]


def test_the_checker_sees_what_is_wrong() -> None:
    parts = pieces(("A", 400.0, 5), ("B", 250.0, 4))
    stock = [StockLength(name="b", length=1700.0, price=1.0)]
    plan = checked(parts, stock)
    for bad in broken(plan):
        assert faults(bad, parts, stock, SAW)
    assert faults(plan, parts, [replace(stock[0], available=1)], SAW)
    assert faults(plan, parts, stock, CrossSaw(kerf=3.5))
    for one, other in itertools.pairwise(plan.boards[0].cuts):
        assert other.start - one.end >= 3.0 - 1e-9
