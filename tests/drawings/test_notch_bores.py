"""A notch with a round seat is one hole, the same on sheet, list, template and among the drills.

The seat's circle goes through the notch's lowest point and has the profile's clearance more than
the rod: its centre lies the radius above the floor, not where the rod's centre rests.
"""

from __future__ import annotations

import pytest

from flatpack.drawings.drilling_sheet import drilling_sheets
from flatpack.drawings.holes import csv_rows, spots
from flatpack.drawings.marks import groups
from flatpack.drawings.settings import Settings
from flatpack.drawings.shapes import Cross
from flatpack.drawings.templates.hole_table import hole_words
from flatpack.drawings.tools import drill_list
from flatpack.parameters import read_design
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
ROD, WIDE = 22.0, 70.0
SOURCE = """
family = "loose-parts"
name = "Two racks"
[boards]
timber = "larch-27"
[parts.rack]
shape = "notched bar"
board = "timber"
length = 600
width = 70
notch = "NOTCH"
rod = 22
at = [200, 300, 400]
"""


def piece(notch: str = "half-round"):
    records = {"loose-parts": PIECES["loose-parts"].record}
    text = SOURCE.replace("NOTCH", notch)
    family, record = read_design(records, text, "racks", known=PROFILES.known)
    return PIECES[family].build(record, PROFILES)


def test_hole_table_has_the_hole_that_is_drilled() -> None:
    form = PROFILES.notch("half-round")
    across, floor = ROD + form.clearance, WIDE - form.depth * ROD
    made = piece()
    (group,) = groups(made)
    rows = [r for r in csv_rows((group,)) if "notch" in r[-1]]
    assert [float(r[3]) for r in rows] == pytest.approx([200.0, 300.0, 400.0], abs=0.05)
    for row in rows:
        assert float(row[4]) == pytest.approx(floor + across / 2.0, abs=0.051)
        assert float(row[5]) == pytest.approx(across)
        # A rod that lies loose touches the seat at its lowest point.
        assert f"rod Ø22 rests at {row[3]:g}, {floor + ROD / 2.0:g}" in row[-1]


def test_template_says_the_same_place_and_size() -> None:
    made = piece()
    (group,) = groups(made)
    across = ROD + PROFILES.notch("half-round").clearance
    for spot in spots(group.part):
        assert f"drill Ø{across:g}, then saw out" in hole_words(spot.features[0], group.part)
        rod = next(f for f in group.part.features if abs(f.at.x - spot.x) < 0.05)
        assert spot.y - rod.at.y == pytest.approx((across - ROD) / 2.0, abs=0.01)


def test_drills_have_its_bit_and_count() -> None:
    made = piece()
    settings = Settings(workshop=PROFILES.workshop("default"), code="QRST-1234")
    across = ROD + PROFILES.notch("half-round").clearance
    rows = drill_list(made, groups(made), settings).rows
    assert [r[3] for r in rows if r[1] == pytest.approx(across)] == [3]
    assert not any(r[1] == pytest.approx(ROD) for r in rows)


def test_drilling_sheet_has_the_cross_of_the_bore_and_not_of_the_rod() -> None:
    made = piece()
    settings = Settings(workshop=PROFILES.workshop("default"), code="QRST-1234")
    (sheet,) = drilling_sheets(made, groups(made), settings)
    crosses = [s.shape.centre for s in sheet.strokes if isinstance(s.shape, Cross)]
    form = PROFILES.notch("half-round")
    floor = WIDE - form.depth * ROD
    for x in (200.0, 300.0, 400.0):
        up = [c.y for c in crosses if c.x == pytest.approx(x, abs=0.01)]
        assert up == pytest.approx([floor + (ROD + form.clearance) / 2.0])


def test_a_notch_without_a_round_seat_is_not_drilled() -> None:
    made = piece("vee")
    (group,) = groups(made)
    settings = Settings(workshop=PROFILES.workshop("default"), code="QRST-1234")
    assert [s.features for s in spots(group.part)] == [(f,) for f in group.part.features]
    assert not drill_list(made, (group,), settings).rows
