"""Nests of true shapes, measured again by an independent checker."""

from __future__ import annotations

from dataclasses import replace

import pytest

from flatpack.cutting.check_nest import faults
from flatpack.cutting.effort import Effort
from flatpack.cutting.nest import nest
from flatpack.cutting.nest_dense import clear_room
from flatpack.cutting.nest_records import Blank, Nest, Placed, Shape, Spaces, stored
from flatpack.geometry.outline import Outline, closed

SPACES = Spaces(between=8.0, edge=10.0)


def box(length: float, width: float, x: float = 0.0, y: float = 0.0) -> Outline:
    return closed([(x, y, 0), (x + length, y, 0), (x + length, y + width, 0), (x, y + width, 0)])


def bar(length: float, width: float) -> Outline:
    r = width / 2.0
    return closed([(r, 0, 0), (length - r, 0, 1), (length - r, width, 0), (r, width, 1)])


def corner(a: float, b: float, t: float) -> Outline:
    return closed([(0, 0, 0), (a, 0, 0), (a, t, 0), (t, t, 0), (t, b, 0), (0, b, 0)])


BLANK = Blank(name="sheet", outline=box(1200.0, 800.0), price=20.0)
SHAPES = [
    Shape(mark="A", outline=bar(520.0, 70.0), count=6, grain="half turns"),
    Shape(mark="B", outline=corner(320.0, 260.0, 80.0), count=5, grain="free"),
    Shape(mark="C", outline=box(300.0, 90.0), count=4),
]


def checked(shapes: list[Shape], blanks: list[Blank], **options: object) -> Nest:
    found = nest(shapes, blanks, SPACES, **options)  # type: ignore[arg-type]  # nest's own names
    assert faults(found, shapes, SPACES) == []
    return found


def test_all_parts_lie_apart_and_inside() -> None:
    found = checked(SHAPES, [BLANK])
    assert found.missing == ()
    assert found.new_sheets >= found.bound.sheets
    assert found.repeatable


def test_same_input_gives_the_same_bytes() -> None:
    assert stored(checked(SHAPES, [BLANK])) == stored(checked(SHAPES, [BLANK]))


def test_an_accepted_layout_is_used_again_until_the_input_changes() -> None:
    first = checked(SHAPES, [BLANK])
    moved = replace(
        first, sheets=tuple(replace(s, parts=tuple(reversed(s.parts))) for s in first.sheets)
    )
    again = checked(SHAPES, [BLANK], accepted=stored(moved))
    assert stored(again) == stored(first)
    assert again.steps == 0
    more = [replace(SHAPES[0], count=7), *SHAPES[1:]]
    assert checked(more, [BLANK], accepted=stored(first)).steps > 0
    assert checked(SHAPES, [BLANK], accepted="{}").steps > 0


def test_a_stored_layout_with_a_fault_is_not_used() -> None:
    first = checked(SHAPES, [BLANK])
    sheet = first.sheets[0]
    pushed = replace(sheet.parts[0], x=sheet.parts[0].x + 30.0)
    bad = replace(first, sheets=(replace(sheet, parts=(pushed, *sheet.parts[1:])),))
    assert checked(SHAPES, [BLANK], accepted=stored(bad)).steps > 0


def test_small_parts_lie_in_large_openings() -> None:
    # By hand: the frame fills the sheet; the plate has room only in its opening.
    frame = Shape(mark="F", outline=box(1180.0, 780.0), openings=(box(600.0, 400.0, 290.0, 190.0),))
    plate = Shape(mark="P", outline=box(550.0, 350.0))
    found = checked([frame, plate], [BLANK])
    assert found.new_sheets == 1


def test_clamps_and_odd_outlines_are_kept_clear() -> None:
    clamp = box(200.0, 780.0, 500.0, 10.0)
    halved = checked([Shape(mark="P", outline=box(600.0, 300.0))], [BLANK])
    assert halved.missing == ()
    held = checked([Shape(mark="P", outline=box(600.0, 300.0))], [replace(BLANK, clamps=(clamp,))])
    assert held.missing == (("P", 1),)
    triangle = Blank(
        name="corner", outline=closed([(0, 0, 0), (900, 0, 0), (0, 900, 0)]), offcut=True
    )
    found = checked([Shape(mark="Q", outline=box(300.0, 300.0))], [triangle, BLANK])
    assert [s.blank.name for s in found.sheets] == ["corner"]
    assert found.new_sheets == 0


def test_grain_is_met_or_named() -> None:
    upright = Shape(mark="U", outline=box(300.0, 1000.0))
    found = checked([upright], [BLANK])
    assert [(t.code, t.mark) for t in found.troubles] == [("grain-not-met", "U")]
    assert checked([replace(upright, grain="free")], [BLANK]).missing == ()


def test_bad_input_is_named_and_the_rest_still_nested() -> None:
    bow = closed([(0, 0, 0), (400, 300, 0), (400, 0, 0), (0, 300, 0)])
    shapes = [
        *SHAPES,
        Shape(mark="BOW", outline=bow),
        Shape(mark="BIG", outline=box(2000.0, 300.0), grain="free"),
    ]
    blanks = [BLANK, Blank(name="crossed", outline=bow, price=1.0)]
    found = checked(shapes, blanks)
    assert {(t.code, t.mark or t.stock) for t in found.troubles} == {
        ("outline-crosses-itself", "BOW"),
        ("outline-crosses-itself", "crossed"),
        ("part-too-large", "BIG"),
    }
    assert found.missing == (("BIG", 1), ("BOW", 1))


def test_urgent_parts_come_from_the_first_sheet() -> None:
    large = Shape(mark="L", outline=box(1100.0, 350.0), count=3, priority=1)
    small = Shape(mark="S", outline=box(1100.0, 60.0), priority=0)
    found = checked([large, small], [BLANK])
    assert "S" in {p.mark for p in found.sheets[0].parts}


def test_a_stopped_nest_keeps_its_first_layout() -> None:
    found = checked(SHAPES, [BLANK], effort=Effort(100, stop=lambda: True), tries=5)
    assert found.missing == ()
    assert not found.repeatable


def test_denser_engine_is_checked_and_marked() -> None:
    pytest.importorskip("spyrrow")
    found = checked(SHAPES * 1, [Blank(name="s", outline=box(900.0, 420.0), price=1.0)], seconds=1)
    assert found.missing == ()
    assert not found.repeatable


def test_the_checker_sees_what_is_wrong() -> None:
    good = checked(SHAPES, [BLANK])
    sheet = good.sheets[0]
    first, *others = sheet.parts

    def with_first(placed: Placed) -> Nest:
        return replace(good, sheets=(replace(sheet, parts=(placed, *others)), *good.sheets[1:]))

    assert faults(with_first(replace(first, x=first.x - 20.0)), SHAPES, SPACES)
    assert faults(with_first(replace(first, turn=45.0)), SHAPES, SPACES)
    assert faults(with_first(replace(others[0])), SHAPES, SPACES)
    assert faults(good, SHAPES, Spaces(between=9.0, edge=10.0))
    assert faults(good, SHAPES, Spaces(between=8.0, edge=11.0))


def test_denser_engine_keeps_the_offcuts() -> None:
    pytest.importorskip("spyrrow")
    # By hand: four plates of 300 x 190 fill a 620 x 410 sheet (2 x 300 + 8 + 2 x 6 edge); with one
    # on the offcut, eight more need two sheets.
    spaces = Spaces(between=8.0, edge=5.0)
    offcut = Blank(name="rest", outline=box(330.0, 220.0), offcut=True)
    sheet = Blank(name="s", outline=box(622.0, 402.0), price=1.0)
    shapes = [Shape(mark="P", outline=box(300.0, 190.0), count=9)]
    found = nest(shapes, [sheet, offcut], spaces, seconds=1)
    assert faults(found, shapes, spaces) == []
    assert [s.blank.name for s in found.sheets] == ["rest", "s", "s"]


def test_clear_room_between_clamps_by_hand() -> None:
    # Clamps in two corners of 1000 x 600, edge 10, 5 kept to a clamp: above both, 1000 - 20 long
    # and from 85 to 590; or between them, from 105 to 895 along.
    corners = (box(100.0, 80.0), box(100.0, 80.0, 900.0, 0.0))
    blank = Blank(name="s", outline=box(1000.0, 600.0), clamps=corners)
    spaces = Spaces(between=5.0, edge=10.0)
    assert clear_room(blank, spaces) == (10.0, 85.0, 990.0, 590.0)
    high = tuple(box(100.0, 500.0, x, 0.0) for x in (0.0, 900.0))
    assert clear_room(replace(blank, clamps=high), spaces) == (105.0, 10.0, 895.0, 590.0)
    assert clear_room(replace(blank, clamps=(box(1000.0, 600.0),)), spaces) is None


def test_denser_engine_keeps_clear_of_clamps() -> None:
    clamp = box(60.0, 420.0)
    blank = Blank(name="s", outline=box(960.0, 420.0), price=1.0, clamps=(clamp,))
    found = checked(SHAPES * 1, [blank], seconds=1)
    plain = checked(SHAPES * 1, [blank])
    assert found.new_sheets <= plain.new_sheets


def test_pieces_of_one_sheet_count_as_one_sheet() -> None:
    # By hand: four of 300 x 200 lie two on each half of a sheet, so one sheet is bought.
    halves = [Blank(name=n, outline=box(330.0, 420.0), price=9.0, of="whole") for n in ("1", "2")]
    made = checked([Shape(mark="A", outline=box(300.0, 190.0), count=4)], halves)
    assert (made.new_sheets, made.bound.sheets) == (1, 1)
    assert len(made.sheets) == 2
    more = checked([Shape(mark="A", outline=box(300.0, 190.0), count=5)], halves)
    assert more.new_sheets == 2
