"""What is bought for the parts, and the content code in every list."""

from dataclasses import replace

import pytest

from flatpack.drawings.marks import groups
from flatpack.drawings.page import Table
from flatpack.drawings.registry import TABLES, drawings
from flatpack.parameters import replace as changed


def _rows(piece, settings, name):
    table = TABLES[name](piece, groups(piece), settings)
    return [dict(zip(table.header, row, strict=True)) for row in table.rows]


@pytest.fixture(scope="module")
def planed(piece):
    """Deck slats of 62 from boards sold 45, 58 and 70 wide; all else from sheet."""
    slat = piece.parts["slat-1"]
    board = changed(slat.board, kind="planed", widths=(45.0, 70.0, 58.0), lengths=(3000.0,))
    sheet = piece.parts["rail-left"].board
    parts = {
        k: replace(p, board=board if p.name == "deck slat" else sheet)
        for k, p in piece.parts.items()
    }
    return replace(piece, parts=parts)


def test_a_narrower_part_is_ripped_from_the_next_width_sold(planed, settings):
    for row in _rows(planed, settings, "cutting-list"):
        assert row["rip from width"] == (70.0 if row["name"] == "deck slat" else "")
    board = planed.parts["slat-1"].board
    sold = changed(board, widths=(62.0, 70.0))
    parts = {k: replace(p, board=sold) if p.board == board else p for k, p in planed.parts.items()}
    rows = _rows(replace(planed, parts=parts), settings, "cutting-list")
    assert {row["rip from width"] for row in rows} == {""}


def test_timber_adds_up_to_the_parts(planed, settings):
    rows = _rows(planed, settings, "timber")
    assert sum(row["parts"] for row in rows) == len(planed.parts)
    (slats,) = (r for r in rows if r["width sold"] == 70.0)
    # Nine slats of 560 x 62: 5.04 m, 0.312 m2.
    assert (slats["parts"], slats["longest part"]) == (9, 560.0)
    assert slats["net length all parts, m"] == 5.04
    assert slats["net area all parts, m2"] == 0.312
    assert "net" in slats["notes"]
    sheets = [r for r in rows if r is not slats]
    assert {r["width sold"] for r in sheets} == {"sheet"}


def test_every_list_carries_piece_and_content_code_in_each_row(piece, settings):
    tables = [s.content for s in drawings(piece, settings)
              if isinstance(s.content, Table) and s.folder == "lists"]  # fmt: skip
    assert len(tables) >= 8
    for table in tables:
        assert table.header[-2:] == ("piece", "content code")
        assert {row[-2:] for row in table.rows} == {(piece.name, settings.code)}
