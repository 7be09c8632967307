"""Saw plans: cut again by an independent checker, against hand sums and bounds."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from flatpack.cutting import Effort, PanelSaw, Piece, SawPlan, StockSheet, plan_sheets
from flatpack.cutting.check_saw import Box, NotCuttableError, faults, stages

SAW = PanelSaw(kerf=3.2)
SHEET = StockSheet(name="sheet", length=2440.0, width=1220.0, price=40.0)


def checked(
    parts: list[Piece],
    stock: list[StockSheet],
    saw: PanelSaw = SAW,
    steps: int = 150,
) -> SawPlan:
    plan = plan_sheets(parts, stock, saw, Effort(steps))
    assert faults(plan, parts, stock, saw) == []
    assert plan.new_sheets >= plan.bound.sheets or plan.missing
    return plan


def furniture(seed: int, most: int = 30) -> list[Piece]:
    rng = random.Random(seed)
    grains = (("along",), ("free",), ("along", "free", "across"))[seed % 3]
    return [
        Piece(
            mark=f"P{n}",
            length=float(rng.randint(150, 1200)),
            width=float(rng.randint(60, 300)),
            count=rng.randint(1, max(1, most // 10)),
            grain=rng.choice(grains),  # type: ignore[arg-type]  # one of the three words
        )
        for n in range(10)
    ]


@pytest.mark.parametrize("seed", range(6))
def test_every_plan_can_be_cut_again(seed: int) -> None:
    plan = checked(furniture(seed), [SHEET])
    assert plan.proved
    assert plan.missing == ()


@pytest.mark.parametrize(("number", "recut"), [(2, False), (2, True), (3, True)])
def test_stages_are_kept(number: int, recut: bool) -> None:
    checked(furniture(1), [SHEET], PanelSaw(kerf=3.2, stages=number, recut=recut, trim=8.0))


def test_a_full_strip_needs_no_last_kerf() -> None:
    # By hand: 4 x 300 + 3 x 4 = 1212 across, 2 x 600 + 4 = 1204 along: eight parts, one sheet.
    saw = PanelSaw(kerf=4.0)
    parts = [Piece(mark="A", length=600.0, width=300.0, count=8)]
    exact = StockSheet(name="s", length=1204.0, width=1212.0, price=1.0)
    assert checked(parts, [exact], saw).new_sheets == 1
    short = replace(exact, width=1211.9)
    assert checked(parts, [short], saw).new_sheets == 2


def test_cuts_give_the_parts_in_order() -> None:
    # Followed on paper: two strips ripped at 300, each crossed at 900 twice.
    parts = [Piece(mark="A", length=900.0, width=300.0, count=4)]
    plan = checked(parts, [StockSheet(name="s", length=2000.0, width=700.0, price=1.0)])
    told = [(c.way, c.setting, c.of, c.gives) for c in plan.sheets[0].cuts]
    assert told == [
        ("rip", 300.0, "sheet", "strip 1"),
        ("rip", 300.0, "sheet", "strip 2"),
        ("cross", 900.0, "strip 1", "A"),
        ("cross", 900.0, "strip 1", "A"),
        ("cross", 900.0, "strip 2", "A"),
        ("cross", 900.0, "strip 2", "A"),
    ]
    assert plan.settings == 2


def test_grain_is_met_or_named() -> None:
    sheet = StockSheet(name="s", length=1000.0, width=500.0, price=1.0)
    across = Piece(mark="X", length=450.0, width=900.0, grain="across")
    along = Piece(mark="Y", length=450.0, width=900.0, grain="along")
    plan = checked([across, along], [sheet])
    assert [(t.code, t.mark) for t in plan.troubles] == [("grain-not-met", "Y")]
    assert [(p.mark, p.turned) for p in plan.sheets[0].parts] == [("X", True)]
    assert plan.missing == (("Y", 1),)


def test_bad_input_is_named_and_the_rest_still_cut() -> None:
    parts = [
        Piece(mark="A", length=500.0, width=200.0, count=2),
        Piece(mark="BIG", length=3000.0, width=200.0),
        Piece(mark="CHIP", length=500.0, width=2.0),
        Piece(mark="THIN", length=500.0, width=20.0),
    ]
    plan = checked(parts, [replace(SHEET, price=None)], PanelSaw(kerf=3.2, narrowest=40.0))
    assert {(t.code, t.mark or t.stock) for t in plan.troubles} == {
        ("part-too-large", "BIG"),
        ("part-thinner-than-kerf", "CHIP"),
        ("strip-too-narrow", "THIN"),
        ("no-price", "sheet"),
    }
    assert plan.cost is None
    assert plan.missing == (("BIG", 1),)
    assert sum(len(s.parts) for s in plan.sheets) == 4


def test_offcuts_come_first_and_cheap_sheets_before_dear() -> None:
    offcut = StockSheet(name="rest", length=800.0, width=420.0, offcut=True)
    small = StockSheet(name="small", length=1220.0, width=1220.0, price=22.0)
    parts = [Piece(mark="A", length=780.0, width=200.0, count=4)]
    plan = checked(parts, [SHEET, small, offcut])
    assert {s.stock.name for s in plan.sheets} == {"rest", "small"}
    assert (plan.new_sheets, plan.cost) == (1, 22.0)


def test_sheets_without_price_still_count() -> None:
    # By hand: one 900 x 900 a sheet.
    plain = StockSheet(name="s", length=1000.0, width=1000.0, available=5)
    plan = checked([Piece(mark="A", length=900.0, width=900.0, count=3)], [plain])
    assert (plan.new_sheets, plan.bound.sheets, plan.cost) == (3, 3, None)


def test_only_offcuts_in_stock() -> None:
    rest = StockSheet(name="rest", length=1000.0, width=1000.0, offcut=True)
    plan = checked([Piece(mark="A", length=900.0, width=900.0, count=2)], [rest])
    assert (plan.new_sheets, plan.missing) == (0, (("A", 1),))


def test_no_stock_at_all() -> None:
    plan = plan_sheets([Piece(mark="A", length=100.0, width=100.0)], [], SAW)
    assert plan.missing == (("A", 1),)
    assert [t.code for t in plan.troubles] == ["part-too-large"]


def test_same_input_gives_the_same_plan() -> None:
    one, other = (checked(furniture(4, 60), [SHEET], steps=60) for _ in range(2))
    assert one == other
    assert one.repeatable


def test_a_stopped_search_says_so() -> None:
    plan = plan_sheets(furniture(2), [SHEET], SAW, Effort(100, stop=lambda: True))
    assert not plan.repeatable
    assert plan.missing == ()


def pinwheel() -> list[Box]:
    """Four parts round a hole: the smallest layout that no straight cut opens."""
    return [Box(0, 2, 0, 1), Box(2, 3, 0, 2), Box(1, 3, 2, 3), Box(0, 1, 1, 3)]


def test_the_checker_refuses_a_pinwheel() -> None:
    region = Box(0, 3, 0, 3)
    for axis in (0, 1):
        with pytest.raises(NotCuttableError):
            stages(region, pinwheel(), axis, 0.0)
    assert stages(region, pinwheel()[:3], 0, 0.0) > 0


def test_the_checker_counts_stages() -> None:
    region = Box(0, 10, 0, 10)
    halves = [Box(0, 10, 0, 5), Box(0, 10, 5, 10)]
    assert (stages(region, halves, 1, 0.0), stages(region, halves, 0, 0.0)) == (1, 1)
    quarters = [Box(0, 5, 0, 5), Box(5, 10, 0, 5), Box(0, 10, 5, 10)]
    assert stages(region, quarters, 1, 0.0) == 2
    trimmed = [Box(0, 5, 0, 4), Box(5, 10, 0, 5), Box(0, 10, 5, 10)]
    assert stages(region, trimmed, 1, 0.0) == 3


def test_the_checker_sees_what_is_wrong() -> None:
    parts = furniture(0)
    plan = checked(parts, [SHEET])
    sheet = plan.sheets[0]
    first, *others = sheet.parts

    def with_sheet(**changes: object) -> SawPlan:
        return replace(plan, sheets=(replace(sheet, **changes), *plan.sheets[1:]))  # type: ignore[arg-type]  # names of CutSheet's own fields

    bad = [
        with_sheet(parts=(replace(first, x=first.x - 1.0), *others)),
        with_sheet(parts=(replace(first, turned=not first.turned), *others)),
        with_sheet(parts=tuple(others)),
        with_sheet(cuts=sheet.cuts[1:]),
        with_sheet(cuts=(replace(sheet.cuts[0], setting=3000.0), *sheet.cuts[1:])),
    ]
    for plan_with_fault in bad:
        assert faults(plan_with_fault, parts, [SHEET], SAW)
    assert faults(plan, parts, [SHEET], PanelSaw(kerf=4.0))
    assert faults(plan, parts, [replace(SHEET, available=0)], SAW)
