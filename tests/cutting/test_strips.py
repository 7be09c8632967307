"""Strips of a sheet: lists and bounds against a count by brute force and another solver."""

from __future__ import annotations

import random
from collections import Counter
from itertools import product

import pytest

from flatpack.cutting import Effort, PanelSaw, Piece, StockSheet, plan_sheets
from flatpack.cutting.check_saw import faults
from flatpack.cutting.resettle import Resettler
from flatpack.cutting.saw_input import SheetJob, read_sheets
from flatpack.cutting.sheet_view import Column, Layout, Strip, View, view_of
from flatpack.cutting.strip_choice import placed, ruled_out
from flatpack.cutting.strip_list import fewest, undominated, within
from flatpack.cutting.strip_relax import relaxed
from flatpack.cutting.strip_ways import ruled_out_by_ways
from flatpack.cutting.strips import Strips

SHEET = StockSheet(name="s", length=100.0, width=60.0, price=1.0)
SAW = PanelSaw(kerf=0.0)


def job_of(pieces: list[Piece], sheet: StockSheet = SHEET) -> SheetJob:
    made = read_sheets(pieces, [sheet], SAW).job
    assert made is not None
    return made


def views_of(job: SheetJob) -> list[View]:
    return [view_of(job.rooms[0], job.sizes, job.turns, a, job.mode) for a in (False, True)]


def small(seed: int) -> list[Piece]:
    rng = random.Random(seed)
    return [
        Piece(
            mark=str(n),
            length=float(rng.randint(20, 70)),
            width=float(rng.randint(12, 40)),
            count=rng.randint(1, 3),
            grain=rng.choice(("along", "free")),
        )
        for n in range(4)
    ]


def every_strip(view: View, counts: tuple[int, ...]) -> set[tuple[int, tuple[int, ...]]]:
    """All strips: every number of every option, parts of one width over each other as they fit."""
    made = set()
    ranges = [range(counts[o.part] + 1) for o in view.options]
    heights = {n * o.y for o in view.options for n in (1, 2, 3) if n * o.y <= view.y}
    heights |= {
        a.y * i + b.y * j
        for a, b in product(view.options, repeat=2)
        if a.x == b.x and a.part != b.part
        for i in (1, 2, 3)
        for j in (1, 2, 3)
        if a.y * i + b.y * j <= view.y
    }
    for height in heights:
        for numbers in product(*ranges):
            took = Counter[int]()
            for option, n in zip(view.options, numbers, strict=True):
                took[option.part] += n
            if any(took[p] > c for p, c in enumerate(counts)) or not any(numbers):
                continue
            by_width: dict[int, list[int]] = {}
            for option, n in zip(view.options, numbers, strict=True):
                by_width.setdefault(option.x, []).extend([option.y] * n)
            width = sum(x * columns(ys, height) for x, ys in by_width.items())
            if width <= view.x:
                made.add((height, tuple(took[p] for p in range(len(counts)))))
    return made


def columns(heights: list[int], room: int) -> int:
    """Fewest columns that hold these heights, by trying every way; 99 where one is too high."""
    if not heights:
        return 0
    if max(heights) > room:
        return 99
    best = len(heights)
    for ways in product(range(best), repeat=len(heights)):
        load = Counter[int]()
        for way, height in zip(ways, heights, strict=True):
            load[way] += height
        if max(load.values()) <= room:
            best = min(best, len(load))
    return best


@pytest.mark.parametrize("seed", range(4))
def test_relaxation_is_that_of_all_strips(seed: int) -> None:
    """The same programme over every strip there is, by scipy's solver."""
    from scipy.optimize import linprog

    job = job_of(small(seed))
    views = views_of(job)
    rows, costs = [], []
    for view in views:
        for height, parts in every_strip(view, job.demand):
            rows.append(parts)
            costs.append(height / view.y)
    other = linprog(
        costs,
        A_ub=[[-float(r[p]) for r in rows] for p in range(len(job.demand))],
        b_ub=[-float(n) for n in job.demand],
    )
    made = relaxed(views, job.demand, Effort(10_000))
    assert made.proved
    assert made.value == pytest.approx(other.fun, abs=1e-6)


@pytest.mark.parametrize("seed", range(4))
def test_a_list_leaves_no_strip_out(seed: int) -> None:
    """Every strip of brute force with little waste is listed, or one that is no worse."""
    job = job_of(small(seed))
    for view in views_of(job):
        strips = Strips(view, job.demand)
        values = [a * b / (view.x * view.y) for a, b in job.sizes]
        strips.price(values, 1.0 / view.y)
        listed = within(strips, 0.15, 5_000, 500_000)
        assert listed.whole
        known = undominated(listed.strips)
        for height, parts in every_strip(view, job.demand):
            waste = height / view.y - sum(v * n for v, n in zip(values, parts, strict=True))
            if waste < 0.15 - 1e-9:
                assert any(
                    s.y <= height and all(dict(k).get(p, 0) >= n for p, n in enumerate(parts))
                    for k, s in known.items()
                ), (height, parts)
        for strip in listed.strips.values():
            assert sum(c.x for c in strip.columns) <= view.x
            assert strips.waste(strip) <= 0.15 + 1e-9


def test_dominated_strips_go_and_others_stay() -> None:
    def strip(height: int, parts: dict[int, int]) -> Strip:
        from flatpack.cutting.sheet_view import Option

        options = tuple(Option(p, 5, height) for p in parts)
        return Strip((Column(5, options[:1]),))

    low, high, more = {0: 1}, {1: 1}, {0: 1, 1: 1}
    listed = {tuple(sorted(d.items())): strip(h, d) for d, h in ((low, 5), (high, 5), (more, 5))}
    assert set(undominated(listed)) == {((0, 1), (1, 1))}
    apart = {((0, 2),): strip(7, {0: 2}), ((0, 1),): strip(5, {0: 1})}
    assert undominated(apart) == apart


def test_strips_that_can_not_hold_all_rule_a_sheet_out() -> None:
    # By hand: seven of 50 x 20 on sheets of 100 x 60, six on a sheet; 34 x 31: two abreast by
    # one high, 31 of 60 leaves 29.
    full = job_of([Piece(mark="A", length=50.0, width=20.0, count=7)])
    base = relaxed(views_of(full), full.demand, Effort(1_000))
    assert base.value == pytest.approx(7 / 6)
    assert ruled_out(base, full.demand, 1, Effort(1_000))
    assert not ruled_out(base, full.demand, 2, Effort(1_000))
    # Area would let 3 x 1054 of 6000 lie on one sheet twice over; only two fit in a strip.
    clumsy = job_of([Piece(mark="B", length=34.0, width=31.0, count=3)])
    base = relaxed(views_of(clumsy), clumsy.demand, Effort(1_000))
    assert not ruled_out(base, clumsy.demand, 2, Effort(1_000))


def test_sheets_are_laid_out_anew_until_one_is_saved() -> None:
    # By hand: twelve of 50 x 20 fill two sheets; here they lie four on each of three.
    job = job_of([Piece(mark="A", length=50.0, width=20.0, count=12)])
    views = views_of(job)
    option = next(o for o in views[0].options if o.x == job.sizes[0][0])
    column = Column(option.x, (option,))
    loose = Layout(False, (Strip((column, column)), Strip((column, column))))
    again = Resettler(views, job.sizes, Effort(1_000), random.Random(1))
    fewer = again.without_one([loose] * 3, 5)
    assert fewer is not None
    assert len(fewer) == 2
    assert sum(len(s.parts) for u in fewer for s in u.strips) == 12
    assert again.without_one(fewer, 3) is None


def test_what_finds_no_place_weighs_least() -> None:
    # One sheet, a large part and a small one that don't fit together: the large one is placed.
    job = job_of(
        [
            Piece(mark="L", length=90.0, width=50.0),
            Piece(mark="S", length=60.0, width=20.0),
        ]
    )
    views = views_of(job)
    base = relaxed(views, job.demand, Effort(100))
    lists = [m.strips for m in fewest(base.views, 2.0, 100, 10_000)]
    weights = [float(a * b) for a, b in job.sizes]
    made = placed(views, lists, [0], job.demand, weights, Effort(100), 50)
    assert made is not None
    small_one = min(range(2), key=lambda p: weights[p])
    assert [p for p, n in enumerate(made.left) if n] == [small_one]


def test_a_multiple_of_a_job_is_planned_from_its_share() -> None:
    pieces = small(2)
    three = [Piece(mark=p.mark, length=p.length, width=p.width, count=3 * p.count, grain=p.grain)
             for p in pieces]  # fmt: skip
    one = plan_sheets(pieces, [SHEET], SAW, Effort(400))
    plan = plan_sheets(three, [SHEET], SAW, Effort(400))
    assert faults(plan, three, [SHEET], SAW) == []
    assert plan.bound.sheets <= plan.new_sheets <= 3 * one.new_sheets


def test_a_long_and_a_high_part_share_no_sheet_either_way() -> None:
    # By hand: 100 x 20 goes from end to end, 20 x 60 from edge to edge: they would cross.
    job = job_of(
        [Piece(mark="A", length=100.0, width=20.0), Piece(mark="B", length=20.0, width=60.0)]
    )
    views = views_of(job)
    assert ruled_out_by_ways(views, job.demand, 1, Effort(5_000))
    assert not ruled_out_by_ways(views, job.demand, 2, Effort(5_000))


@pytest.mark.parametrize("seed", range(8))
def test_no_number_of_sheets_that_does_is_ruled_out(seed: int) -> None:
    job = job_of(small(seed))
    plan = plan_sheets(small(seed), [SHEET], SAW, Effort(300))
    assert faults(plan, small(seed), [SHEET], SAW) == []
    views = views_of(job)
    base = relaxed(views, job.demand, Effort(5_000))
    for sheets in (plan.new_sheets, plan.new_sheets + 1):
        assert not ruled_out(base, job.demand, sheets, Effort(5_000))
        assert not ruled_out_by_ways(views, job.demand, sheets, Effort(5_000))
