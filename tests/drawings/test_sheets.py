"""Tables, job sheet and the register of sheets."""

import re
from collections import Counter
from dataclasses import replace

import pytest

from flatpack.drawings.inside_corners import smallest_inside_radius
from flatpack.drawings.marks import groups
from flatpack.drawings.page import Page, Table
from flatpack.drawings.registry import TABLES, drawings
from flatpack.drawings.shapes import Drawing, Text
from flatpack.geometry import closed
from flatpack.geometry.shapes import filleted, rectangle
from flatpack.parameters import replace as changed
from flatpack.wording import english as words


def _table(piece, settings, name):
    table = TABLES[name](piece, groups(piece), settings)
    return [dict(zip(table.header, row, strict=True)) for row in table.rows]


def test_the_cutting_list_counts_every_part_with_its_measured_thickness(piece, settings):
    rows = _table(piece, settings, "cutting-list")
    assert sum(r["count"] for r in rows) == len(piece.parts)
    slat = next(r for r in rows if r["name"] == "deck slat")
    assert (slat["length"], slat["width"], slat["count"]) == (560.0, 62.0, 9)
    rail = next(r for r in rows if r["mark"] == "A-L")
    assert rail["thickness measured"] == piece.parts["rail-left"].board.thickness
    assert rail["notes"] == "pair: one of each hand"


def test_a_hand_without_as_many_of_the_other_is_not_called_a_pair(piece, settings):
    parts = {k: p for k, p in piece.parts.items() if k != "leg-right"}
    rows = _table(replace(piece, parts=parts), settings, "cutting-list")
    assert next(r for r in rows if r["mark"] == "D-L")["notes"].startswith("mind the hand")


def test_the_drills_are_those_of_the_holes_each_once(piece, settings):
    rows = _table(piece, settings, "drills")
    wanted = Counter()
    for part in piece.parts.values():
        for f in {f.key(): f for f in part.features}.values():
            if f.operation not in ("thin-line",):
                wanted[round(f.diameter, 3), f.operation == "countersink"] += 1
    found = Counter()
    for r in rows:
        found[r["diameter"], r["drill"] == "countersink"] += r["holes"]
    assert found == wanted
    assert len({(r["drill"], r["diameter"]) for r in rows}) == len(rows)


def test_jig_settings_name_collar_and_screw(piece, settings):
    rows = _table(piece, settings, "jig-settings")
    assert sum(r["holes"] for r in rows) == sum(
        f.operation == "pocket-hole" for p in piece.parts.values() for f in p.features
    )
    assert all("17.9 board" in r["setting"] and "32" in r["screw"] for r in rows)


def test_tools_come_from_what_is_worked(piece, settings):
    tools = " ".join(r["tool"] for r in _table(piece, settings, "tools"))
    assert "pocket-hole jig" in tools
    assert "spanner for M8" in tools
    assert "countersink" in tools
    bare = replace(piece, fasteners=(), bars={}, hardware=(), joints=(),
                   parts={"slat-1": piece.parts["slat-1"]})  # fmt: skip
    less = " ".join(r["tool"] for r in _table(bare, settings, "tools"))
    for absent in ("jig", "spanner", "countersink", "hacksaw", "mallet"):
        assert absent not in less


def test_workings_spacers_hardware_and_bars_are_the_piece_s(piece, settings):
    assert len(_table(piece, settings, "workings")) == len(piece.workings)
    assert _table(piece, settings, "spacers")[0]["width"] == 14.0
    assert [(r["item"], r["count"]) for r in _table(piece, settings, "hardware")] == [
        (h.item, h.pieces) for h in piece.hardware
    ]
    assert {r["name"]: r["length"] for r in _table(piece, settings, "bars")} == {
        "prop rod": 480.0, "axle": 680.0,
    }  # fmt: skip


def test_the_job_sheet_warns_of_what_the_cutter_can_not_do(piece, settings):
    rows = {r["mark"]: r for r in _table(piece, settings, "job-sheet")}
    assert "good face down" in rows["A-L"]["face up"]
    assert "pocket holes are marks" in rows["A-L"]["notes"]
    assert "edge" in rows["E-L"]["notes"]
    coarse = replace(settings, workshop=changed(settings.workshop, cutters=(12.0,)))
    notes = {r["mark"]: r["notes"] for r in _table(piece, coarse, "job-sheet")}
    assert "Ø8.5 are smaller than the cutter" in notes["D-L"]


# An ell with its inner corner rounded, sharp, or left as an opening: by hand.
@pytest.mark.parametrize(("radius", "found"), [(7.0, 7.0), (0.0, 0.0)])
def test_the_smallest_inside_radius_is_that_of_the_hollow(piece, radius, found):
    ell = filleted(
        ((0, 0, 20), (100, 0, 0), (100, 40, 0), (50, 40, radius), (50, 90, 0), (0, 90, 0))
    )
    part = replace(piece.parts["slat-1"], outline=ell)
    assert smallest_inside_radius(part) == pytest.approx(found)


def test_outside_corners_need_no_radius_but_an_opening_does(piece):
    slat = piece.parts["slat-1"]
    assert smallest_inside_radius(slat) is None
    assert smallest_inside_radius(replace(slat, openings=(rectangle(30, 20, 50, 20),))) == 0.0
    eye = closed(((60.0, 30.0, 1.0), (80.0, 30.0, 1.0)))
    assert smallest_inside_radius(replace(slat, openings=(eye,))) == pytest.approx(10.0)


def test_paths_are_plain_and_no_two_alike(piece, settings):
    paths = [s.path for s in drawings(piece, settings)]
    assert len(paths) == len(set(map(str.lower, paths)))
    for path in paths:
        assert re.fullmatch(
            r"([a-z]+/)*([A-Z]+\d*(-[LR])?-)?[a-z0-9-]+\.(dxf|svg|csv|html|pdf)", path
        )
    assert "parts/A-L-side-rail-left.dxf" in paths


def test_every_sheet_carries_the_content_code(piece, settings):
    for sheet in drawings(piece, settings):
        if isinstance(sheet.content, Drawing):
            texts = [s.shape.text for s in sheet.content.strokes if isinstance(s.shape, Text)]
            assert any(settings.code in t for t in texts), sheet.path
        elif isinstance(sheet.content, Page):
            assert (words.FACTS["code"], settings.code) in sheet.content.facts


@pytest.mark.parametrize("faulty", [False, True])
def test_a_faulty_design_says_so_across_every_drawing_and_page(piece, settings, faulty):
    for sheet in drawings(piece, replace(settings, faulty=faulty)):
        if isinstance(sheet.content, Drawing):
            said = [s.shape for s in sheet.content.strokes if s.layer == "not-for-cutting"]
            assert [t.text for t in said] == [words.NOT_FOR_CUTTING] * faulty
            assert all(t.height >= 3.5 for t in said)
        elif isinstance(sheet.content, Page):
            assert bool(sheet.content.warning) == faulty


def test_rows_are_as_wide_as_headers_and_the_same_twice(piece, settings):
    first, second = drawings(piece, settings), drawings(piece, settings)
    assert first == second
    for sheet in first:
        if isinstance(sheet.content, Table):
            assert sheet.content.rows
            assert {len(r) for r in sheet.content.rows} == {len(sheet.content.header)}
