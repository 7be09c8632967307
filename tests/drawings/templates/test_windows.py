"""Windows, sparing, hands, story sticks and labels, on the families and on parts made by hand."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from flatpack.drawings.marks import bar_groups, groups
from flatpack.drawings.shapes import Circle, Cross, Drawing, Ellipse, Line, Text
from flatpack.drawings.templates import PrintSettings, sheets
from flatpack.drawings.templates.in_piece import in_piece
from flatpack.drawings.templates.part_labels import labels
from flatpack.drawings.templates.stick_brackets import tiered
from flatpack.drawings.templates.stick_marks import Crossing, sticks
from flatpack.drawings.templates.windows import tape_line, windows
from flatpack.features import Hole
from flatpack.finding import blocks
from flatpack.geometry import Frame, Point, Vec
from flatpack.geometry.shapes import one_round_end, rectangle
from flatpack.model import Assembly, Part

CODE = "7K3M-9QXA"
FAMILIES = pytest.mark.parametrize("family", ["lounger", "bench"])


def alone(profiles, outline, *features, hand="", frame=None) -> Assembly:
    board = profiles.board("ply-18")
    part = Part(key="p", name="Rail", board=board, outline=outline, frame=frame or Frame(),
                features=features, hand=hand)  # fmt: skip
    return Assembly(family="test", name="Trial", parts={"p": part})


def words_on(drawing: Drawing) -> list[str]:
    return [s.shape.text for s in drawing.strokes if type(s.shape) is Text]


def test_a_plain_board_needs_no_paper(profiles) -> None:
    piece = alone(profiles, rectangle(1900.0, 95.0))
    assert windows(groups(piece)[0], 150.0) == ()
    made = sheets(piece, PrintSettings())
    assert made.pages == 0
    assert [b.name for b in made.booklets] == ["part-labels"]


def test_holes_near_each_other_share_a_window_and_others_do_not(profiles) -> None:
    holes = [Hole(at=Point(x, 40.0), diameter=8.0) for x in (200.0, 225.0, 900.0)]
    made = windows(groups(alone(profiles, rectangle(1900.0, 95.0), *holes))[0], 150.0)
    assert [[s.x for s in w.spots] for w in made] == [[200.0, 225.0], [900.0]]
    # The paper reaches well past the holes (4 mm), over all the width.
    for window, (low, high) in zip(made, ((200.0, 225.0), (900.0, 900.0)), strict=True):
        x0, y0, x1, y1 = window.box
        assert x0 < low - 10.0
        assert x1 > high + 10.0
        assert (y0, y1) == (0.0, 95.0)


def test_a_window_near_an_end_reaches_it(profiles) -> None:
    piece = alone(profiles, rectangle(1900.0, 95.0), Hole(at=Point(25.0, 40.0), diameter=8.0))
    (window,) = windows(groups(piece)[0], 150.0)
    assert window.box[0] == 0.0
    assert tape_line(window, window.box) is None


def test_a_window_in_the_middle_is_tied_to_the_nearest_end(profiles) -> None:
    holes = [Hole(at=Point(x, 40.0), diameter=8.0) for x in (503.0, 1401.0)]
    one, two = windows(groups(alone(profiles, rectangle(1900.0, 95.0), *holes))[0], 150.0)
    for window, end in ((one, 0.0), (two, 1900.0)):
        at = tape_line(window, window.box)
        assert window.box[0] < at < window.box[2]
        assert abs(at - end) % 10.0 == 0.0
    booklet = sheets(alone(profiles, rectangle(1900.0, 95.0), *holes), PrintSettings()).booklets[0]
    said = " ".join(w for page in booklet.pages for w in words_on(page))
    first, second = tape_line(one, one.box), 1900.0 - tape_line(two, two.box)
    assert f"tape line: {first:g} from datum end" in said
    assert f"tape line: {second:g} from other end" in said


def test_a_rounded_end_gets_a_window_with_its_radius(profiles) -> None:
    piece = alone(profiles, one_round_end(700.0, 60.0))
    (window,) = windows(groups(piece)[0], 150.0)
    assert window.box[2] == 700.0
    assert window.box[0] < 670.0
    assert "R30" in words_on(sheets(piece, PrintSettings()).booklets[0].pages[0])


def test_a_long_rail_takes_two_or_three_pages(lounger) -> None:
    """The rails are about 1.9 m long: plain tiling takes ten pages and more of A4."""
    made = sheets(lounger, PrintSettings(code=CODE))
    templates = made.booklets[0]
    for hand in ("left", "right"):
        rail = f"Side rail, {hand} hand"
        pages = [p for p in templates.pages if any(t.endswith(rail) for t in words_on(p))]
        assert 2 <= len(pages) <= 3
    assert made.plain > 3 * made.pages
    (said,) = [f for f in made.findings if f.code == "template-pages"]
    assert (said.measured, said.limit) == (made.pages, made.plain)


@FAMILIES
def test_every_hole_is_on_paper_with_its_tape_distances(family, request) -> None:
    piece = request.getfixturevalue(family)
    drawn = [w for page in sheets(piece, PrintSettings()).booklets[0].pages for w in words_on(page)]
    said = set(drawn)
    for group in groups(piece):
        x0, y0, _, _ = group.part.outline.bounds
        for feature in group.part.features:
            if feature.operation.startswith("drill"):
                for value in (feature.at.x - x0, feature.at.y - y0):
                    assert f"{value:.1f}".removesuffix(".0") in said
                size = f"Ø{feature.diameter:.1f}".removesuffix(".0")
                assert any(size in text for text in said)


@FAMILIES
def test_pages_say_what_a_stranger_must_know(family, request) -> None:
    piece = request.getfixturevalue(family)
    for page in sheets(piece, PrintSettings(code=CODE)).booklets[0].pages:
        said = " ".join(words_on(page))
        assert piece.name in said
        assert CODE in said
        assert re.search(r"(BACK|SHOW) FACE up, datum edge below", said)
        assert "grain" in said
        assert re.search(r"datum\s+end (left|right)\.", said)
        assert re.search(r"Not handed|mirror image is", said)
        assert re.search(r"window( \d of \d)?: [\d.]+ to [\d.]+", said)
        assert said.count("must measure") == 2
        assert "actual size" in said
        assert "The tape governs" in said
        assert re.search(r"\d+ of \d+, A4", said)


def test_the_two_hands_are_mirror_images_on_paper(profiles) -> None:
    left = alone(profiles, rectangle(400.0, 60.0), Hole(at=Point(90.0, 20.0), diameter=8.0),
                 hand="left")  # fmt: skip
    part = left.parts["p"]
    both = replace(left, parts={"p": part, "q": part.other_hand("q", 100.0)})
    made = [windows(g, 150.0)[0] for g in groups(both)]
    assert {w.left for w in made} == {True, False}
    a, b = (w.box for w in made)
    assert (a[0], a[2]) == pytest.approx((400.0 - b[2], 400.0 - b[0]))
    said = [" ".join(words_on(p)) for p in sheets(both, PrintSettings()).booklets[0].pages]
    assert "mirror image is A-R" in " ".join(said)
    assert "mirror image is A-L" in " ".join(said)


def test_the_datum_end_points_where_the_frame_puts_it(profiles) -> None:
    """Worked by hand: a part's x axis runs from its datum end; x is towards the head, z up."""
    ways = {(1.0, 0.0, 0.0): "the foot end", (-1.0, 0.0, 0.0): "the head end",
            (0.0, 1.0, 0.0): "the left", (0.0, 0.0, 1.0): "down"}  # fmt: skip
    for x, said in ways.items():
        y = (0.0, 0.0, 1.0) if x[2] == 0.0 else (1.0, 0.0, 0.0)
        frame = Frame(x=Vec(*x), y=Vec(*y))
        piece = replace(alone(profiles, rectangle(400.0, 60.0), frame=frame), bearing="lying")
        told = in_piece(piece, groups(piece))
        assert told.ends["A"].endswith(said)


def test_holes_on_one_axis_name_each_other(profiles) -> None:
    """Two boards face to face, the second 100 further along and 10 further up than the first."""
    board = profiles.board("ply-18")
    low = Part(key="a", name="Low", board=board, outline=rectangle(400.0, 60.0), frame=Frame(),
               features=(Hole(at=Point(30.0, 20.0), diameter=8.0),
                         Hole(at=Point(190.0, 20.0), diameter=8.0)))  # fmt: skip
    frame = Frame(origin=Vec(100.0, 10.0, board.thickness))
    top = Part(key="b", name="Top", board=board, outline=rectangle(200.0, 40.0), frame=frame,
               features=(Hole(at=Point(90.0, 10.0), diameter=8.0),
                         Hole(at=Point(150.0, 10.0), diameter=8.0)))  # fmt: skip
    piece = Assembly(family="test", name="Pair", parts={"a": low, "b": top}, mates=(("a", "b"),))
    meets = in_piece(piece, groups(piece)).meets
    assert meets == {("A", 2): "meets B hole 1", ("B", 1): "meets A hole 2"}


def test_windows_stand_as_they_lie_on_the_part(lounger) -> None:
    """With the datum end at the right, window 1 stands right of window 2 on its page."""
    for page in sheets(lounger, PrintSettings()).booklets[0].pages:
        found = {}
        for stroke in page.strokes:
            if type(stroke.shape) is Text and (
                m := re.match(r"(\S+) window (\d) of \d: ", stroke.shape.text)
            ):
                found[m[1], int(m[2])] = stroke.shape.at
        left = {g.mark: windows(g, 150.0)[0].left for g in groups(lounger) if windows(g, 150.0)}
        for (mark, number), at in found.items():
            beside = found.get((mark, number + 1))
            same = beside and abs(beside.y - at.y) < 0.01
            if same and mark != "C":  # C is worked on both faces, which look opposite ways
                assert (beside.x > at.x) == left[mark]


def test_a_cut_out_window_still_says_what_it_is_for(lounger) -> None:
    said = [w for p in sheets(lounger, PrintSettings()).booklets[0].pages for w in words_on(p)]
    told = [re.fullmatch(r"A-L (\d+)/(\d+) BACK FACE", word) for word in said]
    numbers = sorted({(int(t[1]), int(t[2])) for t in told if t})
    assert len(numbers) > 1
    assert numbers == [(n + 1, len(numbers)) for n in range(len(numbers))]


def test_a_rod_is_not_to_be_drilled(lounger) -> None:
    said = [w for p in sheets(lounger, PrintSettings()).booklets[0].pages for w in words_on(p)]
    assert any(w.startswith("notch: ") for w in said)
    assert not any("rod Ø" in w for w in said)


def test_brackets_that_overlap_stand_in_tiers() -> None:
    one, two, three = Crossing(0.0, 50.0, "E"), Crossing(30.0, 90.0, "F"), Crossing(50.0, 80.0, "G")
    assert tiered((one, two, three)) == {one: 0, two: 1, three: 0}


def test_a_part_past_the_end_is_said_to_be(lounger) -> None:
    """The first back slat starts before its brace does: by how much, from their frames."""
    found = groups(lounger)
    brace, slat = lounger.parts["brace-left"], lounger.parts["back-slat-1"]
    stick = next(s for s in sticks(lounger, found) if s.name == brace.name)
    over = brace.frame.origin.x - (slat.frame.origin.x - slat.width)
    first = min(stick.along.crossings)
    assert first.over == pytest.approx(max(over, 0.0), abs=0.01)


def test_like_parts_of_two_marks_share_one_sheet(bench) -> None:
    text = " ".join(
        w for p in sheets(bench, PrintSettings()).booklets[0].pages for w in words_on(p)
    )
    assert re.search(r"\b[A-Z]-L, [A-Z]: ", text)


@FAMILIES
def test_sticks_have_hands_on_opposite_edges_and_every_pocket(family, request) -> None:
    piece = request.getfixturevalue(family)
    found = groups(piece)
    by_mark = {g.mark: g.part for g in found}
    made = sticks(piece, found)
    seen = set()
    for stick in made:
        hands = [{by_mark[m].hand for m in edge.marks} for edge in stick.edges]
        assert not ("left" in hands[0] and "right" in hands[0])
        assert len({edge.left for edge in stick.edges}) == len(stick.edges)
        for edge in stick.edges:
            for mark in edge.marks:
                part = by_mark[mark]
                pockets = {round(f.at.x - part.outline.bounds[0], 2) for f in part.features
                           if f.operation == "pocket-hole" and f.edge == "long edge"}  # fmt: skip
                assert set(stick.along.pockets) == pockets
                seen.add(mark)
    assert seen >= {
        g.mark for g in found if any(getattr(f, "edge", "") == "long edge" for f in g.part.features)
    }


def test_a_rails_stick_has_every_slat_edge(lounger) -> None:
    """Slat n of the deck starts n pitches from the foot; its edges are where its frame puts it."""
    found = groups(lounger)
    rail = lounger.parts["rail-left"]
    stick = next(s for s in sticks(lounger, found) if s.name == rail.name)
    edges = {(c.low, c.high) for c in stick.along.crossings}
    for key, part in lounger.parts.items():
        if key.startswith("slat-"):
            high = part.frame.origin.x - rail.frame.origin.x
            assert any(
                low == pytest.approx(max(high - part.width, 0.0), abs=0.01)
                and end == pytest.approx(high, abs=0.01)
                for low, end in edges
            ), key


@FAMILIES
def test_there_is_a_label_for_every_part_and_bar(family, request) -> None:
    piece = request.getfixturevalue(family)
    found, bars = groups(piece), bar_groups(piece)
    made = labels(piece, found, bars, CODE)
    assert len(made) == len(piece.parts) + len(piece.bars)
    for label in made:
        assert re.fullmatch(r"[A-Z]+\d*(-[LR])?", label.mark)
        assert CODE in label.lines
        assert ("hand" in label.heading) == label.mark.endswith(("-L", "-R"))
    text = " ".join(w for p in sheets(piece, PrintSettings()).booklets[-1].pages
                    for w in words_on(p))  # fmt: skip
    assert all(label.mark in text for label in made)


def test_nothing_of_one_panel_lies_on_another(lounger) -> None:
    """Panels are boxes in thin line; none overlaps another on its page."""
    for page in sheets(lounger, PrintSettings()).booklets[0].pages:
        boxes = [s.shape.outline.bounds for s in page.strokes
                 if s.layer == "thin-line" and hasattr(s.shape, "outline")
                 and len(s.shape.outline.segments) == 4]  # fmt: skip
        panels = [b for b in boxes if b[2] - b[0] >= 80.0 and b[3] - b[1] >= 60.0][1:]
        for i, a in enumerate(panels):
            for b in panels[:i]:
                assert a[2] <= b[0] + 1e-6 or b[2] <= a[0] + 1e-6 \
                    or a[3] <= b[1] + 1e-6 or b[3] <= a[1] + 1e-6  # fmt: skip


def test_papers_take_fewer_pages_the_larger_they_are(lounger) -> None:
    counts = [sheets(lounger, PrintSettings(paper=p)).pages for p in ("A4", "A3", "A2", "A1", "A0")]
    assert counts == sorted(counts, reverse=True)
    assert counts[-1] == 1


def test_the_same_piece_gives_the_same_pages(bench) -> None:
    assert sheets(bench, PrintSettings()) == sheets(bench, PrintSettings())


def test_a_faulty_design_says_so_on_every_page(bench) -> None:
    made = sheets(bench, PrintSettings(faulty=True))
    assert all("NOT FOR CUTTING" in " ".join(words_on(p)) for b in made.booklets for p in b.pages)
    assert not blocks(made.findings)


def test_work_on_both_faces_gets_a_sheet_for_each(profiles) -> None:
    piece = alone(
        profiles, rectangle(400.0, 60.0),
        Hole(at=Point(90.0, 20.0), diameter=8.0, depth=9.0, face="show"),
        Hole(at=Point(190.0, 20.0), diameter=8.0, depth=9.0, face="back"),
        Hole(at=Point(290.0, 20.0), diameter=8.0, depth=9.0, face="back"),
    )  # fmt: skip
    said = " ".join(
        w for p in sheets(piece, PrintSettings()).booklets[0].pages for w in words_on(p)
    )
    assert "BACK FACE" in said
    assert "SHOW FACE" in said
    assert re.search(r"1 more\s.*on the show face", said)


def test_strokes_are_of_known_kinds(lounger) -> None:
    kinds = {type(s.shape) for b in sheets(lounger, PrintSettings()).booklets for p in b.pages
             for s in p.strokes}  # fmt: skip
    assert kinds >= {Circle, Cross, Ellipse, Line, Text}


@pytest.mark.parametrize(("hand", "mirrored"), [("left", False), ("right", True)])
def test_a_hole_has_its_own_distance_under_it(profiles, hand, mirrored) -> None:
    """The hole stands 90 from the datum end on either hand, never 310 (the length is 400)."""
    frame = Frame().mirrored_across(0.0) if mirrored else Frame()
    piece = alone(profiles, rectangle(400.0, 60.0), Hole(at=Point(90.0, 21.0), diameter=8.0),
                  hand=hand, frame=frame)  # fmt: skip
    page = sheets(piece, PrintSettings()).booklets[0].pages[0]
    holes = [s.shape.centre for s in page.strokes
             if s.layer == "drill-through" and type(s.shape) is Circle]  # fmt: skip
    figures = {
        s.shape.text: s.shape.at
        for s in page.strokes
        if type(s.shape) is Text and s.shape.turn == 90.0 and s.shape.text.isdigit()
    }
    assert len(holes) == 1
    assert "310" not in figures
    assert figures["90"].x == pytest.approx(holes[0].x, abs=3.8)
    upright = {s.shape.text: s.shape.at.y for s in page.strokes
               if type(s.shape) is Text and s.shape.across == "right"}  # fmt: skip
    assert upright["21"] == pytest.approx(holes[0].y, abs=0.01)
    # The datum end is drawn heavy where it says, and the part's end lies 90 mm beyond the hole.
    said = " ".join(words_on(page))
    assert f"datum end {'right' if mirrored else 'left'}" in said
    window = windows(groups(piece)[0], 150.0)[0]
    assert window.left is not mirrored
    low, high = sorted(map(window.from_datum, (window.box[0], window.box[2])))
    assert low < 90.0 < high
    tape = figures[f"{window.from_datum(tape_line(window, window.box)):g}"]
    way = -1.0 if mirrored else 1.0
    step = window.from_datum(tape_line(window, window.box)) - 90.0
    assert (tape.x - figures["90"].x) * way * step > 0.0


def test_rows_of_a_stick_join_at_the_same_place(lounger) -> None:
    """Each join line is named and dimensioned alike on the two rows that share it."""
    for booklet in sheets(lounger, PrintSettings()).booklets:
        if booklet.name == "story-sticks":
            said = [t for page in booklet.pages for t in words_on(page) if t.startswith("join ")]
            rows = [t for page in booklet.pages for t in words_on(page) if ": row " in t]
            of = [int(re.search(r"row 1 of (\d+)", t)[1]) for t in rows if ": row 1 of" in t]
            assert len(said) == 2 * sum(n - 1 for n in of)
            assert all(said.count(t) % 2 == 0 for t in said)
