"""The gallery: every family with its examples, every shape of part, one page and its pictures."""

from __future__ import annotations

import html
import re
import tomllib
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from flatpack import gallery, job
from flatpack.__main__ import main
from flatpack.batch.row import sizes
from flatpack.gallery.shapes import SAMPLES
from flatpack.parameters import specs_of
from flatpack.pieces import PIECES
from flatpack.pieces.common.generators import GENERATORS
from flatpack.profile_files import profile_texts

EXAMPLES = sorted((Path(__file__).parents[2] / "profiles" / "pieces").glob("*.toml"))


@pytest.fixture(scope="module")
def made() -> dict[str, str]:
    texts = {path.name: path.read_text(encoding="utf-8") for path in EXAMPLES}
    files = gallery.files(texts, profile_texts())
    return {name: file.content.decode() for name, file in files.items()}


def test_every_example_has_a_picture_and_its_measures(made: dict[str, str]) -> None:
    page = made["gallery.html"]
    for path in EXAMPLES:
        piece = tomllib.loads(path.read_text(encoding="utf-8"))
        design = job.design(path.read_text(encoding="utf-8"), path.name, profile_texts())
        root = ET.fromstring(made[f"pictures/piece-{path.stem}.svg"])
        assert len(root.findall(".//{*}path")) >= len(design.assembly.parts) / 2
        if design.assembly.loose:
            continue
        told = re.search(f"<span>{re.escape(piece['name'])}</span><span>([^<]+)</span>", page)
        assert told is not None
        numbers = [float(n) for n in re.findall(r"[\d.]+", told[1])]
        size = sizes(design.assembly)
        assert numbers == [round(size[key]) for key in ("length", "width", "height")]


def test_every_family_says_how_to_begin(made: dict[str, str]) -> None:
    for family in PIECES:
        assert f"flatpack new {family} my-{family}.toml" in made["gallery.html"]


def test_every_shape_is_shown_as_it_is_written(made: dict[str, str]) -> None:
    page = html.unescape(made["gallery.html"])
    assert set(SAMPLES) == set(GENERATORS)
    for word, generator in GENERATORS.items():
        assert f'shape = "{word}"\n{SAMPLES[word]}' in page
        picture = made[f"pictures/shape-{word.replace(' ', '-')}.svg"]
        assert ET.fromstring(picture).findall(".//{*}path")
        for key, spec in specs_of(generator.record).items():
            assert f"<td>{key}</td>" in page
            assert spec.does in page


def test_pictures_keep_the_proportions_of_the_shape(made: dict[str, str]) -> None:
    # By hand: the sample panel is 420 x 220, drawn as large as 90 x 45 allow, so 85.9 x 45.
    root = ET.fromstring(made["pictures/shape-panel.svg"])
    _, _, wide, high = map(float, root.attrib["viewBox"].split())
    assert (wide - 1.0) / (high - 1.0) == pytest.approx(420.0 / 220.0, abs=0.01)
    assert high == pytest.approx(46.0, abs=0.05)


def test_the_command_writes_the_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "gallery"
    assert main(["gallery", "--out", str(out)]) == 0
    assert (out / "gallery.html").is_file()
    pictures = list((out / "pictures").glob("*.svg"))
    assert f"with {len(pictures)} pictures" in capsys.readouterr().out
    (out / "mine.txt").write_text("keep")
    assert main(["gallery", "--out", str(out)]) == 2
    assert (out / "mine.txt").read_text() == "keep"
