"""Stool and table from sheet: numbers by hand, and keys that can't go together."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import pytest

from flatpack.joinery import fitting, wedge_size
from flatpack.model import Assembly, Part
from flatpack.parameters import BoardChoice, Conflict, replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
FAMILIES = ("sheet-stool", "sheet-table")


def record(family: str, values: Mapping[str, object]) -> Any:
    made = PIECES[family].record(name="Trial")
    for path, value in values.items():
        table, _, key = path.rpartition(".")
        if table:
            made = replace(made, **{table: replace(getattr(made, table), **{key: value})})
        else:
            made = replace(made, **{key: value})
    return made


def built(family: str, **values: object) -> Assembly:
    made = record(family, {k.replace("__", "."): v for k, v in values.items()})
    assert list(PIECES[family].conflicts(made, PROFILES)) == []
    return PIECES[family].build(made, PROFILES)


def refused(family: str, values: Mapping[str, object]) -> list[Conflict]:
    return list(PIECES[family].conflicts(record(family, values), PROFILES))


def levels(part: Part) -> list[float]:
    """Heights of the level straight edges (x of the outline's cross edges), each once."""
    return sorted({round(s.start.x, 6) for s in part.outline if s.start.x == s.end.x})


def test_a_crossed_stool_by_hand() -> None:
    """440 high, board 17.7: shoulders at 422.3, tenons up to 439.5, arch at 440 / 5 = 88.

    The slots meet half way from the arch to the shoulders: (88 + 422.3) / 2 = 255.15.
    """
    piece = built("sheet-stool", boards__timber=BoardChoice("ply-18", 17.7))
    lower, upper = piece.parts["leg-lower"], piece.parts["leg-upper"]
    assert levels(lower) == pytest.approx([0.0, 88.0, 255.15, 422.3, 439.5])
    assert levels(upper) == pytest.approx([0.0, 88.0, 255.15, 422.3, 439.5])
    # Width: 350 less 2 x 350 / 25 = 14 overhang.
    assert lower.width == pytest.approx(322.0)
    assert piece.parts["top"].frame.origin.z == pytest.approx(422.3)


def test_a_leg_is_lines_and_arcs_of_exactly_this_area() -> None:
    """Square corners (no cutter): 422.3 x 322 panel, feet 64, arch 88, slot 17.8, tenons 54.

    Roundings: four feet corners of 6 take (1 - pi / 4) r2 each, two hollow ones of 30 give it.
    """
    piece = built(
        "sheet-stool", boards__timber=BoardChoice("ply-18", 17.7), workshop="default",
        legs__rounding=30.0,
    )  # fmt: skip
    leg = piece.parts["leg-lower"]
    corner = 1.0 - math.pi / 4.0
    panel = 422.3 * 322.0 - (322.0 - 2.0 * 64.0) * 88.0
    roundings = corner * (2.0 * 30.0**2 - 4.0 * 6.0**2)
    slot, tenons = (422.3 - 255.15) * 17.8, 2.0 * 54.0 * 17.2
    assert leg.outline.area == pytest.approx(panel + roundings - slot + tenons, abs=1e-6)
    radii = sorted(round(s.radius, 9) for s in leg.outline if s.bulge)
    assert radii == pytest.approx([6.0] * 4 + [30.0] * 2)


def test_the_lap_is_shared_as_told() -> None:
    """0.3 of the lap from the arch up: 88 + 0.3 x (422.3 - 88) = 188.29."""
    piece = built("sheet-stool", boards__timber=BoardChoice("ply-18", 17.7), legs__lap=0.3)
    assert 188.29 in levels(piece.parts["leg-lower"])


def test_a_wedge_by_hand() -> None:
    """26 wide at the entry, 1 in 8, tenon 17.7, tolerance 0.2.

    Errors 3 x 0.2 = 0.6 move it by 0.6 x 8 = 4.8, so 5 to spare; head 5 + 12, tip 5 + 5; 44.7 long;
    26 + 17 / 8 = 28.125 at the head, less 44.7 / 8 = 22.5375 at the tip; draw 1.5 + 0.6 = 2.1.
    """
    size = wedge_size(26.0, 8.0, 17.7, 0.2)
    found = (size.head, size.foot, size.length, size.thick_end, size.thin_end, size.draw)
    assert found == pytest.approx((17.0, 10.0, 44.7, 28.125, 22.5375, 2.1))


@pytest.mark.parametrize("error", [-0.6, 0.6])
def test_a_wedge_still_works_when_all_is_off(error: float) -> None:
    """The slot's outer end off by all errors at once: head and tip still stand out."""
    size = wedge_size(26.0, 8.0, 17.7, 0.2)
    deeper = error * size.taper
    assert size.head - deeper >= 12.0 - 1e-9
    assert size.foot + deeper >= 5.0 - 1e-9


def test_a_sided_table_by_hand() -> None:
    """1100 long, ends 150: sides' outer faces at 150 and 950, so 800 over them.

    The stretcher's tenons stand out 26 + 28 beyond each: 800 + 108 = 908 long.
    """
    piece = built("sheet-table", top__ends=150.0, boards__timber=BoardChoice("ply-18", 17.7))
    stretcher = piece.parts["stretcher-1"]
    assert stretcher.length == pytest.approx(908.0)
    # Two stretchers for 650: 650 / 350 begun twice; 650 / 3 apart about the middle.
    xs = [piece.parts[f"stretcher-{n}"].frame.origin.x - 17.7 / 2.0 for n in (1, 2)]
    assert xs == pytest.approx([325.0 - 650.0 / 6.0, 325.0 + 650.0 / 6.0])
    # Slot: from 17.7 - 2.1 past the shoulder, 26 + 2.1 long, 17.7 + 0.3 high.
    slot = min(stretcher.openings, key=lambda o: o.bounds[0])
    straight = [s for s in slot if s.bulge == 0.0]
    ys = sorted({round(s.start.y, 6) for s in straight if s.start.y == s.end.y})
    xs = sorted({round(s.start.x, 6) for s in straight if s.start.x == s.end.x})
    assert ys[-1] - ys[0] == pytest.approx(18.0)
    assert xs[-1] - xs[0] == pytest.approx(28.1)


@pytest.mark.parametrize(
    ("chosen", "wanted"),
    [(None, (-0.1, 0.1, 0.3)), (0.2, (0.0, 0.2, 0.4)), (0.0, (-0.2, 0.0, 0.2))],
)
def test_all_fits_shift_with_the_one_chosen(
    chosen: float | None, wanted: tuple[float, float, float]
) -> None:
    made = fitting(PROFILES.workshop("small-router"), chosen)
    assert made[:3] == pytest.approx(wanted)


def test_relief_as_the_workshop_asks() -> None:
    """Corner circles of half the smallest cutter, one-sided ones, or square for a chisel."""
    assert fitting(PROFILES.workshop("small-router")).relief == (1.5, False)
    assert fitting(PROFILES.workshop("older-router")).relief == (3.0, True)
    assert fitting(PROFILES.workshop("default")).relief is None


def test_the_fit_trial_by_hand() -> None:
    """Board 17.7: slots of 17.6, 17.7, 17.8, 17.9, 18.0 mm, engraved with 17.7 taken off."""
    piece = built("sheet-stool", boards__timber=BoardChoice("ply-18", 17.7))
    strip, tongue = piece.trials
    ends = [p for p in strip.outline.points if p.y == strip.outline.bounds[3]]
    xs = sorted(p.x for p in ends)[1:-1]
    widths = [b - a for a, b in zip(xs[::2], xs[1::2], strict=True)]
    assert widths == pytest.approx([17.6, 17.7, 17.8, 17.9, 18.0])
    assert [getattr(f, "text", "") for f in strip.features] == ["-0.1", "0", "0.1", "0.2", "0.3"]
    assert (tongue.board, strip.board) == (strip.board, piece.parts["top"].board)


def test_two_boards_have_two_trials() -> None:
    piece = built("sheet-stool", boards__top=BoardChoice("ply-24"))
    assert [p.board.key for p in piece.trials] == ["ply-18", "ply-18", "ply-24", "ply-24"]
    assert built("sheet-stool", fit__trial=False).trials == ()


SIDES: Mapping[str, object] = {"construction": "sides"}
CASES: list[tuple[str, str, Mapping[str, object]]] = [
    ("sheet-stool", "boards.timber", {"boards.timber": BoardChoice("larch-27")}),
    ("sheet-table", "boards.legs", {"boards.legs": BoardChoice("larch-27")}),
    ("sheet-table", "boards.top", {"boards.top": BoardChoice("pine-20")}),
    ("sheet-stool", "top.overhang", {"top.overhang": 150.0}),
    ("sheet-stool", "legs.foot", {"legs.foot": 150.0}),
    ("sheet-stool", "legs.foot", {"legs.foot": 130.0, "legs.rounding": 60.0}),
    ("sheet-stool", "legs.foot", {"legs.spread": 1500.0, "legs.foot": 25.0}),
    ("sheet-stool", "legs.arch", {"legs.arch": 400.0}),
    ("sheet-stool", "top.tenon", {"top.tenon": 140.0}),
    ("sheet-stool", "top.shy", {"boards.top": BoardChoice("ply-9", 5.0), "top.shy": 3.0}),
    ("sheet-stool", "top.ends", {**SIDES, "top.ends": 140.0}),
    ("sheet-stool", "top.ends", {**SIDES, "top.ends": 2.0}),
    ("sheet-stool", "stretcher.drop", {**SIDES, "stretcher.drop": 300.0}),
    ("sheet-stool", "stretcher.width", {**SIDES, "stretcher.width": 300.0, "legs.arch": 200.0}),
    ("sheet-table", "stretcher.apart", {"stretcher.apart": 600.0}),
    ("sheet-table", "stretcher.apart", {"stretcher.apart": 65.0}),
    ("sheet-table", "stretcher.shoulder", {"stretcher.shoulder": 30.0}),
    ("sheet-table", "wedge.width", {"wedge.width": 14.0, "wedge.taper": 6.0,
                                    "boards.legs": BoardChoice("ply-24", 50.0),
                                    "stretcher.width": 160.0}),
]  # fmt: skip


@pytest.mark.parametrize(("family", "key", "values"), CASES)
def test_refused_with_what_would_do(family: str, key: str, values: Mapping[str, object]) -> None:
    found = [c for c in refused(family, values) if c.key == key]
    assert found
    assert all(c.allowed and c.message for c in found)


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("construction", ["crossed", "sides"])
def test_built_in_values_are_sound(family: str, construction: str) -> None:
    from flatpack import checks

    piece = built(family, construction=construction)
    worse = [f for f in checks.run(piece) if f.severity != "note"]
    assert worse == []
    assert checks.for_shop(piece, PROFILES.workshop("small-router")) == ()


def test_the_allowed_value_is_really_allowed() -> None:
    """What a conflict offers is taken: a tenon as wide as told, an overhang as told."""
    for key, value in (("top.tenon", 140.0), ("top.overhang", 150.0), ("legs.arch", 400.0)):
        (told,) = (c for c in refused("sheet-stool", {key: value}) if c.key == key)
        most = float(told.allowed.removeprefix("at most "))
        again = refused("sheet-stool", {key: math.floor(most * 10.0) / 10.0})
        assert [c for c in again if c.key == key] == []
