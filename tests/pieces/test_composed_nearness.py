"""Gaps between parts, against hand sums."""

from __future__ import annotations

import math

import pytest

from flatpack.frozen import replace
from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import disc, rectangle
from flatpack.model import Bar, Part, axis_frame
from flatpack.pieces.composed.nearness import nearest_part
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
BOARD = PROFILES.board("larch-27")
HALF = math.sqrt(0.5)
OWN = Part(key="own", name="Own", board=BOARD, outline=rectangle(200.0, 100.0), frame=Frame())


def other(origin: Vec, x: Vec = X, y: Vec = Y) -> Part:
    frame = Frame(origin, x, y, x.cross(y))
    return Part(key="o", name="O", board=BOARD, outline=rectangle(200.0, 100.0), frame=frame)


CASES = {
    # 30 beside and 40 behind, and 0 above: 50 from edge to edge.
    "edges": (other(Vec(230.0, 140.0, 0.0)), 50.0),
    # Corner to corner: 20, 30 and 60 apart make 70, as 4 + 9 + 36 = 49.
    "corners": (other(Vec(220.0, 130.0, 87.0)), 70.0),
    "faces": (other(Vec(10.0, 10.0, 35.0)), 8.0),
    # A corner over the middle of the face, standing on it turned up by 45 about y.
    "corner over a face": (
        other(Vec(60.0, 0.0, 32.0), Vec(HALF, 0.0, HALF)), 5.0,
    ),
    # Its end, turned up by 45, begins 10 beside the upper edge: 10 / sqrt 2 along its own length.
    "edge before an end": (other(Vec(210.0, -50.0, 27.0), Vec(HALF, 0.0, HALF)), 10.0 * HALF),
    # Standing on an edge 10 above, which runs out beyond both long edges of the face.
    "crossing edges": (
        other(Vec(100.0, 150.0, 37.0), Vec(0.0, -1.0, 0.0), Vec(HALF, 0.0, HALF)), 10.0,
    ),
    "through each other": (other(Vec(100.0, 50.0, -100.0), Z, Y), 0.0),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_gap_between_boards(name: str) -> None:
    part, expected = CASES[name]
    found = nearest_part(OWN, [OWN, part])
    assert found is not None
    assert found.gap == pytest.approx(expected, abs=1e-9)


def test_nearest_of_several_and_none() -> None:
    near, far = other(Vec(210.0, 0.0, 0.0)), other(Vec(0.0, 0.0, 300.0))
    found = nearest_part(OWN, [far, replace(near, key="near")])
    assert found is not None
    assert found.key == "near"
    assert found.gap == pytest.approx(10.0)
    assert nearest_part(OWN, [OWN]) is None


def test_round_shapes_and_bars() -> None:
    """A disc's rim 15 from the end, followed to 0.5 mm; a bar's skin 20 less its radius away."""
    disc_beside = Part(key="d", name="D", board=BOARD, outline=disc(50.0, 265.0, 50.0),
                       frame=Frame())  # fmt: skip
    found = nearest_part(OWN, [disc_beside])
    assert found is not None
    assert found.gap == pytest.approx(15.0, abs=0.5)
    stock = PROFILES.rod("hardwood-22")
    bar = Bar(key="b", name="B", stock=stock, length=300.0,
              frame=axis_frame(Vec(-50.0, 50.0, 47.0), X))  # fmt: skip
    found = nearest_part(OWN, [bar])
    assert found is not None
    assert found.gap == pytest.approx(20.0 - stock.diameter / 2.0)
