"""Time and quality of the cutting engines.

The heavy published sets run only when their folder is named:

    FLATPACK_PACKING=FOLDER pytest tests/bench/test_cutting_bench.py --benchmark-enable -s

Every figure is held against a bound or against another library in the same run.
"""

from __future__ import annotations

import json
import os
import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

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
from flatpack.cutting.check_saw import faults as saw_faults

FOLDER = os.environ.get("FLATPACK_PACKING", "")
published = pytest.mark.skipif(not FOLDER, reason="FLATPACK_PACKING names no folder")
SHEET = StockSheet(name="sheet", length=2440.0, width=1220.0, price=40.0)
SAW = PanelSaw(kerf=3.2)


def furniture_sheets(seed: int, times: int = 1) -> list[Piece]:
    """A job of 25 to 60 rectangles in 10 to 16 sizes; grain fixed, free or mixed by seed."""
    rng = random.Random(seed)
    kinds, total = rng.randint(10, 16), rng.randint(25, 60)
    sizes = [(rng.randint(60, 1900), rng.randint(60, 300)) for _ in range(kinds)]
    counts = Counter(rng.randrange(kinds) for _ in range(total - kinds))
    fixed = [(True, False, rng.random() < 0.5)[seed % 3] for _ in sizes]
    return [
        Piece(
            mark=f"P{n:02}",
            length=float(length),
            width=float(width),
            count=(1 + counts[n]) * times,
            grain="along" if fixed[n] else "free",
        )
        for n, (length, width) in enumerate(sizes)
    ]


def furniture_boards(seed: int) -> tuple[list[Piece], list[StockLength]]:
    """A job of 30 to 100 cuts in 8 to 16 lengths, two to four stock lengths, some limited."""
    rng = random.Random(seed)
    kinds, total = rng.randint(8, 16), rng.randint(30, 100)
    counts = Counter(rng.randrange(kinds) for _ in range(total - kinds))
    parts = [
        Piece(mark=f"P{n}", length=float(rng.randint(60, 1900)), count=1 + counts[n])
        for n in range(kinds)
    ]
    lengths = sorted(rng.sample([2400, 3000, 3600, 4200, 4800, 5400, 6000], rng.randint(2, 4)))
    stock = [
        StockLength(
            name=str(n),
            length=float(n),
            price=round(n * 0.004 * rng.uniform(0.9, 1.1), 2),
            available=rng.choice([None, None, 4]) if n != lengths[-1] else None,
        )
        for n in lengths
    ]
    return parts, stock


def test_boards_of_one_job(benchmark: Any) -> None:
    parts, stock = furniture_boards(3)
    saw = CrossSaw(kerf=3.2, trim=10.0)
    plan = benchmark(plan_crosscuts, parts, stock, saw)
    assert cross_faults(plan, parts, stock, saw) == []
    assert plan.proved


def test_sheets_of_one_job(benchmark: Any) -> None:
    parts = furniture_sheets(4)
    plan = benchmark(lambda: plan_sheets(parts, [SHEET], SAW, Effort(300)))
    assert saw_faults(plan, parts, [SHEET], SAW) == []
    assert plan.proved


@published
def test_boards_of_many_jobs() -> None:
    ratio, proved = 0.0, 0
    for seed in range(20):
        parts, stock = furniture_boards(seed)
        plan = plan_crosscuts(parts, stock, CrossSaw(kerf=3.2, trim=10.0), Effort(20_000, 10.0))
        ratio += plan.cost / plan.relaxed / 20.0
        proved += plan.proved
    print(f"\nseveral lengths: cost / relaxation {ratio:.4f}, proved {proved} of 20")
    assert proved >= 15


@published
def test_sheets_of_many_jobs() -> None:
    met, jobs = Counter[bool](), Counter[bool]()
    for seed in range(25):
        for times in (1, 3):
            parts = furniture_sheets(seed, times)
            plan = plan_sheets(parts, [SHEET], SAW, Effort(3_000, 5.0))
            assert saw_faults(plan, parts, [SHEET], SAW) == []
            area = sum(p.length * p.width * p.count for p in parts)
            full = area / (plan.bound.sheets * SHEET.length * SHEET.width) > 0.93
            met[full] += plan.proved
            jobs[full] += 1
    print(f"\nsheets at their bound: {met[False]} of {jobs[False]}")
    print(f"fuller than 93 %: {met[True]} of {jobs[True]}")
    assert met[False] >= 0.9 * jobs[False]


#: Side of the bin of Berkey and Wang's classes 1 to 6 (1987), and longest side of an item.
BERKEY_WANG = {1: (10, 10), 2: (30, 10), 3: (40, 35), 4: (100, 35), 5: (100, 100), 6: (300, 100)}


def class_item(number: int, rng: random.Random) -> tuple[int, int]:
    """An item (width, height); classes 7 to 10 are Martello and Vigo's (1998), from memory.

    Their bins are 100 x 100; in class 6 + k seven items of ten are of kind k, the others of any.
    """
    if number in BERKEY_WANG:
        most = BERKEY_WANG[number][1]
        return rng.randint(1, most), rng.randint(1, most)
    kinds = [((67, 100), (1, 50)), ((1, 50), (67, 100)), ((50, 100), (50, 100)), ((1, 50), (1, 50))]
    own = kinds.pop(number - 7)
    wide, high = own if rng.random() < 0.7 else rng.choice(kinds)
    return rng.randint(*wide), rng.randint(*high)


@published
def test_sheets_of_the_bin_packing_classes() -> None:
    """Ten classes, five sizes, one instance of each: at most three stages, no turns."""
    sheets, bounds = Counter[int](), Counter[int]()
    for number in range(1, 11):
        side = BERKEY_WANG[number][0] if number in BERKEY_WANG else 100
        stock = [StockSheet(name="bin", length=side, width=side, price=1.0)]
        for count in (20, 40, 60, 80, 100):
            rng = random.Random(1000 * number + count)
            items = Counter(class_item(number, rng) for _ in range(count))
            parts = [
                Piece(mark=str(n), length=a, width=b, count=c)
                for n, ((a, b), c) in enumerate(items.items())
            ]
            plan = plan_sheets(parts, stock, PanelSaw(kerf=0.0), Effort(3_000, 5.0))
            assert saw_faults(plan, parts, stock, PanelSaw(kerf=0.0)) == []
            sheets[number] += plan.new_sheets
            bounds[number] += plan.bound.sheets
        print(f"\nclass {number}: {sheets[number]} of at least {bounds[number]}")
    ratio = sheets.total() / bounds.total()
    print(f"all classes: {sheets.total()} of at least {bounds.total()}, {ratio:.4f}")
    assert ratio <= 1.03


@published
def test_sheets_against_a_rectangle_library() -> None:
    """Never more sheets than the best of a library that needs no straight-through cuts."""
    rectpack = pytest.importorskip("rectpack")
    ours = theirs = 0
    for seed in [s for s in range(15) if s % 3 != 2]:
        parts = furniture_sheets(seed)
        plan = plan_sheets(parts, [SHEET], SAW, Effort(3_000, 5.0))
        best = min(
            _rectangles(rectpack, parts, getattr(rectpack, name))
            for name in ("MaxRectsBssf", "MaxRectsBl", "MaxRectsBaf", "GuillotineBssfSas")
        )
        assert plan.new_sheets <= best, seed
        ours, theirs = ours + plan.new_sheets, theirs + best
    print(f"\nsheets: {ours}, by the rectangle library {theirs}")


def _rectangles(rectpack: Any, parts: list[Piece], engine: Any) -> int:
    packer = rectpack.newPacker(rotation=parts[0].grain == "free", pack_algo=engine)
    for part in parts:
        for _ in range(part.count):
            packer.add_rect(round(part.length * 10 + 32), round(part.width * 10 + 32))
    packer.add_bin(24432, 12232, count=float("inf"))
    packer.pack()
    return len(packer)


def triplets(path: Path) -> Iterator[tuple[str, float, list[float], int]]:
    """Instances of one file: name, capacity, items, best known number."""
    words = iter(path.read_text().split())
    for _ in range(int(next(words))):
        name, room, count, best = next(words), float(next(words)), int(next(words)), next(words)
        yield name, room, [float(next(words)) for _ in range(count)], int(best)


def boards_of(items: list[float], room: float) -> tuple[float, float, bool]:
    parts = [Piece(mark=str(n), length=n, count=c) for n, c in Counter(items).items()]
    stock = [StockLength(name="s", length=room, price=1.0)]
    plan = plan_crosscuts(parts, stock, CrossSaw(kerf=0.0), Effort(100_000, 60.0))
    assert cross_faults(plan, parts, stock, CrossSaw(kerf=0.0)) == []
    return plan.cost, plan.bound, plan.proved


@published
@pytest.mark.parametrize("name", ["binpack2.txt", "binpack5.txt", "binpack6.txt"])
def test_published_boards(name: str) -> None:
    for instance, room, items, best in triplets(Path(FOLDER) / "one-dimensional" / name):
        cost, _, proved = boards_of(items, room)
        assert proved, instance
        assert cost <= best, instance


@published
def test_published_boards_of_other_sets() -> None:
    proved = jobs = 0
    for path in sorted((Path(FOLDER) / "one-dimensional").glob("*.BPP")):
        count, room, *items = (float(v) for v in path.read_text().split())
        jobs += 1
        proved += boards_of(items[: int(count)], room)[2]
    print(f"\npublished boards proved: {proved} of {jobs}")
    assert proved == jobs


def hard(path: Path) -> Iterator[tuple[str, float, list[float]]]:
    """Instances of Schoenfield's set: name, capacity, items; the file gives sizes with counts."""
    lines = iter(path.read_text().splitlines())
    for name in lines:
        kinds, room = int(next(lines)), float(next(lines))
        rows = [next(lines).split() for _ in range(kinds)]
        yield name.strip(" '"), room, [float(size) for size, n in rows for _ in range(int(n))]


@published
def test_published_hard_boards() -> None:
    proved = jobs = 0
    for name, room, items in hard(Path(FOLDER) / "one-dimensional" / "hard28_first14.txt"):
        cost, bound, done = boards_of(items, room)
        print(f"\n{name}: {cost:g} of at least {bound:g}")
        jobs, proved = jobs + 1, proved + done
    print(f"hard boards proved: {proved} of {jobs}")
    assert proved == jobs


#: Best known densities in a strip, percent (arXiv 2509.13329).
BEST_KNOWN = {
    "shapes0": 69.98,
    "fu": 92.39,
    "jakobs1": 89.24,
    "dagli": 90.17,
    "marques": 92.02,
    "mao": 86.87,
}


@published
def test_published_strips() -> None:
    spyrrow = pytest.importorskip("spyrrow")
    share = 0.0
    for name, best in BEST_KNOWN.items():
        data = json.loads((Path(FOLDER) / "irregular" / f"{name}.json").read_text())
        items = [
            spyrrow.Item(
                str(i["id"]),
                [tuple(p) for p in i["shape"]["data"]],
                i["demand"],
                i.get("allowed_orientations"),
            )
            for i in data["items"]
        ]
        config = spyrrow.StripPackingConfig(total_computation_time=60, seed=1)
        found = spyrrow.StripPackingInstance(name, data["strip_height"], items).solve(config)
        share += 100.0 * found.density / best / len(BEST_KNOWN)
        print(f"\n{name}: {100.0 * found.density:.2f} % of {best} %")
    assert share >= 0.95
