"""The commented file and the schema, judged by tomllib and jsonschema."""

from __future__ import annotations

import copy
import re
import tomllib
from pathlib import Path

import jsonschema
import pytest

from flatpack.parameters import fields_of, read, schema, template

HERE = Path(__file__).parent


def test_template_reads_back_to_exactly_the_defaults(family):
    source = template(family.Shelf, "shelf")
    assert read(family.families, source, "new.toml", known=family.known) == family.Shelf()


def test_template_names_every_key_its_effect_range_and_default(family):
    source = template(family.Shelf, "shelf")
    for field in fields_of(family.Shelf):
        name = field.path.rpartition(".")[2]
        assert re.search(rf"(?m)^#?{name} = |^#?\[+{re.escape(field.path)}\]+$", source), name
        words = field.spec.does.split()
        assert " ".join(words[1:]) in " ".join(source.replace("\n# ", " ").split())
    assert "(300 to 2400 mm; default 900)" in source
    assert "(0 to 80 mm; derived when left out)" in source


def test_template_with_every_key_set_is_valid(family):
    source = template(family.Shelf, "shelf")
    every = re.sub(r"(?m)^#(?=[\[a-z])", "", source)
    assert every != source
    record = read(family.families, every.replace('"name"', '"wood-4"'), "new.toml")
    assert record.shelves is not None
    assert record.upright.setback is not None
    assert len(record.marks) == 1


def test_template_lines_fit_a_page(family):
    assert max(map(len, template(family.Shelf, "shelf").splitlines())) <= 100


def validator(family) -> jsonschema.Draft202012Validator:
    made = schema(family.Shelf, "shelf")
    jsonschema.Draft202012Validator.check_schema(made)
    return jsonschema.Draft202012Validator(made)


def test_template_and_valid_cases_satisfy_the_schema(family):
    judge = validator(family)
    judge.validate(tomllib.loads(template(family.Shelf, "shelf")))
    for case in sorted((HERE / "valid").glob("*.toml")):
        raw = tomllib.loads(case.read_bytes().decode("utf-8-sig"))
        raw = {k: str(v) if k == "issued" else v for k, v in raw.items()}  # JSON has no dates
        judge.validate(raw)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("family",), "bench"),
        (("nmae",), "x"),
        (("load",), "25"),
        (("load",), 0.5),
        (("shelves",), 2.5),
        (("style",), "backd"),
        (("knock_down",), 1),
        (("slopes",), [1, 2, 3, 4]),
        (("upright", "height"), "18 furlongs"),
        (("upright", "height"), 100),
        (("upright", "other"), 100),
        (("boards", "side"), {"measured": 3}),
        (("marks",), [{"word": "A"}]),
        (("sheet",), [[1]]),
    ],
)
def test_schema_and_reader_refuse_the_same(path, value, family):
    raw = tomllib.loads(template(family.Shelf, "shelf"))
    judge = validator(family)
    judge.validate(copy.deepcopy(raw))
    place = raw
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = value
    with pytest.raises(jsonschema.ValidationError):
        judge.validate(raw)


def test_schema_describes_every_key_with_its_default(family):
    made = schema(family.Shelf, "shelf")
    height = made["properties"]["upright"]["properties"]["height"]
    assert height["default"] == 900
    assert "mm" in height["description"]
    assert "default" not in made["properties"]["shelves"]
