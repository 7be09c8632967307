"""Papers, margins and bad input."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest

from flatpack.drawings.shapes import Text
from flatpack.drawings.templates import PAPERS, PrintSettings, paper_named, sheets
from flatpack.drawings.templates.page_frame import Heading, page_frame
from flatpack.drawings.templates.setup import AS_IT_IS, Stretch, correction, page_area

#: ISO 216:2007 table 1; ANSI/ASME Y14.1 A (Letter) and B (Tabloid) and US legal, in inches.
ISO = {"A0": (841, 1189), "A1": (594, 841), "A2": (420, 594), "A3": (297, 420), "A4": (210, 297)}
INCH = {"Letter": (8.5, 11.0), "Legal": (8.5, 14.0), "Tabloid": (11.0, 17.0)}


def test_sizes_are_the_published_ones() -> None:
    sizes = {p.name: (p.short, p.long) for p in PAPERS}
    for name, size in ISO.items():
        assert sizes.pop(name) == size
    for name, (short, long) in INCH.items():
        assert sizes.pop(name) == pytest.approx((short * 25.4, long * 25.4))
    assert not sizes


def test_a_sizes_halve_with_sides_as_one_to_root_two() -> None:
    """ISO 216: A0 is one square metre, each size half the one before, rounded to the mm."""
    a = [paper_named(f"A{n}") for n in range(5)]
    assert a[0].short * a[0].long == pytest.approx(1e6, rel=1e-3)
    for big, small in pairwise(a):
        assert small.long == big.short
        assert abs(small.short - big.long / 2.0) <= 1.0
        assert small.long / small.short == pytest.approx(math.sqrt(2.0), rel=3e-3)


@pytest.mark.parametrize("text", ["a4", " A4 ", "letter", "ROLL:610", "roll:610.5"])
def test_names_are_read_in_either_case(text: str) -> None:
    assert paper_named(text).name.lower() == text.strip().lower()


@pytest.mark.parametrize("text", ["", "A5", "roll:", "roll:0", "roll:-3", "roll:1e3", "A4x"])
def test_unknown_papers_are_refused_with_those_there_are(text: str) -> None:
    with pytest.raises(ValueError, match="A4, Letter, Legal"):
        paper_named(text)


def test_the_frame_stands_ten_millimetres_in() -> None:
    """ISO 5457: borders of 10 mm (but for the filing edge, which templates don't have)."""
    area = page_area(paper_named("A4"), PrintSettings(), landscape=False)
    assert area.frame == (10.0, 10.0, 200.0, 287.0)
    assert area.rulers == (180.0, 240.0)


def test_the_title_strip_has_every_field_that_iso_7200_makes_compulsory() -> None:
    area = page_area(paper_named("A4"), PrintSettings(), landscape=False)
    heading = Heading("Bench", "1:1 templates", "7K3M-9QXA", "2031-05-06", "1 of 2, A4")
    said = {s.shape.text for s in page_frame(area, heading, AS_IT_IS) if type(s.shape) is Text}
    assert said >= {"legal owner", "identification number", "date of issue", "sheet", "title",
                    "approval person", "creator", "document type"}  # fmt: skip
    assert said >= set(heading)


def test_lettering_has_the_heights_of_iso_3098(lounger) -> None:
    series = {1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0}
    for booklet in sheets(lounger, PrintSettings()).booklets:
        for page in booklet.pages:
            texts = [s.shape for s in page.strokes if type(s.shape) is Text]
            assert {t.height for t in texts} <= series


def test_a_correction_makes_the_rulers_true() -> None:
    area = page_area(paper_named("A4"), PrintSettings(), landscape=False)
    assert correction(area, (178.2, 240.6)) == pytest.approx((180 / 178.2, 240 / 240.6))
    assert correction(area, None) == Stretch(1.0, 1.0)
    lying = page_area(paper_named("A4"), PrintSettings(), landscape=True)
    across, up = lying.rulers
    assert correction(lying, (up * 0.99, across * 1.01)) == pytest.approx((1 / 0.99, 1 / 1.01))


@pytest.mark.parametrize(
    ("settings", "code", "remedy"),
    [
        (PrintSettings(paper="B4"), "template-paper", ""),
        (PrintSettings(paper="roll:90"), "template-paper", "roll:297"),
        (PrintSettings(paper="A4", margin=120.0), "template-margin", "A2"),
        (PrintSettings(paper="Letter", border=101.0, margin=7.0), "template-margin", "A2"),
        (PrintSettings(paper="A4", margin=60.0), "template-paper", "A3"),
        (PrintSettings(paper="A0", margin=500.0), "template-margin", "smaller"),
        (PrintSettings(paper="A4", margin=-1.0), "template-margin", ""),
        (PrintSettings(paper="A4", printed=(7.09, 9.45)), "template-printed", "again"),
        (PrintSettings(paper="A4", printed=(0.0, 240.0)), "template-printed", "again"),
        (PrintSettings(paper="A4", printed=(180.0, math.nan)), "template-printed", "again"),
    ],
)
def test_bad_settings_are_a_fault_with_a_way_out(lounger, settings, code, remedy) -> None:
    made = sheets(lounger, settings)
    assert made.booklets == ()
    assert {f.code for f in made.findings} == {code}
    assert {f.severity for f in made.findings} == {"fault"}
    assert all(f.message and remedy in f.remedy for f in made.findings)
    named = made.findings[0].remedy.split()[0] if "would do" in made.findings[0].remedy else ""
    if named:  # and it does
        again = sheets(lounger, replace(settings, paper=named))
        assert again.booklets
        assert not [f for f in again.findings if f.severity == "fault"]


def test_a_name_too_long_is_a_warning_with_a_way_out(bench) -> None:
    long = replace(bench, name="A bench with a name that goes on and on " * 2)
    found = [f for f in sheets(long, PrintSettings()).findings if f.code == "template-text"]
    assert [f.severity for f in found] == ["warning"]
    paper = found[0].remedy.split()[0]
    again = sheets(long, PrintSettings(paper=paper)).findings
    assert not [f for f in again if f.code == "template-text"]


@pytest.mark.parametrize("measured", [(178.2, 240.6), (148.5, 270.675)])
def test_rulers_of_upright_and_lying_pages_can_be_given_back(bench, measured) -> None:
    """Both are 1 % short and 0.25 % long: of 180 and 240 upright, of 150 and 270 lying (A4)."""
    made = sheets(bench, PrintSettings(printed=measured))
    assert not any(f.code == "template-printed" for f in made.findings)
    width, height = made.booklets[0].sizes[0]
    page = made.booklets[0].pages[0].bounds
    scale = sorted(((width / page[2], width), (height / page[3], height)), key=lambda p: p[1])
    assert scale[0][0] == pytest.approx(180.0 / 178.2)
    assert scale[1][0] == pytest.approx(240.0 / 240.6)
