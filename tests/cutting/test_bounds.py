"""Bounds: never above what a plan by hand needs, and as high as a proof by hand."""

from __future__ import annotations

import random

import pytest

from flatpack.cutting.bounds import apart, counted, plain, sheets_needed, stepped
from flatpack.cutting.effort import Effort
from flatpack.cutting.sheet_view import view_of
from flatpack.cutting.strip_bound import sheets_by_patterns

ALONG = (True, False)


@pytest.mark.parametrize("family", [plain, stepped, counted])
def test_families_are_dual_feasible(family) -> None:  # type: ignore[no-untyped-def]  # three functions
    """Lengths that fit together never count more than the room, by trying them all at random."""
    import numpy as np

    rng = random.Random(5)
    for _ in range(400):
        room = rng.randint(8, 60)
        lengths, left = [], room
        while left > 0:
            lengths.append(rng.randint(1, left))
            left -= lengths[-1]
        kept = lengths[: rng.randint(1, len(lengths))]
        k = rng.randint(1, room // 2)
        values = family(np.array([*kept, room], dtype=np.int64), room, k)
        assert values[:-1].sum() <= values[-1], (kept, room, k)


def test_parts_over_half_need_a_sheet_each() -> None:
    # By hand: no two 60 x 60 fit on 100 x 100, though the area of two would.
    assert sheets_needed([(60, 60)], [5], [ALONG], (100, 100)).sheets == 5
    assert apart([(60, 60)], [5], [ALONG], (100, 100)) == 5


def test_area_alone() -> None:
    bound = sheets_needed([(50, 50)], [9], [ALONG], (100, 100))
    assert bound.sheets == 3
    assert bound.method


def test_turning_lowers_the_bound() -> None:
    # By hand: upright, 55 + 55 = 110 along and 90 across: two lie on a sheet of 120 x 100, so
    # four need two; kept along, 55 + 55 > 100 and 90 + 90 > 120 leave one a sheet.
    assert sheets_needed([(90, 55)], [4], [(True, True)], (120, 100)).sheets <= 2
    assert sheets_needed([(90, 55)], [4], [ALONG], (120, 100)).sheets == 4


def strips(sizes: list[tuple[int, int]], counts: list[int], room: tuple[int, int]) -> int:
    turns = [ALONG] * len(sizes)
    views = [view_of(room, sizes, turns, across, "stack") for across in (False, True)]
    return sheets_by_patterns(views, counts, Effort(300), 99)


def test_pattern_bound_by_hand() -> None:
    # 7 x 7 on 20 x 20: two along and two up, four a sheet; nine parts need three sheets, though
    # their area is that of 1.1 sheets.
    assert strips([(7, 7)], [9], (20, 20)) <= 3
    found = sheets_by_patterns(
        [view_of((20, 20), [(7, 7)], [ALONG], a, "stack") for a in (False, True)],
        [9],
        Effort(300),
        3,
    )
    assert found == 3


def test_pattern_bound_never_passes_a_full_packing() -> None:
    # A sheet cut up at random in three stages, n times over: n sheets hold it all.
    rng = random.Random(8)
    for times in (1, 3):
        sizes: dict[tuple[int, int], int] = {}
        y = 0
        while y < 100:
            high = min(rng.randint(15, 40), 100 - y)
            x = 0
            while x < 200:
                wide = min(rng.randint(20, 80), 200 - x)
                sizes[wide, high] = sizes.get((wide, high), 0) + times
                x += wide
            y += high
        keys = sorted(sizes)
        assert strips(keys, [sizes[k] for k in keys], (200, 100)) <= times
