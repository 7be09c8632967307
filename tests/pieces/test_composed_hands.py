"""Pairs that joints work alike stay pairs; a diagonal brace makes two parts of one."""

from __future__ import annotations

import math

import pytest

from flatpack import job
from flatpack.finding import Finding
from flatpack.model import Assembly
from flatpack.profile_files import profile_texts

SIDES = """\
family = "composed"
size = { width = 800, depth = 200 }
boards = { timber = "larch-27", stick = "larch-45" }

[parts.side]
shape = "board"
board = "stick"
width = 95
length = 700
runs = "up"
shows = "left"
pair = "left"
left = 0
rear = "piece.rear"
bottom = 0

[parts.rail]
shape = "board"
board = "timber"
width = 95
runs = "right"
shows = "front"
left = "side-left.right"
right = "side-right.left"
bottom = 300
front = "side.front"

[[joints]]
kind = "pocket screws"
through = "rail"
into = "side"
"""
BRACE = """
[parts.brace]
shape = "board"
board = "timber"
width = 70
length = 1042
runs = "up"
shows = "rear"
leans = 54
leans_to = "right"
mid_width = "piece.middle"
mid_height = 350
front = "side.rear"

[[joints]]
kind = "screws"
through = "brace"
into = "side"
"""


def made(text: str) -> tuple[Assembly, list[Finding]]:
    found = job.design(text, "x.toml", profile_texts())
    return found.assembly, [f for f in found.findings if f.severity == "fault"]


def notes(whole: Assembly) -> list[Finding]:
    return [f for f in whole.remarks if f.code == "pair-differs"]


def test_a_pair_worked_alike_stays_a_pair() -> None:
    whole, faults = made(SIDES)
    assert [whole.parts[f"side-{hand}"].hand for hand in ("left", "right")] == ["left", "right"]
    assert notes(whole) == []
    assert faults == []


def test_a_diagonal_brace_makes_two_parts_of_a_pair() -> None:
    """Low on the left, high on the right: by 755 tan 36 apart, from one side's middle to the other.

    The sides are 45 thick and stand at both ends of 800.
    """
    whole, faults = made(SIDES + BRACE)
    assert faults == []
    left, right = (whole.parts[f"side-{hand}"] for hand in ("left", "right"))
    assert (left.hand, right.hand) == ("", "")
    assert left.name != right.name
    screws = {f.start.y < 400.0: f.start.z for f in whole.fasteners if f.joint.startswith("brace")}
    assert screws[False] - screws[True] == pytest.approx(755.0 * math.tan(math.radians(36.0)))
    [note] = notes(whole)
    assert note.severity == "note"
    assert "side-left and side-right are worked differently (joints[1])" in note.message
    names = {part.name: (part.hand, len(part.features)) for part in whole.parts.values()}
    assert names["Side on the left"][0] == names["Side on the right"][0] == ""


def test_a_hand_that_was_forgotten_is_told_with_its_joint() -> None:
    whole, faults = made(SIDES.replace('right = "side-right.left"', "length = 400").replace(
        'into = "side"', 'into = "side-left"') + '\n[[joints]]\nkind = "screws"\nthrough = '
        '"brace"\ninto = "side-right"\n' + BRACE.partition("[[joints]]")[0])  # fmt: skip
    assert faults == []
    [note] = notes(whole)
    assert "(joints[1])" in note.message  # pocket screws leave no hole in what they go into


LID = """
[parts.lid]
shape = "board"
board = "timber"
width = 95
length = 400
runs = "right"
shows = "up"
mid_width = "piece.middle"
front = "rail.front"
bottom = "rail.top plus {over}"
loose = true
"""


@pytest.mark.parametrize(("over", "gap"), [(12, "12.0"), (0, "")])
def test_a_loose_part_that_touches_nothing_is_allowed_and_told(over: int, gap: str) -> None:
    whole, faults = made(SIDES + LID.format(over=over))
    assert faults == []
    told = [f.message for f in whole.remarks if f.code == "loose-touches-nothing"]
    expected = f"lies loose and touches nothing; the nearest, rail, is {gap} mm off"
    assert told == ([expected] if gap else [])
