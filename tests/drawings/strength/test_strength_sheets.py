"""Sheets about strength: what they open with, that nothing is lost, greys that can be told."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from flatpack import job
from flatpack.drawings.shapes import Closed, Text
from flatpack.drawings.shapes import Path as Chain
from flatpack.drawings.strength.diagrams import bending_drawing
from flatpack.drawings.strength.greys import TONES, tone
from flatpack.drawings.strength.table import percent, state
from flatpack.profile_files import profile_texts, read_text
from flatpack.strength import Check, Diagram
from flatpack.wording import english_strength as words

KEPT = Path(__file__).parents[3] / "profiles" / "pieces"


@cache
def judged(name: str) -> job.Design:
    path = KEPT / f"{name}.toml"
    return job.with_strength(job.design(read_text(str(path)), path.name, profile_texts()))


@cache
def sheets(name: str):
    return {s.path: s for s in job.sheets(judged(name), ["strength"])}


BOTH = pytest.mark.parametrize("name", ["pond-lounger", "crew-bench"])


@BOTH
def test_the_files(name):
    assert set(sheets(name)) == {
        "lists/strength.csv", "strength.html", "strength/use-of-capacity.svg",
        "strength/bending.svg",
    }  # fmt: skip


def test_nothing_unless_it_was_asked():
    made = judged("sprout-bench")._replace(strength=None)
    assert job.sheets(made, ["strength"]) == ()


@BOTH
def test_the_list_has_every_check_worst_first(name):
    report, table = judged(name).strength, sheets(name)["lists/strength.csv"].content
    assert len(table.rows) == len(report.checks)
    column = table.header.index("use %")
    uses = [int(row[column]) for row in table.rows if row[column]]
    assert uses == sorted(uses, reverse=True)
    states = [row[table.header.index("state")] for row in table.rows]
    assert states == sorted(states, key=[words.OVER, words.WITHIN, words.NOT_JUDGED].index)
    for row in table.rows:
        if row[table.header.index("state")] == words.NOT_JUDGED:
            assert row[table.header.index("what is missing")]


@BOTH
def test_the_page_opens_with_what_was_not_judged(name):
    made = judged(name)
    book = sheets(name)["strength.html"].content
    assert book.chapters[0].key == "open"
    first = book.chapters[0].blocks[0].text
    assert first.startswith(f"{len(made.strength.open_joints)} of {len(made.strength.joints)} ")
    rows = book.chapters[0].blocks[1].rows
    counted = sum(int(row[0].split()[0]) for row in rows)
    assert counted == sum(c.use is None for c in made.strength.checks)


@BOTH
def test_the_page_states_every_assumption_case_and_edition(name):
    report = judged(name).strength
    html = job.written(sheets(name).values(), judged(name).workshop)["strength.html"].content
    text = html.decode().replace("&gt;", ">").replace("&lt;", "<").replace("&amp;", "&")
    for said in (*report.assumptions, report.edition, *(c.words for c in report.cases)):
        assert said in text
    assert "replaces testing" in text
    assert "--remedies" in text


def test_remedies_that_were_tried_stand_on_the_page():
    made = judged("crew-bench")
    told = (("slat-1 bending", "tried: a thicker board brings it to 60%"),)
    with_them = made._replace(strength=replace(made.strength, remedies=told))
    book = next(s.content for s in job.sheets(with_them, ["strength"]) if s.name == "strength"
                and s.format == "html")  # fmt: skip
    chapter = next(c for c in book.chapters if c.key == "remedies")
    assert chapter.blocks[0].rows == told


@BOTH
def test_each_part_has_the_grey_of_its_use(name):
    made = judged(name)
    drawing = sheets(name)["strength/use-of-capacity.svg"].content
    tones = {s.shape.tone for s in drawing.strokes if isinstance(s.shape, Closed)}
    wanted = {tone(made.strength.use(key)) for key in made.assembly.parts}
    shown = {tone(made.strength.use(key)) for key in made.assembly.parts if "slat" in key}
    assert shown <= tones
    assert tones <= {*wanted, *TONES, 1.0}
    texts = [s.shape.text for s in drawing.strokes if isinstance(s.shape, Text)]
    worst = max(made.assembly.parts, key=lambda k: made.strength.use(k) or 0.0)
    assert any(t.endswith(f" {percent(made.strength.use(worst))} %") for t in texts)
    assert set(words.BANDS) <= set(texts)


@BOTH
def test_all_stands_within_the_sheet(name):
    from flatpack.drawings.plain import shape_box

    for path in ("strength/use-of-capacity.svg", "strength/bending.svg"):
        drawing = sheets(name)[path].content
        x0, y0, x1, y1 = drawing.bounds
        for stroke in drawing.strokes:
            a, b, c, d = shape_box(stroke.shape)
            assert x0 <= a <= c <= x1, stroke
            assert y0 <= b <= d <= y1, stroke


def test_greys_can_be_told_on_a_copy():
    # Steps of lightness, none smaller than a seventh of the whole range (common practice).
    assert all(a - b > 1.0 / 7.0 for a, b in pairwise(TONES))
    assert tone(None) == 1.0
    assert [tone(u) for u in (0.0, 0.25, 0.26, 0.75, 1.0, 1.01, 9.0)] == [
        TONES[0], TONES[0], TONES[1], TONES[2], TONES[3], TONES[4], TONES[4],
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("use", "text"), [(1.001, "101"), (0.999, "100"), (1.0, "100"), (0.5, "50"), (None, "")]
)
def test_over_capacity_never_reads_as_a_pass(use, text):
    assert percent(use) == text


def test_states():
    check = Check("a", "part", "bending", "c", 1.01, "f", "", "s")
    assert state(check) == words.OVER
    assert state(check._replace(use=1.0)) == words.WITHIN
    assert state(check._replace(use=None)) == words.NOT_JUDGED


def test_a_curve_by_hand():
    # A beam of 1000 with P in the middle: M = P L / 4 = 250 N m at 500 (statics).
    bent = Diagram("x", "case", "flat", (0.0, 500.0, 1000.0), (0.0, 250e3, 0.0), (0.0, 4.0, 0.0))
    report = replace(judged("crew-bench").strength, diagrams=(bent,))
    drawing = bending_drawing(report, "")
    texts = [s.shape.text for s in drawing.strokes if isinstance(s.shape, Text)]
    assert "M 250.0 N m at 500" in texts
    assert "w 4.0 mm at 500" in texts
    curves = [s.shape for s in drawing.strokes if isinstance(s.shape, Chain)]
    assert curves[0].segments[0].end.x == pytest.approx(65.0)  # half of the 130 mm drawn
    assert curves[0].segments[0].end.y > 0.0 > curves[1].segments[0].end.y
