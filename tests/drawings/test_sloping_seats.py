"""General arrangement of a chair whose seat falls to the rear: what a body cares for is told."""

from __future__ import annotations

import pytest

from flatpack.drawings.general_arrangement import general_arrangement
from flatpack.drawings.shapes import Dimension, Drawing, Text
from flatpack.parameters import replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load


def sheet(height: float, slope: float) -> Drawing:
    chair = PIECES["low-chair"]
    record = chair.record(name="Trial")
    record = replace(record, size=replace(record.size, height=height))
    record = replace(record, seat=replace(record.seat, slope=slope))
    (made,) = general_arrangement(chair.build(record, load(profile_texts())), {})
    return made


@pytest.mark.parametrize(("height", "slope"), [(370.0, 14.0), (381.0, 15.5)])
def test_front_edge_slope_and_lean(height: float, slope: float) -> None:
    made = sheet(height, slope)
    said = {s.shape.text for s in made.strokes if isinstance(s.shape, Dimension | Text)}
    assert f"{height:g}" in said
    assert f"{slope:g}°" in said
    # The back is 104 to the seat: it leans 14 more than the seat falls.
    assert f"{14.0 + slope:g}°" in said


def test_heights_are_measured_from_the_ground() -> None:
    """No corner that is cut off a sloping rail reaches below the feet."""
    made = sheet(370.0, 14.0)
    tall = [
        s.shape
        for s in made.strokes
        if isinstance(s.shape, Dimension) and s.shape.start.x == s.shape.end.x
    ]
    assert {round(d.start.y, 6) for d in tall} == {round(tall[0].start.y, 6)}
    for d in tall:
        assert (d.end.y - d.start.y) / made.scale == pytest.approx(float(d.text), abs=0.051)
