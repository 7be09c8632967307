"""Left and right files of a handed part, laid over each other as a shop would lay two prints.

Pocket marks that coincide mean two of one hand.  The files are written as DXF and read again with
ezdxf; their marks are compared as they stand on the sheet.
"""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from ezdxf.filemanagement import read

from flatpack import checks, job
from flatpack.drawings.marks import groups
from flatpack.drawings.page import Sheet
from flatpack.drawings.part_view import part_drawing
from flatpack.drawings.settings import Settings
from flatpack.model import Assembly
from flatpack.profiles import Profiles

PIECES = (
    "crew-bench", "orchard-lounger", "pond-lounger", "seedling-lounger", "show-bench",
    "sprout-bench",
)  # fmt: skip
Make = Callable[..., Assembly]
Marks = set[tuple[float, float]]


def pocket_marks(whole: Assembly, profiles: Profiles) -> dict[str, dict[str, list[Marks]]]:
    """Name of a handed part -> hand -> the pocket marks of each of its files."""
    workshop = profiles.workshop("default")
    settings = Settings(workshop=workshop, code="trial")
    found: dict[str, dict[str, list[Marks]]] = {}
    for group in groups(whole):
        if not group.part.hand:
            continue
        content = part_drawing(whole, group, settings)
        sheet = Sheet(folder="", name=group.mark, purpose="trial", content=content, format="dxf")
        text = job.written([sheet], workshop)[sheet.path].content.decode()
        drawn = read(io.StringIO(text)).modelspace().query('ELLIPSE[layer=="Pocket hole"]')
        marks = {(round(e.dxf.center.x, 1), round(e.dxf.center.y, 1)) for e in drawn}
        if marks:
            found.setdefault(group.part.name, {}).setdefault(group.part.hand, []).append(marks)
    return found


def coincide(left: Marks, right: Marks) -> bool:
    return left == right


@pytest.mark.parametrize("name", PIECES)
def test_pocket_marks_tell_the_hands_apart(piece: Make, profiles: Profiles, name: str) -> None:
    """But for parts alike from end to end, of which the findings say that their marks don't."""
    whole = piece(name)
    told = [f.message.split(",")[0] for f in checks.run(whole, only=("hands",))]
    found = pocket_marks(whole, profiles)
    assert found
    for part, hands in found.items():
        for left, right in zip(hands["left"], hands["right"], strict=True):
            assert coincide(left, right) is (part in told), part


def test_side_rails_are_among_them(piece: Make, profiles: Profiles) -> None:
    for name in ("orchard-lounger", "pond-lounger", "seedling-lounger"):
        hands = pocket_marks(piece(name), profiles)["Side rail"]
        assert not hands["left"][0] & hands["right"][0]


def test_two_files_of_one_hand_coincide(piece: Make, profiles: Profiles) -> None:
    """The comparison can fail: a left file laid over a left file."""
    (left,) = pocket_marks(piece("pond-lounger"), profiles)["Side rail"]["left"]
    assert coincide(left, set(left))
    assert len(left) > 20
