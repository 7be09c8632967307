"""Steps: every joint made once, every part brought once, every screw counted once."""

from __future__ import annotations

from collections import Counter

from flatpack.drawings.book.steps import build_steps, joint_groups

from .conftest import built


def test_every_joint_is_made_once(family: str) -> None:
    made = Counter(j.key for step in build_steps(built(family)) for j in step.joints)
    assert made == Counter(j.key for j in built(family).joints)


def test_every_part_comes_in_once_and_before_it_is_used(family: str) -> None:
    piece = built(family)
    come: list[str] = []
    for step in build_steps(piece):
        assert not set(step.new) & set(come)
        assert set(step.old) <= set(come)
        come += step.new
        assert all(part in come for joint in step.joints for part in joint.parts)
    assert sorted(come) == sorted((*piece.parts, *piece.bars))


def test_hardware_of_all_steps_is_what_is_bought(family: str) -> None:
    piece = built(family)
    taken: Counter[tuple[str, str]] = Counter()
    for step in build_steps(piece):
        for item in step.hardware:
            taken[item.item, item.size] += item.pieces
    assert taken == Counter({(h.item, h.size): h.pieces for h in piece.hardware})


def test_what_is_said_of_joints_adds_up_to_the_fasteners(family: str) -> None:
    piece = built(family)
    for step in build_steps(piece):
        said = sum(g.each * len(g.parts) for g in joint_groups(step, piece))
        hinges = sum(f.kind == "hinge" for f in step.fasteners)
        assert said == len(step.fasteners) - hinges, step.key


def test_back_is_made_apart_from_the_frame() -> None:
    steps = {step.key: step for step in build_steps(built("lounger"))}
    assert not steps["back"].old, "no joint ties the back to the frame before the hinges do"
    assert set(steps["hinges"].old) == {*built("lounger").parts, *built("lounger").bars}


def test_metal_seen_at_a_step_sits_on_parts_that_are_there(family: str) -> None:
    piece = built(family)
    for step in build_steps(piece):
        for fastener in step.placed:
            assert fastener.step != step.key
            assert set(fastener.passes) <= set(step.old)


def test_back_is_drawn_without_the_frame_s_metal() -> None:
    steps = {step.key: step for step in build_steps(built("lounger"))}
    assert {f.step for f in steps["arms"].placed} == {"back"}
    assert {f.step for f in steps["hinges"].placed} >= {"frame", "legs", "back", "arms"}
