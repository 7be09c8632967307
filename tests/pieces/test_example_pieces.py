"""The pieces in profiles/pieces, and the built-in values: without fault, held, as wide as sold."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from flatpack import checks
from flatpack.features import Notch
from flatpack.finding import Finding
from flatpack.mechanism.study import Study, clashes, study
from flatpack.model import Assembly, Part
from flatpack.parameters import read_design
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts, read_text
from flatpack.profiles import load

FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"
EXAMPLES = {path.stem: path for path in sorted(FOLDER.glob("*.toml"))}
LOUNGERS = sorted(name for name in EXAMPLES if name.endswith("-lounger"))
LIFTED = sorted(name for name in EXAMPLES if name.endswith(("-lounger", "-box")))
"""Pieces with a back or a lid on a prop."""
SPREAD = 4.0
"""Degrees that a stop may be off with every measure 1 mm off: pivots near the hinge magnify."""


@cache
def piece_of(name: str) -> Assembly:
    profiles = load(profile_texts())
    records = {family: PIECES[family].record for family in PIECES}
    text = read_text(str(EXAMPLES[name]))
    family, record = read_design(records, text, name, known=profiles.known)
    assert list(PIECES[family].conflicts(record, profiles)) == []
    return PIECES[family].build(record, profiles)


@cache
def studied(name: str) -> Study:
    made = study(piece_of(name))
    assert made is not None
    return made


def by_default(family: str) -> Assembly:
    one = PIECES[family]
    profiles = load(profile_texts())
    record = one.record(name="Built-in")
    assert list(one.conflicts(record, profiles)) == []
    return one.build(record, profiles)


def judged(piece: Assembly) -> tuple[Finding, ...]:
    """Findings of every check; what a family remarks of itself is judged by none."""
    return checks.run(piece, only=[name for name in checks.CHECKS if name != "remarks"])


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_fault_and_no_warning_but_of_fingers(name: str) -> None:
    """What moves closes gaps; every other warning can be designed away."""
    found = {(f.severity, f.code) for f in judged(piece_of(name)) if f.severity != "note"}
    moves = name in LIFTED or piece_of(name).folding is not None
    expected = {("warning", "finger-trap")} if moves else set()
    assert found == expected


@pytest.mark.parametrize("family", sorted(PIECES))
def test_built_in_values_have_no_fault(family: str) -> None:
    found = [f for f in judged(by_default(family)) if f.severity in ("fault", "not done")]
    assert found == []


@pytest.mark.parametrize("name", LIFTED)
def test_every_stop_comes_as_wanted_and_holds(name: str) -> None:
    made = studied(name)
    angles = [stop.angle for stop in made.found.stops]
    assert angles == pytest.approx(sorted(made.motion.wanted), abs=0.5)
    assert made.found.passed == ()
    assert all(held.held for held in made.holds)
    assert all(spread.held for spread in made.spreads)
    assert all(knock.captured for knock in made.knocks)


@pytest.mark.parametrize("name", LIFTED)
def test_back_moves_freely_and_comes_down_again(name: str) -> None:
    made = studied(name)
    assert made.path is not None
    assert list(clashes(made)) == []
    assert len(made.releases) == len(made.motion.wanted)
    assert all(one.clears is not None for one in made.releases)


def test_kinds_differ() -> None:
    assert {name for name in LOUNGERS if "block-1-left" in piece_of(name).parts} == {
        "orchard-lounger"
    }
    assert {name for name in LOUNGERS if "axle" in piece_of(name).bars} == {"orchard-lounger"}
    rack = piece_of("pond-lounger").parts["rack-left"]
    assert {f.shape for f in rack.features if isinstance(f, Notch)} == {"half round"}
    boards = {p.board.key for name in EXAMPLES for p in piece_of(name).parts.values()}
    assert boards >= {
        "larch-20",
        "larch-27",
        "pine-28",
        "ply-18",
        "softwood-1-in",
        "softwood-5-4-in",
    }


def tapered(part: Part) -> bool:
    """No straight side along the grain at its widest: such a part is ripped from the next board."""
    top = part.outline.bounds[3]
    return not any(a.y == b.y == top for a, b, bulge in part.outline if bulge == 0.0)


@pytest.mark.parametrize("name", EXAMPLES)
def test_planed_boards_come_in_widths_that_are_sold(name: str) -> None:
    """But for what can only be ripped: arms that fold past the slats, racks, blocks, packers,
    and the boards at the top of a boarded side.
    """
    ripped = ("Arm", "Arm bracket", "Rack", "Tooth block", "Rack bearer", "Hinge packer",
              "End board", "Side board", "Lid board")  # fmt: skip
    for part in piece_of(name).parts.values():
        if part.board.kind == "planed" and part.name not in ripped and not tapered(part):
            assert any(part.width == pytest.approx(w, abs=1e-9) for w in part.board.widths), part


def test_inch_lengths_as_written() -> None:
    """52 in = 1320.8 mm and 17 in = 431.8 mm by the definition of the inch, 25.4 mm."""
    piece = piece_of("seedling-lounger")
    assert piece.parts["rail-left"].length == pytest.approx(1320.8)
    assert piece.parts["slat-1"].length == pytest.approx(431.8)


@pytest.mark.parametrize("name", EXAMPLES)
def test_numbers_kept_for_tests_of_common_practice_are_not_used(name: str) -> None:
    piece = piece_of(name)
    sizes = {round(p.length, 3) for p in piece.parts.values()}
    sizes |= {round(bar.length, 3) for bar in piece.bars.values()}
    sizes |= {round(f.diameter, 3) for f in piece.fasteners if f.kind == "wheel"}
    assert not sizes & {700.0, 648.0, 185.0, 92.5}


@pytest.mark.parametrize("name", LOUNGERS)
def test_spread_of_a_stop_is_told_and_small(name: str) -> None:
    for spread in studied(name).spreads:
        assert spread.reached
        assert spread.angle - SPREAD < spread.low < spread.angle
        assert spread.angle < spread.high < spread.angle + SPREAD
