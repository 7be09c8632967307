"""The sheet of a folding piece: both poses, with the measures that the piece itself has."""

from __future__ import annotations

import math

import pytest

from flatpack.drawings.folding_sheet import folding_sheet
from flatpack.drawings.shapes import Dimension, Drawing, Text
from flatpack.geometry import Vec
from flatpack.model import Assembly, lying
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load


@pytest.fixture(scope="module")
def piece() -> Assembly:
    stool = PIECES["folding-stool"]
    return stool.build(stool.record(name="Trial"), load(profile_texts()))


@pytest.fixture(scope="module")
def sheet(piece: Assembly) -> Drawing:
    return folding_sheet(piece, lying(piece), "CODE-1234")


def dimensions(sheet: Drawing) -> list[Dimension]:
    return [s.shape for s in sheet.strokes if isinstance(s.shape, Dimension)]


def between(piece: Assembly, first: str, second: str) -> float:
    """From hole to hole or bar to bar, measured on the piece, in its side view."""
    a, b = (_middle(piece, key) for key in (first, second))
    return math.dist((a.x, a.z), (b.x, b.z))


def _middle(piece: Assembly, key: str) -> Vec:
    if key in piece.bars:
        return piece.bars[key].frame.origin
    return next(f.start for f in piece.fasteners if f.key == key)


def test_measures_of_the_open_pose(piece: Assembly, sheet: Drawing) -> None:
    said = {d.text for d in dimensions(sheet)}
    pivot, rear = _middle(piece, "pivot-left"), _middle(piece, "bar-rear")
    wanted = [
        440.0,
        pivot.z,
        rear.z,
        rear.x - _middle(piece, "bar-front").x,
        between(piece, "pivot-left", "bar-rear"),
        between(piece, "pivot-left", "bar-front"),
        pivot.z / math.cos(math.radians(39.0)),
        2.0 * pivot.z * math.tan(math.radians(39.0)),
    ]
    for value in wanted:
        assert any(float(text) == pytest.approx(value, abs=0.051) for text in said), value


def test_measures_of_the_folded_pose(piece: Assembly, sheet: Drawing) -> None:
    said = {d.text for d in dimensions(sheet)}
    (thick,) = (w.value for w in piece.workings if w.name == "Folded flat, thick")
    assert any(float(text) == pytest.approx(thick, abs=0.051) for text in said)


def test_dimensions_are_as_long_on_paper_as_they_say(sheet: Drawing) -> None:
    for d in dimensions(sheet):
        drawn = math.dist(d.start, d.end) / sheet.scale
        assert drawn == pytest.approx(float(d.text), abs=0.051)


def test_names_and_facts(sheet: Drawing) -> None:
    said = [s.shape.text for s in sheet.strokes if isinstance(s.shape, Text)]
    assert "Open" in said
    assert "Folded flat, seat stowed" in said
    assert said.count("78.0°") == 2
    assert any("fingers" in text for text in said)


def test_everything_lies_on_the_paper(sheet: Drawing) -> None:
    x0, y0, x1, y1 = sheet.bounds
    for d in dimensions(sheet):
        for p in (d.start, d.end):
            assert x0 < p.x < x1
            assert y0 < p.y < y1


def test_a_piece_that_stands_still_has_none() -> None:
    bench = PIECES["bench"]
    piece = bench.build(bench.record(), load(profile_texts()))
    with pytest.raises(ValueError, match="doesn't fold"):
        folding_sheet(piece, piece, "")
