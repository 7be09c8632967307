"""Loose parts: what is worked on them, what is judged, drawn and refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from flatpack import checks, job
from flatpack.__main__ import main
from flatpack.errors import ParameterErrors
from flatpack.features import Countersink, Hole, PocketHole, Slot
from flatpack.pieces.common.generators import GENERATORS
from flatpack.pieces.loose_parts.parameters import PART_KINDS
from flatpack.profile_files import profile_texts, read_text

EXAMPLE = Path(__file__).parents[2] / "profiles" / "pieces" / "shed-spares.toml"
HEAD = 'family = "loose-parts"\nboards = { ply = "ply-18" }\n\n[parts.arm]\n'
ARM = f'{HEAD}shape = "rounded bar"\nlength = 400\nwidth = 60\n'


def made(text: str) -> job.Design:
    return job.design(text, "x.toml", profile_texts())


def codes(text: str) -> set[tuple[str, str]]:
    return {(f.severity, f.code) for f in made(text).findings}


def test_every_shape_but_a_row() -> None:
    assert set(PART_KINDS) == set(GENERATORS) - {"slats"}


def test_counts_and_hands() -> None:
    assembly = made(f"{ARM}pieces = 3\nhands = true\n").assembly
    assert list(assembly.parts) == [
        f"arm-{n}-{hand}" for n in (1, 2, 3) for hand in ("left", "right")
    ]
    left, right = assembly.parts["arm-1-left"], assembly.parts["arm-1-right"]
    assert left.outline == right.outline
    assert left.frame.mirrored is not right.frame.mirrored


def test_what_is_given_is_worked() -> None:
    """A pocket's ellipse stands (t / 2) / tan 15 in from the edge that its screw leaves."""
    text = f"""{ARM}
holes = [{{ at = [[30, 30], [370, 30]], diameter = 8.5, sink = 16 }}]
slots = [{{ ends = [[150, 30], [250, 30]], width = 12, depth = 5, face = "back" }}]
pockets = [{{ side = "lower", at = [200] }}]
"""
    part = made(text).assembly.parts["arm"]
    kinds = [type(f) for f in part.features]
    assert kinds == [Hole, Countersink, Hole, Countersink, Slot, PocketHole]
    assert part.features[4].callout() == "slot 12 x 112 5 deep"
    assert tuple(part.features[5].at) == pytest.approx((200.0, 17.9 / 2.0 / 0.2679491924))


@pytest.mark.parametrize(
    ("given", "found"),
    [
        ("", set()),
        ("holes = [{ at = [[4, 30]], diameter = 8 }]", {("fault", "wall")}),
        ("holes = [{ at = [[200, 30], [205, 30]], diameter = 8 }]", {("fault", "web")}),
        ("holes = [{ at = [[200, 80]], diameter = 8 }]", {("fault", "hole-outside")}),
    ],
)
def test_checks_of_single_parts(given: str, found: set[tuple[str, str]]) -> None:
    faults = {(s, c) for s, c in codes(ARM + given) if s == "fault"}
    assert bool(faults) is bool(found)


def test_nothing_of_a_piece_is_judged() -> None:
    """Two arms far apart touch nothing, and that is right."""
    design = made(f"{ARM}pieces = 2\nholes = [{{ at = [[30, 30]], diameter = 8 }}]\n")
    assert [f for f in design.findings if f.severity != "note"] == []
    told = job.with_strength(design).findings
    assert {f.code for f in told if f.severity == "not done"} == {
        "strength", "strength-loads-not-done",
    }  # fmt: skip
    assert not any(f.code.startswith(("safety-standing", "safety-gap")) for f in told)
    assert tuple(checks.CHECKS) > checks.PART_CHECKS or set(checks.PART_CHECKS) < set(checks.CHECKS)


def test_longer_than_any_sheet_is_a_fault() -> None:
    assert ("fault", "larger-than-sheet") in codes(ARM.replace("400", "2900"))


def test_lengths_may_name_measures_boards_and_other_parts() -> None:
    text = f"""{ARM.replace("length = 400", 'length = "reach plus 60"')}
[parts.block]
shape = "board"
length = "arm.length less ply.thickness"
width = "arm.width"

[measures]
reach = 300
"""
    parts = made(text).assembly.parts
    assert parts["arm"].length == pytest.approx(360.0)
    assert parts["block"].length == pytest.approx(360.0 - 17.9)
    assert parts["block"].width == pytest.approx(60.0)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (ARM.replace("length = 400\n", ""), "x.toml:4: parts.arm.length: missing"),
        (ARM + "left = 3\n", "x.toml:8: parts.arm.left: unknown key"),
        (ARM.replace("400", "50"), "x.toml:4: parts.arm: it is too short for its round ends"),
        (ARM.replace("400", '"arm.width"') + 'title = "Arm"\n',
         "x.toml:4: parts.arm: it is too short for its round ends"),
        (ARM.replace("400", '"arm.length"'), "x.toml:6: parts.arm.length: circular"),
        (ARM + "pieces = 0\n", "x.toml:8: parts.arm.pieces: too small"),
        (ARM.replace("ply-18", "ply-81"), 'x.toml:2: boards.ply: no such name among the boards'),
    ],
)  # fmt: skip
def test_bad_input(text: str, fault: str) -> None:
    with pytest.raises(ParameterErrors) as raised:
        made(text)
    assert any(str(one).startswith(fault) for one in raised.value.faults)


def test_the_example_is_drawn_without_what_belongs_to_a_piece(tmp_path: Path) -> None:
    assert main(["draw", str(EXAMPLE), "--out", str(tmp_path / "out")]) == 0
    folders = {path.name for path in (tmp_path / "out").iterdir()}
    assert folders == {
        "boards", "drilling", "lists", "parts", "templates",
        "job-sheet.html", "findings.json", "manifest.json",
    }  # fmt: skip


def test_the_example_is_planned(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    command = ["cut", str(EXAMPLE), "--nest", "--workshop", "small-router", "--out"]
    assert main([*command, str(tmp_path / "cut")]) == 0
    assert "0 faults" in capsys.readouterr().out
    assert job.design(read_text(str(EXAMPLE)), "x", profile_texts()).family == "loose-parts"
