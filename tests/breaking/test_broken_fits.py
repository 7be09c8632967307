"""Joints without hardware broken on purpose: each break is caught, by the finding that names it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from flatpack import checks
from flatpack.finding import Finding
from flatpack.geometry import Outline, Point, Segment, Vec
from flatpack.model import Assembly, Step

HOLD = ("mates", "fits", "assembling", "locked", "space")
STOOLS = ("clover-stool", "beanpole-stool", "radish-stool")
TABLES = ("compost-table", "nettle-table", "potting-table")
Make = Callable[..., Assembly]


def judged(whole: Assembly) -> list[Finding]:
    return list(checks.run(whole, only=HOLD))


def codes(whole: Assembly) -> set[str]:
    return {f.code for f in judged(whole) if f.severity != "note"}


def about(whole: Assembly, code: str) -> list[str]:
    return sorted(f.part for f in judged(whole) if f.code == code)


def changed(whole: Assembly, key: str, **values: object) -> Assembly:
    part = replace(whole.parts[key], **values)  # type: ignore[arg-type]  # a part's own fields
    return replace(whole, parts={**whole.parts, key: part})


def pushed(whole: Assembly, key: str, by: Vec) -> Assembly:
    frame = whole.parts[key].frame
    return changed(whole, key, frame=replace(frame, origin=frame.origin.plus(by)))


def without(whole: Assembly, key: str) -> Assembly:
    """The piece with a part left out, and with it every joint that it has a share in."""
    return replace(
        whole,
        parts={k: p for k, p in whole.parts.items() if k != key},
        joints=tuple(j for j in whole.joints if key not in j.parts),
        fits=tuple(f for f in whole.fits if key not in (f.part, f.onto)),
        mates=tuple(pair for pair in whole.mates if key not in pair),
    )


def stretched(outline: Outline, beyond: float, by: float) -> Outline:
    """The outline with every corner past y = `beyond` moved up."""

    def moved(p: Point) -> Point:
        return Point(p.x, p.y + by) if p.y > beyond else p

    return Outline(tuple(Segment(moved(s.start), moved(s.end), s.bulge) for s in outline))


@pytest.mark.parametrize("name", STOOLS + TABLES)
def test_unbroken(piece: Make, name: str) -> None:
    assert codes(piece(name)) == set()


@pytest.mark.parametrize("by", [0.05, -0.05, 0.4])
def test_a_slot_of_another_width(piece: Make, by: float) -> None:
    """The part's half beyond its middle moved out: its slot is wider by so much, or narrower."""
    whole = piece("clover-stool")
    leg = whole.parts["leg-lower"]
    middle = (leg.outline.bounds[1] + leg.outline.bounds[3]) / 2.0
    broken = changed(whole, "leg-lower", outline=stretched(leg.outline, middle, by))
    found = [f for f in judged(broken) if f.code == "fit-off" and "leg-upper" in f.part]
    assert len(found) == 1
    assert found[0].measured == pytest.approx(0.1 + by, abs=1e-6)


def test_a_board_of_another_thickness_than_its_slot(piece: Make) -> None:
    """Measured again after cutting: the lower leg's board is 0.3 thinner than its slot expects."""
    whole = piece("clover-stool")
    leg = whole.parts["leg-lower"]
    thinner = replace_board(leg.board, leg.thickness - 0.3)
    assert "fit-off" in codes(changed(whole, "leg-lower", board=thinner))


def replace_board(board: object, thickness: float) -> object:
    from flatpack.parameters import replace as altered

    return altered(board, thickness=thickness)


@pytest.mark.parametrize(
    ("name", "key", "by", "code"),
    [
        ("clover-stool", "leg-upper", Vec(0.0, 0.0, 1.0), "mates-apart"),
        ("clover-stool", "leg-upper", Vec(0.5, 0.0, 0.0), "shared-space"),
        ("clover-stool", "top", Vec(0.0, 0.0, 2.0), "mates-apart"),
        ("clover-stool", "top", Vec(0.4, 0.0, 0.0), "shared-space"),
        ("compost-table", "stretcher-1", Vec(0.0, 0.0, 1.0), "shared-space"),
        ("compost-table", "side-right", Vec(0.0, 1.0, 0.0), "mates-apart"),
        ("compost-table", "wedge-stretcher-1-left", Vec(0.0, 0.5, 0.0), "shared-space"),
    ],
)
def test_a_part_shifted(piece: Make, name: str, key: str, by: Vec, code: str) -> None:
    assert code in codes(pushed(piece(name), key, by))


@pytest.mark.parametrize("name", ["radish-stool", "compost-table", "potting-table"])
def test_without_a_wedge_the_stretcher_slides_out(piece: Make, name: str) -> None:
    """Wedges alone hold the frame; a top that is pressed on would hold the sides as well."""
    frame = without(piece(name), "top")
    assert codes(frame) == set()
    broken = without(frame, "wedge-stretcher-1-left")
    still = "stretcher-2" in frame.parts  # the other stretcher's wedge still ties the sides
    assert about(broken, "unlocked") == ([] if still else ["stretcher-1 / side-left"])
    ends = [key for key in frame.parts if key.endswith("-left") and key.startswith("wedge")]
    for key in ends:
        frame = without(frame, key)
    assert "stretcher-1 / side-left" in about(frame, "unlocked")


def test_a_wedge_not_driven_home_locks_nothing(piece: Make) -> None:
    """Pulled back by 10 it is 10 / 8 = 1.25 narrower at the slot."""
    frame = without(piece("radish-stool"), "top")
    broken = pushed(frame, "wedge-stretcher-1-left", Vec(-10.0, 0.0, 0.0))
    assert about(broken, "wedge-loose") == ["wedge-stretcher-1-left"]
    assert "stretcher-1 / side-left" in about(broken, "unlocked")


def test_a_steep_wedge_is_pushed_out(piece: Make) -> None:
    whole = piece("radish-stool")
    steep = tuple(f._replace(slope=0.3) if f.hold == "wedge" else f for f in whole.fits)
    assert len(about(replace(whole, fits=steep), "wedge-steep")) == 2


def test_a_top_with_play_is_held_by_its_weight(piece: Make) -> None:
    """The press fit taken away: only weight holds the top, which is a warning."""
    whole = piece("clover-stool")
    loose = tuple(f._replace(hold="") if f.part == "top" else f for f in whole.fits)
    found = [f for f in judged(replace(whole, fits=loose)) if f.code == "held-by-weight"]
    assert {f.severity for f in found} == {"warning"}
    assert {f.part for f in found} >= {"top / leg-lower"}


def test_a_press_fit_is_told(piece: Make) -> None:
    assert about(piece("clover-stool"), "held-by-fit") == ["top"]
    assert about(piece("beanpole-stool"), "held-by-fit") == []  # glued


def test_the_top_put_on_too_early_is_in_the_way(piece: Make) -> None:
    """Top before the legs are crossed: the upper leg can't come down any more."""
    whole = piece("clover-stool")
    steps = tuple(sorted(whole.steps, key=lambda step: step.key != "top"))
    found = [f for f in judged(replace(whole, steps=steps)) if f.code == "in-the-way"]
    assert [f.part for f in found] == ["leg-upper / top"]


def test_a_wedge_from_the_wrong_side_is_in_the_way(piece: Make) -> None:
    """Thick end first it doesn't go through."""
    whole = piece("radish-stool")
    turned = tuple(
        f._replace(direction=f.direction.negated()) if f.hold == "wedge" else f for f in whole.fits
    )
    assert "in-the-way" in codes(replace(whole, fits=turned))


def test_two_ways_home(piece: Make) -> None:
    whole = piece("clover-stool")
    top = [f for f in whole.fits if f.part == "top"]
    askew = tuple(
        f._replace(direction=Vec(1.0, 0.0, 0.0)) if f is top[1] else f for f in whole.fits
    )
    assert about(replace(whole, fits=askew), "two-ways-home") == ["top"]


def test_a_slanting_way_is_not_done(piece: Make) -> None:
    """Neither along the part's faces nor square to them: not judged, and said so."""
    whole = piece("clover-stool")
    slant = Vec(0.6, 0.0, -0.8)
    askew = tuple(f._replace(direction=slant) if f.part == "top" else f for f in whole.fits)
    found = [f for f in judged(replace(whole, fits=askew)) if f.code == "slides-home"]
    assert [(f.part, f.severity) for f in found] == [("top", "not done")]


def test_a_joint_without_its_mortise(piece: Make) -> None:
    whole = piece("radish-stool")
    broken = changed(whole, "side-left", openings=())
    assert {"fit-off", "shared-space"} <= codes(broken)


def test_parts_side_by_side_hold_nothing(piece: Make) -> None:
    """A leg without its slot and a good way off: no faces hold the two both ways."""
    whole = piece("clover-stool")
    far = pushed(whole, "leg-upper", Vec(0.0, 0.0, 2000.0))
    assert "fit-missing" in codes(far)


def test_a_slot_without_an_edge_is_missed() -> None:
    """A leg whose arch has no level stretch takes no slot: the check of fits says so."""
    from flatpack.geometry.recess import recessed
    from flatpack.geometry.shapes import disc

    assert recessed(disc(50.0), Point(50.0, 0.0), Point(-1.0, 0.0), 10.0, 20.0) is None


def test_steps_may_have_no_joint(piece: Make) -> None:
    whole = piece("clover-stool")
    more = (*whole.steps, Step("wax", "Wax it"))
    assert codes(replace(whole, steps=more)) == set()
