"""Parts of real examples broken on purpose: each break is caught, by the finding that names it.

The unbroken examples have no such finding, so each is the break's own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest

from flatpack import checks
from flatpack.features import Hole, Notch
from flatpack.finding import Finding
from flatpack.geometry import Frame, Outline, Point, Segment, Vec
from flatpack.joinery import PocketScrews, machine
from flatpack.model import Assembly, Joint, Part
from flatpack.parameters import replace as altered

PIECES = (
    "crew-bench", "orchard-lounger", "pond-lounger", "seedling-lounger", "show-bench",
    "sprout-bench",
)  # fmt: skip
LOUNGERS = tuple(name for name in PIECES if name.endswith("lounger"))
MADE = (
    "outlines", "boards", "walls", "webs", "screws", "bolts", "alignment", "orphans", "notches",
    "mates", "hands", "slats", "space", "drivers",
)  # fmt: skip
"""Checks of the parts; those of the motion are broken elsewhere."""
Make = Callable[..., Assembly]


def changed(whole: Assembly, key: str, **values: object) -> Assembly:
    part = replace(whole.parts[key], **values)  # type: ignore[arg-type]  # a part's own fields
    return replace(whole, parts={**whole.parts, key: part})


def faults(whole: Assembly) -> list[Finding]:
    return [f for f in checks.run(whole, only=MADE) if f.severity == "fault"]


def codes(whole: Assembly) -> Counter[str]:
    return Counter(f.code for f in faults(whole))


def pushed(frame: Frame, dx: float, dy: float, dz: float) -> Frame:
    return replace(frame, origin=frame.origin.plus(Vec(dx, dy, dz)))


@pytest.mark.parametrize("name", PIECES)
def test_unbroken(piece: Make, name: str) -> None:
    assert faults(piece(name)) == []


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("orchard-lounger", "leg-foot-left"),
        ("pond-lounger", "arm-right"),
        ("seedling-lounger", "brace-left"),
        ("crew-bench", "post-left"),
        ("show-bench", "leg-rear-right"),
        ("sprout-bench", "cleat-left"),
    ],
)
def test_one_hole_moved_2_mm(piece: Make, name: str, key: str) -> None:
    whole = piece(name)
    features = whole.parts[key].features
    first = next(f for f in features if isinstance(f, Hole))
    moved = replace(first, at=Point(first.at.x + 2.0, first.at.y))
    broken = changed(whole, key, features=tuple(moved if f is first else f for f in features))
    told = [f for f in faults(broken) if f.code == "hole-off-axis"]
    assert [f.part for f in told] == [key]
    assert told[0].measured == pytest.approx(2.0)


def turned_over(part: Part) -> Frame:
    """The same room taken by a part of the other hand: its two faces change places."""
    f = part.frame
    return Frame(f.origin.plus(f.z, part.thickness), f.x, f.y, f.z.negated())


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("orchard-lounger", "rail-right"),
        ("orchard-lounger", "bearer-left"),
        ("pond-lounger", "brace-right"),
        ("pond-lounger", "rack-left"),
        ("seedling-lounger", "rail-left"),
        ("crew-bench", "post-right"),
        ("show-bench", "leg-rear-right"),
        ("sprout-bench", "cleat-left"),
    ],
)
def test_two_of_one_hand(piece: Make, name: str, key: str) -> None:
    whole = piece(name)
    broken = changed(whole, key, frame=turned_over(whole.parts[key]))
    assert codes(broken)["two-of-one-hand"] == 1


def shifted_notch(part: Part, by: float) -> tuple[object, ...]:
    first = next(f for f in part.features if isinstance(f, Notch))
    moved = replace(first, at=Point(first.at.x + by, first.at.y))
    return tuple(moved if f is first else f for f in part.features)


@pytest.mark.parametrize("by", [2.0, -2.0])
@pytest.mark.parametrize("name", LOUNGERS)
def test_one_notch_marked_2_mm_off(piece: Make, name: str, by: float) -> None:
    """On a level floor the rod may lie 2 mm from its stop face, but not 2 mm inside it."""
    whole = piece(name)
    key = next(k for k in ("rack-left", "bearer-left") if k in whole.parts)
    found = codes(changed(whole, key, features=shifted_notch(whole.parts[key], by)))
    assert found["notches-out-of-line"] == 1
    assert found["hands-differ"] == 1
    assert found["notch-off"] == (1 if by < 0.0 or name == "pond-lounger" else 0)


@pytest.mark.parametrize("name", ["pond-lounger", "seedling-lounger"])
def test_all_notches_of_one_rack_cut_2_mm_off(piece: Make, name: str) -> None:
    """The corners of the upper edge moved, the marks left where they were."""
    whole = piece(name)
    part = whole.parts["rack-left"]
    low, _, high, top = part.outline.bounds

    def moved(p: Point) -> Point:
        return Point(p.x + 2.0, p.y) if low < p.x < high else p

    outline = Outline(tuple(Segment(moved(a), moved(b), k) for a, b, k in part.outline))
    broken = changed(whole, "rack-left", outline=outline)
    assert outline.bounds[3] == top
    assert codes(broken)["notch-off"] >= 3
    assert codes(broken)["hands-differ"] == 1


def test_one_tooth_block_glued_2_mm_off(piece: Make) -> None:
    whole = piece("orchard-lounger")
    frame = pushed(whole.parts["block-2-right"].frame, -2.0, 0.0, 0.0)
    found = codes(changed(whole, "block-2-right", frame=frame))
    assert found["notch-off"] == 1
    assert found["hole-off-axis"] >= 1


@pytest.mark.parametrize(
    ("name", "key", "push"),
    [
        ("orchard-lounger", "slat-3", (0.0, 0.0, -0.2)),
        ("pond-lounger", "leg-foot-left", (0.0, -0.2, 0.0)),
        ("seedling-lounger", "end-rail-foot", (0.0, 0.2, 0.0)),
        ("crew-bench", "arm-left", (0.0, 0.2, 0.0)),
        ("show-bench", "stretcher-1", (0.0, 0.2, 0.0)),
        ("sprout-bench", "slat-2", (0.0, 0.0, -0.2)),
    ],
)
def test_overlap_of_0_2_mm(
    piece: Make, name: str, key: str, push: tuple[float, float, float]
) -> None:
    whole = piece(name)
    broken = changed(whole, key, frame=pushed(whole.parts[key].frame, *push))
    told = [f for f in faults(broken) if f.code == "shared-space" and key in f.part.split(" / ")]
    assert told
    assert max(f.measured or 0.0 for f in told) == pytest.approx(0.2, abs=0.02)


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("orchard-lounger", "leg-head-left"),
        ("orchard-lounger", "block-1-left"),
        ("pond-lounger", "arm-right"),
        ("seedling-lounger", "hinge-rail"),
        ("crew-bench", "post-middle-1"),
        ("show-bench", "cleat-left"),
        ("sprout-bench", "stretcher-1"),
    ],
)
def test_a_part_left_out(piece: Make, name: str, key: str) -> None:
    whole = piece(name)
    broken = replace(whole, parts={k: p for k, p in whole.parts.items() if k != key})
    told = [f for f in faults(broken) if f.code == "passes-nothing"]
    assert told
    assert all(key in f.message for f in told)


@pytest.mark.parametrize("name", PIECES)
def test_faces_drawn_0_3_mm_apart(piece: Make, name: str) -> None:
    whole = piece(name)
    key = "slat-2"
    broken = changed(whole, key, frame=pushed(whole.parts[key].frame, 0.0, 0.0, 0.3))
    told = [f for f in faults(broken) if f.code == "mates-apart"]
    assert told
    assert all(key in f.part.split(" / ") for f in told)
    assert {f.measured for f in told} == {0.3}


@pytest.mark.parametrize("name", PIECES)
def test_wrong_screws(piece: Make, name: str) -> None:
    """The longest pocket screws that are sold in place of those chosen, and the shortest."""
    whole = piece(name)
    for pick, code in ((max, "tip-cover"), (min, "bite")):
        joints = tuple(
            replace(j, screw=altered(j.screw, lengths=(pick(j.screw.lengths),)))
            if isinstance(j, PocketScrews)
            else j
            for j in whole.joints
        )
        told = checks.run(made_again(whole, joints), only=MADE)
        assert [f for f in told if f.code == code and f.severity in ("fault", "warning")]


def made_again(whole: Assembly, joints: tuple[Joint, ...]) -> Assembly:
    bare = {
        key: replace(part, features=tuple(f for f in part.features if isinstance(f, Notch)))
        for key, part in whole.parts.items()
    }
    fresh = replace(whole, parts=bare, joints=joints, fasteners=(), mates=(), hardware=())
    return machine(replace(fresh, machined=False))
