"""The hole table against fasteners' places in space, and lettering that must not overlap."""

import itertools

import pytest

from flatpack.drawings.drilling_sheet import drilling_sheets, patterns
from flatpack.drawings.general_arrangement import general_arrangement
from flatpack.drawings.holes import csv_rows
from flatpack.drawings.lettering import text_box
from flatpack.drawings.marks import groups, marks_by_key
from flatpack.drawings.part_view import part_drawing
from flatpack.drawings.shapes import Cross, Text


def _rows(piece):
    return csv_rows(groups(piece))


def test_rows_stand_where_the_fasteners_axes_meet_the_part(piece):
    marks = marks_by_key(groups(piece))
    checked = 0
    for fastener in piece.fasteners:
        if fastener.kind != "coach bolt":
            continue
        for key in fastener.passes:
            part = piece.parts[key]
            corner = part.frame.place(*part.outline.bounds[:2])
            way = fastener.start.minus(corner)
            wanted = way.dot(part.frame.x), way.dot(part.frame.y)
            found = [(r[3], r[4]) for r in _rows(piece) if r[0] == marks[key]]
            assert any(spot == pytest.approx(wanted, abs=0.05) for spot in found)
            checked += 1
    assert checked == 12


def test_pocket_rows_are_set_back_by_half_the_thickness_over_the_slopes_tangent(piece, sizes):
    # (t/2) / tan 15 from the edge (plane geometry); tan 15 = 2 - sqrt 3.
    t = piece.parts["rail-left"].thickness
    wanted = round(sizes.rail - t / 2.0 / (2.0 - 3.0**0.5), 1)
    ys = {r[4] for r in _rows(piece) if r[0] == "A-L" and r[8] == "pocket-hole"}
    assert ys == {wanted}


def test_both_hands_have_the_same_table(piece):
    def table(mark):
        return [(r[2:8], r[8]) for r in _rows(piece) if r[0] == mark]

    assert table("A-L") == table("A-R")
    assert table("A-L")


def test_hands_are_two_patterns_and_like_parts_one(piece):
    found = patterns(groups(piece))
    marks = [tuple(g.mark for g in p.groups) for p in found]
    assert ("A-L",) in marks
    assert ("A-R",) in marks
    assert len(marks) == len(set(marks)) == 10


def test_every_hole_through_or_blind_has_its_centre_cross(piece, settings):
    found = groups(piece)
    sheet = next(d for d in drilling_sheets(piece, found, settings) if d.name.startswith("A-L"))
    crosses = {(round(s.shape.centre.x, 1), round(s.shape.centre.y, 1))
               for s in sheet.strokes if isinstance(s.shape, Cross)}  # fmt: skip
    length = found[0].part.length
    holes = {(round(length - r[3], 1), r[4]) for r in _rows(piece)
             if r[0] == "A-L" and r[8] == "drill-through"}  # fmt: skip
    assert holes
    assert holes <= crosses


def test_no_lettering_covers_other_lettering(piece, settings):
    found = groups(piece)
    sheets = (
        *drilling_sheets(piece, found, settings),
        *(part_drawing(piece, g, settings) for g in found),
        *general_arrangement(piece, settings.poses, "7K3M-9QXA"),
    )
    for drawing in sheets:
        texts = [s.shape for s in drawing.strokes if isinstance(s.shape, Text)]
        for a, b in itertools.combinations(texts, 2):
            (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) = text_box(a), text_box(b)
            apart = ax1 <= bx0 or bx1 <= ax0 or ay1 <= by0 or by1 <= ay0
            assert apart, (drawing.name, a.text, b.text)


def test_drilling_sheets_are_full_size_and_hold_everything(piece, settings):
    for drawing in drilling_sheets(piece, groups(piece), settings):
        x0, y0, x1, y1 = drawing.bounds
        assert drawing.scale == 1.0
        for s in drawing.strokes:
            if isinstance(s.shape, Text):
                box = text_box(s.shape)
                assert x0 <= box[0] <= box[2] <= x1
                assert y0 <= box[1] <= box[3] <= y1
