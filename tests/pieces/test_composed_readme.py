"""The README's own plant stand is checked and drawn, word for word as it stands there."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import jsonschema
import pytest

from flatpack import job
from flatpack.__main__ import main
from flatpack.parameters import schema
from flatpack.pieces import PIECES
from flatpack.pieces.composed.joint_records import JOINT_KINDS
from flatpack.pieces.composed.part_records import PART_KINDS
from flatpack.profile_files import profile_texts

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
SECTION = README.partition("## Your own piece from parts")[2].partition("\n## ")[0]


def stand() -> str:
    found = re.search(r"```toml\n(.*?)```", SECTION, re.S)
    assert found is not None
    return found[1]


def test_its_stand_has_no_fault_and_as_many_parts_as_one_would_count() -> None:
    """Four legs, two bearers, a brace, and slats: (300 + 8) / (70 + 8) = 3.9, so four."""
    made = job.design(stand(), "stand.toml", profile_texts())
    assert [f for f in made.findings if f.severity == "fault"] == []
    names = [p.name for p in made.assembly.parts.values()]
    assert {name: names.count(name) for name in names} == {
        "Front leg": 2, "Rear leg": 2, "Bearer": 2, "Brace": 1, "Slat": 4,
    }  # fmt: skip
    # 450 high less a slat of 27; legs 27 thick, 40 in from each end, bearers 27 beside them.
    assert made.assembly.parts["front-leg-left"].length == pytest.approx(423.0)
    assert made.assembly.parts["brace"].length == pytest.approx(600.0 - 2.0 * (40 + 27 + 27))


def test_its_stand_gives_cut_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "stand.toml"
    file.write_text(stand(), encoding="utf-8")
    assert main(["draw", str(file), "--out", str(tmp_path / "stand")]) == 0
    assert "0 faults" in capsys.readouterr().out
    drawn = {p.name for p in (tmp_path / "stand" / "parts").glob("*.dxf")}
    assert len(drawn) == 8  # four kinds with hands or two: 3 x 2 hands, brace, slat
    assert (tmp_path / "stand" / "build-book.pdf").is_file()
    assert (tmp_path / "stand" / "templates" / "templates.pdf").is_file()


@pytest.mark.parametrize("word", [*PART_KINDS, *JOINT_KINDS])
def test_it_names_every_shape_and_joint(word: str) -> None:
    assert word in " ".join(SECTION.split())


EXAMPLES = Path(__file__).parents[2] / "profiles" / "pieces"
FAMILY = {
    path: tomllib.loads(path.read_text(encoding="utf-8"))["family"]
    for path in EXAMPLES.glob("*.toml")
}
OWN = sorted(path for path, family in FAMILY.items() if family in ("composed", "loose-parts"))


def test_examples_named_in_the_readme_are_all_that_there_are() -> None:
    assert all(f"`{path.stem}`" in SECTION for path in OWN)
    assert len(OWN) >= 4


@pytest.mark.parametrize("path", OWN, ids=[p.stem for p in OWN])
def test_schema_knows_every_key_of_the_examples(path: Path) -> None:
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    made = schema(PIECES[raw["family"]].record, raw["family"])
    assert list(jsonschema.Draft202012Validator(made).iter_errors(raw)) == []


def test_measures_can_be_varied_in_a_table(tmp_path: Path) -> None:
    (tmp_path / "stand.toml").write_text(stand(), encoding="utf-8")
    table = tmp_path / "stands.csv"
    table.write_text("name,base,measures.height\nlow,stand.toml,300\nhigh,stand.toml,24 in\n",
                     encoding="utf-8")  # fmt: skip
    out = tmp_path / "out"
    assert main(["batch", str(table), "--out", str(out), "--only", "lists", "--jobs", "1"]) == 0
    # 24 in = 609.6 mm less a slat of 27.
    assert "582.6" in (out / "high" / "lists" / "cutting-list.csv").read_text(encoding="utf-8-sig")
    assert "273" in (out / "low" / "lists" / "cutting-list.csv").read_text(encoding="utf-8-sig")
