"""Tiles put together by their register marks give back the part: outline and every hole.

The plate is given here by hand; its tiles are read from the PDF, joined only by the printed marks,
and compared with the plate (shapely measures the distances).
"""

from __future__ import annotations

import re

import numpy as np
import pytest
import shapely

from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.templates import PrintSettings, sheets
from flatpack.features import Hole
from flatpack.geometry import Frame, Point, closed
from flatpack.model import Assembly, Part
from flatpack.profile_files import profile_texts
from flatpack.profiles import load
from flatpack.writers import pdf

from .print_reading import Page, read_pdf

LONG, WIDE, RADIUS = 380.0, 300.0, 5.0
#: Corner rounded by a quarter circle of 60 mm; a notch of 50 x 45 in the upper edge.
SHAPE = closed([(0, 0, 0), (LONG - 60, 0, np.tan(np.pi / 8)), (LONG, 60, 0), (LONG, WIDE, 0),
                (200, WIDE, 0), (200, WIDE - 45, 0), (150, WIDE - 45, 0), (150, WIDE, 0),
                (0, WIDE, 0)])  # fmt: skip
HOLES = [(x, y) for x in range(20, 380, 30) for y in (20, 155, 282)
         if not (x > 320 and y < 60) and not (130 < x < 220 and y > 240)]  # fmt: skip
PAPERS = ("A4", "Letter", "Legal", "Tabloid", "A3")


def printed(paper: str, **more: object):
    board = load(profile_texts()).board("ply-18")
    part = Part(key="p", name="Plate", board=board, outline=SHAPE, frame=Frame(),
                features=tuple(Hole(at=Point(*p), diameter=2 * RADIUS) for p in HOLES))  # fmt: skip
    piece = Assembly(family="test", name="Tiled", parts={"p": part})
    return sheets(piece, PrintSettings(paper=paper, **more))


def pages(paper: str) -> list[Page]:
    booklet = printed(paper).booklets[0]
    read = read_pdf(
        pdf.render(list(map(pdf.PdfPage, booklet.pages, booklet.sizes)), DEFAULT_LAYERS)
    )
    # The guide to the sheets may have the first page to itself.
    return [page for page in read if registers(page)]


def registers(page: Page) -> dict[str, np.ndarray]:
    """Name of each register mark -> the centre of its circle, 2.5 mm in radius."""
    names = [w for w in page.words if re.fullmatch(r"R\d+", w.text)]
    found = {}
    for at in page.circles(2.5, 0.01):
        near = min(names, key=lambda w: np.hypot(w.at[0] - at[0], w.at[1] - at[1]))
        found[near.text] = np.array(at)
    return found


def joined(read: list[Page]) -> dict[int, np.ndarray]:
    """Shift of each page into the first one's axes, by marks that both have."""
    marks = [registers(page) for page in read]
    shifts = {0: np.zeros(2)}
    while len(shifts) < len(read):
        before = len(shifts)
        for i in range(len(read)):
            for j in tuple(shifts):
                shared = marks[i].keys() & marks[j].keys()
                if i not in shifts and len(shared) >= 2:
                    steps = [marks[j][m] + shifts[j] - marks[i][m] for m in sorted(shared)]
                    assert np.ptp(steps, axis=0).max() < 0.05, "marks disagree"
                    shifts[i] = np.mean(steps, axis=0)
        assert len(shifts) > before, "tiles that no mark joins"
    return shifts


@pytest.mark.parametrize("paper", PAPERS)
def test_tiles_give_back_holes_and_outline(paper: str) -> None:
    read = pages(paper)
    assert len(read) > 1
    shifts = joined(read)
    spots = np.array([np.array(at) + shifts[i] for i, page in enumerate(read)
                      for at in page.circles(RADIUS, 0.02)])  # fmt: skip
    runs = [np.array(d.points if not d.curves else flat(d)) + shifts[i]
            for i, page in enumerate(read) for d in page.drawn
            if abs(d.width - 0.5) < 0.01 and not in_map(d)]  # fmt: skip
    shift = spots.min(axis=0) - np.array(HOLES, float).min(axis=0)
    for hole in np.array(HOLES, float) + shift:
        assert np.hypot(*(spots - hole).T).min() < 0.05
    for spot in spots:
        assert np.hypot(*(np.array(HOLES, float) + shift - spot).T).min() < 0.05
    drawn = shapely.union_all([shapely.LineString(run) for run in runs])
    rim = np.array(SHAPE.sampled(0.001)) + shift
    dense = shapely.segmentize(shapely.LinearRing(rim), 0.5)
    assert shapely.distance(shapely.points(shapely.get_coordinates(dense)), drawn).max() < 0.05
    other = shapely.points(shapely.get_coordinates(shapely.segmentize(drawn, 0.5)))
    assert shapely.distance(other, dense).max() < 0.05


def flat(drawn) -> list[tuple[float, float]]:
    """Points along lines and curves, close enough for 0.001 mm."""
    curves = {c[0]: c for c in drawn.curves}
    found = []
    for a, b in zip(drawn.points, drawn.points[1:], strict=False):
        c = curves.get(a)
        if c is None or c[3] != b:
            found += [a, b]
            continue
        t = np.linspace(0.0, 1.0, 60)[:, None]
        p = np.array(c)
        found += list(map(tuple, (1 - t) ** 3 * p[0] + 3 * t * (1 - t) ** 2 * p[1]
                          + 3 * t * t * (1 - t) * p[2] + t**3 * p[3]))  # fmt: skip
    return found


def in_map(drawn) -> bool:
    """The small map's frames are rectangles no higher than 8 mm, in the same pen.

    So is the sample in the key to the lines, 16 mm long and level.
    """
    x0, y0, x1, y1 = drawn.box
    if len(drawn.points) == 2 and abs(x1 - x0 - 16.0) < 0.01 and y1 - y0 < 0.01:
        return True
    return drawn.closed and y1 - y0 <= 8.01 and len(drawn.points) <= 6 and x1 - x0 < 60


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_wrong_mark_is_noticed(paper: str) -> None:
    read = pages(paper)
    bent = [d._replace(points=[(x * 1.001, y) for x, y in d.points]) for d in read[1].drawn]
    with pytest.raises(AssertionError):
        joined([read[0], read[1]._replace(drawn=bent), *read[2:]])


def test_tiles_are_reported_with_the_paper_that_takes_the_window_in_one() -> None:
    found = [f for f in printed("A4").findings if f.code == "template-tiles"]
    assert [f.severity for f in found] == ["note"]
    assert "A" in found[0].remedy
    named = found[0].remedy.split()[0]
    assert not [f for f in printed(named).findings if f.code == "template-tiles"]


@pytest.mark.parametrize("margin", [5.0, 12.0])
def test_nothing_that_matters_lies_in_the_margin(margin: float) -> None:
    booklet = printed("A4", margin=margin).booklets[0]
    data = pdf.render(list(map(pdf.PdfPage, booklet.pages, booklet.sizes)), DEFAULT_LAYERS)
    for page in read_pdf(data):
        boxes = np.array([d.box for d in page.drawn])
        low, high = boxes.min(axis=0), boxes.max(axis=0)
        assert low[0] >= margin
        assert low[1] >= margin
        assert high[2] <= page.width - margin
        assert high[3] <= page.height - margin
        for x, y in (spot for w in page.words for spot in (w.at, w.end)):
            assert margin <= x <= page.width - margin
            assert margin <= y <= page.height - margin
