"""The fit trial on every sheet that the shop and the maker get, and joints of sheet in the book.

The DXF files are read back with ezdxf, which the product doesn't use to write them.
"""

from __future__ import annotations

import io
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from ezdxf.filemanagement import read

from flatpack import job
from flatpack.drawings.marks import groups, trial_groups
from flatpack.profile_files import profile_texts

FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"
KINDS = ("parts", "boards", "lists", "job-page", "book")


@cache
def drawn(name: str) -> dict[str, bytes]:
    text = (FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    made = job.design(text, name, profile_texts())
    return {path: f.content for path, f in job.files(made, job.sheets(made, KINDS)).items()}


def dxf(name: str, path: str) -> Any:
    return read(io.StringIO(drawn(name)[path].decode("utf-8")))


def test_slots_of_the_strip_in_its_own_file() -> None:
    """Hand: 17.7 measured and 0.1 push: 17.6 to 18.0 wide, corners eased by 1.5 mm circles."""
    outlines = dxf("clover-stool", "parts/C-fit-trial.dxf").modelspace().query("LWPOLYLINE")
    (outline,) = (one for one in outlines if one.dxf.layer == "Outline" and len(one) > 10)
    assert outline.closed
    points = outline.get_points("xyb")
    top = max(y for _, y, _ in points)
    xs = sorted(x for x, y, _ in points if abs(y - top) < 1e-6)[1:-1]
    widths = [b - a for a, b in zip(xs[::2], xs[1::2], strict=True)]
    assert widths == pytest.approx([17.6, 17.7, 17.8, 17.9, 18.0])
    bulges = [abs(b) for *_, b in points if b]
    assert len(bulges) == 10
    assert bulges == pytest.approx([1.0] * 10)  # half circles, as true arcs


def test_the_figures_are_engraved_as_strokes_not_text() -> None:
    space = dxf("clover-stool", "parts/C-fit-trial.dxf").modelspace()
    engraved = [e for e in space if e.dxf.layer == "Part mark"]
    assert len(engraved) > 10
    assert {e.dxftype() for e in engraved} <= {"LWPOLYLINE", "LINE", "ARC", "POLYLINE"}
    texts = {e.dxf.text for e in space.query("TEXT")}
    assert not texts & {"-0.1", "0", "0.1", "0.2", "0.3"}


def test_strip_and_tongue_lie_on_the_board_sheet() -> None:
    """One board: its parts, one strip and one tongue, each a closed outline."""
    space = dxf("clover-stool", "boards/all-parts-ply-18.dxf").modelspace()
    closed = [e for e in space.query("LWPOLYLINE") if e.dxf.layer == "Outline" and e.closed]
    assert len(closed) == 3 + 2
    names = [e.dxf.text for e in space.query("TEXT")]
    assert any(text.startswith("C") for text in names)
    assert any(text.startswith("D") for text in names)


def test_lists_and_job_sheet_tell_it_first() -> None:
    files = drawn("clover-stool")
    for path in ("lists/cutting-list.csv", "lists/job-sheet.csv", "job-sheet.html"):
        assert "Fit trial" in files[path].decode("utf-8"), path
    assert "Cut C and D first" in files["job-sheet.html"].decode("utf-8")
    assert "Cut C and D first" not in drawn("sprout-bench")["job-sheet.html"].decode("utf-8")


def test_the_job_sheet_tells_each_slots_fit() -> None:
    """Halving 0.1 wider, mortises in the top 0.1 narrower than what goes in."""
    rows = drawn("clover-stool")["lists/job-sheet.csv"].decode("utf-8").splitlines()
    by_mark = {row.split(",")[0]: row for row in rows}
    assert "slot 0.1 wider than its tongue" in by_mark["A1"]
    assert "slot 0.1 narrower than its tongue" in by_mark["B"]
    assert "narrower" not in by_mark["A1"]


def test_the_book_says_how_to_try_it_and_what_to_write() -> None:
    book = drawn("clover-stool")["build-book.html"].decode("utf-8")
    assert "Cut and try this first" in book
    assert "allowance = 0.3" in book
    assert "Slide the tongue D into every slot of C" in book


@pytest.mark.parametrize(
    ("name", "wanted", "unwanted"),
    [
        ("clover-stool", ("slot over slot", "with a mallet"), ("thin end first", "Brush")),
        ("radish-stool", ("thin end first", "straight through its mortise"), ("slot over slot",)),
        ("beanpole-stool", ("slot over slot", "Brush"), ("thin end first",)),
    ],
)
def test_steps_say_how_each_joint_is_made(
    name: str, wanted: tuple[str, ...], unwanted: tuple[str, ...]
) -> None:
    book = drawn(name)["build-book.html"].decode("utf-8")
    steps = book[book.index("Put it together") : book.rindex("Finish")]
    assert [text for text in wanted if text not in steps] == []
    assert [text for text in unwanted if text in steps] == []
    assert "Tooth block" not in book


def test_marks_of_trials_follow_those_of_parts() -> None:
    text = (FOLDER / "nettle-table.toml").read_text(encoding="utf-8")
    piece = job.design(text, "nettle-table", profile_texts()).assembly
    marks = [g.mark for g in (*groups(piece), *trial_groups(piece))]
    assert len(set(marks)) == len(marks)
    assert marks[-4:] == ["C", "D", "E", "F"]


def test_sides_are_one_part_twice() -> None:
    """Left and right are alike whichever way their joints were made."""
    text = (FOLDER / "compost-table.toml").read_text(encoding="utf-8")
    piece = job.design(text, "compost-table", profile_texts()).assembly
    assert {g.part.name: g.count for g in groups(piece)} == {
        "Side": 2, "Stretcher": 2, "Top": 1, "Wedge": 4,
    }  # fmt: skip
