"""Columns of the book's tables on a page that is too narrow for them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from flatpack.drawings.book.content import Rows
from flatpack.writers import book_slabs
from flatpack.writers.book_slabs import SMALL, WIDE, capped


@given(st.lists(st.floats(1.0, 300.0), min_size=1, max_size=9), st.floats(20.0, 300.0))
def test_only_the_widest_give_way_and_the_room_is_filled(widths: list[float], room: float) -> None:
    found = capped(widths, room)
    assert sum(found) == pytest.approx(min(sum(widths), room))
    cap = max(found)
    for was, now in zip(widths, found, strict=True):
        assert now == pytest.approx(was) or now == pytest.approx(cap)
        assert now <= was + 1e-9


def test_a_short_word_beside_very_long_ones_stays_whole() -> None:
    long = "a-part-with-a-very-long-name-of-its-own-" * 3
    block = Rows("Found", ("what", "kind", "part"), ((long, "not checked", long),))
    _, middle, _ = book_slabs._columns(block)
    assert middle > book_slabs._wide("checked", SMALL, True) + 2.0
    assert sum(book_slabs._columns(block)) <= WIDE + 1e-6
