"""Shipped hardware against published tables.

Each table below was read in print or on a page of the standard's values, apart from the profiles;
where a row is known from memory only, the check says so.  Profiles hold the greatest sizes of
heads and nuts, so limits are given as (least, greatest).
"""

from __future__ import annotations

import math

import pytest

from flatpack.profile_files import profile_texts
from flatpack.profiles import Profiles, load

SIZES = (6, 8, 10, 12)


@pytest.fixture(scope="module")
def shipped() -> Profiles:
    return load(profile_texts())


# ISO 273, clearance holes for metal: fine, medium, coarse.
ISO_273 = {
    6: (6.4, 6.6, 7.0),
    8: (8.4, 9.0, 10.0),
    10: (10.5, 11.0, 12.0),
    12: (13.0, 13.5, 14.5),
}


@pytest.mark.parametrize("size", SIZES)
def test_holes_in_metal_are_medium_and_wood_has_its_own(size, shipped):
    for bolt in (shipped.coach_bolt(f"coach-m{size}"), shipped.hex_bolt(f"hex-m{size}")):
        fine, medium, _ = ISO_273[size]
        assert bolt.hole_metal == medium
        assert bolt.hole_wood <= fine + 0.1
        assert bolt.hole_wood != bolt.hole_metal


# ISO 8677 / DIN 603, cup head square neck: head across, head height, neck across, neck depth.
ISO_8677 = {
    6: ((15.45, 16.55), (3.12, 3.88), (5.52, 6.48), (3.4, 4.6)),
    8: ((19.35, 20.65), (4.12, 4.88), (7.42, 8.58), (4.4, 5.6)),
    10: ((23.35, 24.65), (4.62, 5.38), (9.42, 10.58), (5.4, 6.6)),
    12: ((29.35, 30.65), (6.05, 6.95), (11.3, 12.7), (7.25, 8.75)),
}


@pytest.mark.parametrize("size", SIZES)
def test_coach_bolts(size, shipped):
    bolt = shipped.coach_bolt(f"coach-m{size}")
    sizes = (bolt.head_diameter, bolt.head_height, bolt.neck_width, bolt.neck_depth)
    assert sizes == tuple(greatest for _, greatest in ISO_8677[size])


# DIN 603 thread lengths b for bolts up to 125, up to 200, and longer; ISO 888 gives the same.
DIN_603_THREAD = {6: (18, 24, None), 8: (22, 28, 41), 10: (26, 32, 45), 12: (30, 36, 49)}


@pytest.mark.parametrize("size", SIZES)
def test_thread_lengths(size, shipped):
    bolt = shipped.coach_bolt(f"coach-m{size}")
    short, middle, long = DIN_603_THREAD[size]
    assert [bolt.thread_length(n) for n in (80, 125)] == [short, short]
    assert [bolt.thread_length(n) for n in (130, 200)] == [middle, middle]
    if long is not None:
        assert bolt.thread_length(220) == long
    assert bolt.thread_length(10) == 10  # never more than there is


# Mechanical Engineer's Data Handbook, table of standard bolt lengths.
LENGTHS = (20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 90, 100, 110, 120, 130, 140, 150)


@pytest.mark.parametrize("size", SIZES)
def test_bolt_lengths_are_of_the_series(size, shipped):
    for bolt in (shipped.coach_bolt(f"coach-m{size}"), shipped.hex_bolt(f"hex-m{size}")):
        assert {n for n in bolt.lengths if n <= 150} <= set(LENGTHS)
        least = min(bolt.lengths)
        assert [n for n in bolt.lengths if n <= 150] == [n for n in LENGTHS if n >= least]


# ISO 4032: across flats, greatest height, least across corners.
ISO_4032 = {
    5: (8, 4.7, 8.79),  # corners from memory
    6: (10, 5.2, 11.05),
    8: (13, 6.8, 14.38),
    10: (16, 8.4, 17.77),
    12: (18, 10.8, 20.03),
}
# DIN 985, greatest height of nuts with a locking insert (two published tables agree).
DIN_985_HEIGHT = {5: 5, 6: 6, 8: 8, 10: 10, 12: 12}


@pytest.mark.parametrize("size", ISO_4032)
def test_nuts(size, shipped):
    flats, height, corners = ISO_4032[size]
    plain, lock = shipped.nut(f"hex-m{size}"), shipped.nut(f"lock-m{size}")
    assert (plain.across_flats, plain.height) == (flats, height)
    assert (lock.across_flats, lock.height) == (flats, DIN_985_HEIGHT[size])
    for nut in (plain, lock):
        # A hexagon can't be wider across its corners than flats / cos 30.
        assert corners <= nut.across_corners <= flats / math.cos(math.radians(30)) + 0.005


# ISO 7089: inner, outer, thickness.
ISO_7089 = {
    5: (5.3, 10, 1.0),
    6: (6.4, 12, 1.6),
    8: (8.4, 16, 1.6),
    10: (10.5, 20, 2.0),
    12: (13, 24, 2.5),
}
# ISO 7093, large series; M10 seen in print, the others from memory.
ISO_7093 = {6: (6.4, 18, 1.6), 8: (8.4, 24, 2.0), 10: (10.5, 30, 2.5), 12: (13, 37, 3.0)}


@pytest.mark.parametrize(("table", "name"), [(ISO_7089, "washer"), (ISO_7093, "wide")])
def test_washers(table, name, shipped):
    for size, expected in table.items():
        washer = shipped.washer(f"{name}-m{size}")
        assert (washer.inner, washer.outer, washer.thickness) == expected


# Published pilot-hole chart for metric wood screws: softwood, hardwood, clearance.
PILOTS = {3.0: (2.0, 2.5, 3.2), 4.0: (2.5, 3.0, 4.2), 5.0: (3.0, 4.0, 5.2), 6.0: (4.0, 5.0, 6.4)}


@pytest.mark.parametrize("size", [4, 5, 6])
def test_wood_screw_drills(size, shipped):
    screw = shipped.screw(f"wood-{size}")
    assert (screw.pilot_soft, screw.pilot_hard, screw.clearance) == PILOTS[size]


def test_half_size_lies_between_its_neighbours(shipped):
    screw = shipped.screw("wood-3.5")
    drills = (screw.pilot_soft, screw.pilot_hard, screw.clearance)
    for low, value, high in zip(PILOTS[3.0], drills, PILOTS[4.0], strict=True):
        assert low < value < high
        assert value == pytest.approx((low + high) / 2, abs=0.06)


# EN 315 sanded plywood as tabulated by makers: plies, greatest under and over the nominal size.
EN_315 = {
    9: (7, 0.5, 0.4),
    12: (9, 0.7, 0.5),
    15: (11, 0.8, 0.6),
    18: (13, 0.9, 0.7),
    24: (17, 1.1, 0.9),
}


@pytest.mark.parametrize("nominal", EN_315)
def test_birch_plywood(nominal, shipped):
    board = shipped.board(f"ply-{nominal}")
    plies, under, over = EN_315[nominal]
    assert board.layers == plies
    assert board.nominal == nominal
    assert board.thickness == pytest.approx(nominal + (over - under) / 2)


# American Softwood Lumber Standard PS 20, dressed dry sizes, inches (3 in and 5/4 from memory).
DRESSED = {"softwood-1-in": 0.75, "softwood-5-4-in": 1.0, "softwood-2-in": 1.5}
WIDTHS = {"2": 1.5, "3": 2.5, "4": 3.5, "6": 5.5}


@pytest.mark.parametrize(("key", "dressed"), DRESSED.items())
def test_inch_boards(key, dressed, shipped):
    board = shipped.board(key)
    assert board.thickness == pytest.approx(25.4 * dressed)
    assert {round(width / 25.4, 6) for width in board.widths} <= set(WIDTHS.values())


def test_penetrating_stain_covers_what_the_handbook_says(shipped):
    # Wood Handbook, chapter 16: 200 to 400 square feet a US gallon on smooth wood; a foot is
    # 0.3048 m and a US gallon 3.785411784 l.
    stain = shipped.finish("stain")
    per_litre = 0.3048**2 / 3.785411784
    assert stain.coverage_least == pytest.approx(200 * per_litre, abs=0.05)
    assert stain.coverage_most == pytest.approx(400 * per_litre, abs=0.05)


def test_pocket_screws_bite_as_the_trade_says(shipped):
    # Common practice: in 38 mm stock a 63 mm screw bites at least 25 mm into the other piece;
    # in 18 mm stock a 32 mm screw with its shoulder 17 to 19 mm from the end bites 12.6 to 14.5.
    jig = shipped.pocket_jig("pocket-15")
    slope = math.cos(math.radians(jig.angle))
    assert jig.angle == 15
    assert (jig.screw_length(38) - jig.shoulder(38)) * slope == pytest.approx(25, abs=1)
    assert jig.screw_length(18) == 32
    assert 12.6 <= (32 - jig.shoulder(18)) * slope <= 14.5
    # ... and its tip stays under the face of an 18 mm board laid flat.
    assert (32 - jig.shoulder(18)) * slope < 18 - 3


def test_sheet_sizes(shipped):
    # Sheet sizes as published: 1220 or 1250 by 2440 or 2500; inch sheets 4 by 8 ft.
    for board in shipped.every("boards"):
        for long, wide in board.sheets:
            assert (long, wide) in {(2440, 1220), (2500, 1250), (2438.4, 1219.2)}


def test_densities_of_plywood(shipped):
    # Published strength table: mean density of birch plywood 680, of conifer plywood 520 kg/m3.
    assert {shipped.board(f"ply-{t}").density for t in (9, 12, 18)} == {680}
    assert shipped.board("softwood-ply-18").density == 520
