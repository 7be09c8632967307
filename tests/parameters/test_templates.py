"""The commented file and the schema, judged by tomllib and jsonschema."""

from __future__ import annotations

import copy
import re
import tomllib
from pathlib import Path

import jsonschema
import pytest

from flatpack.errors import ReadError
from flatpack.parameters import fields_of, nearest, read, schema, specs_of, template
from flatpack.parameters.parsing import parsed
from flatpack.pieces import PIECES

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


@pytest.mark.parametrize("name", ["composed", "loose-parts"])
def test_each_kind_says_all_keys_that_it_takes(name):
    """Below every kind's line stands each of its keys, or the sentence that names it."""
    cls = PIECES[name].record
    source = template(cls, name)
    blocks = re.split(r"\n(?=#\[)", source.replace("\n# ", " "))
    for spec in specs_of(cls).values():
        for kind, one in (spec.kinds or {}).items():
            start = next(i for i, b in enumerate(blocks) if f'#{spec.pick} = "{kind}"\n' in b)
            after = blocks[start + 1 :]
            own = [b for b in after if re.match(r"#\[+\w+\.name\.", b)]
            text = f"{blocks[start - 1]}\n{blocks[start]}\n" + "\n".join(own)
            for key in specs_of(one):
                pattern = rf"(?m)^#+(\[+\w+\.name\.)?{key}( =|\])|takes as well: [^.]*\b{key}\b"
                assert re.search(pattern, text), (kind, key)


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("left = front-leg.right", '"front-leg.right"'),
        ("left = lower-top  # mine", '"lower-top"'),
        ("left = 20 mm", '"20 mm"'),
        ("left = 3/4 in", '"3/4 in"'),
        ("left = [side.top plus 3, 4]", '"side.top plus 3, 4"'),
        ('left = "20', ""),
        ("left = ", ""),
        ("left = 3..5", ""),
    ],
)
def test_bare_words_are_told_of_their_quotation_marks(line, hint):
    with pytest.raises(ReadError) as caught:
        parsed(f'family = "shelf"\n{line}\n', "x.toml")
    told = str(caught.value)
    assert told.startswith("x.toml:2:")
    assert (f"text must stand in quotation marks: {hint}" in told) == bool(hint)
    assert ("quotation marks" in told) == bool(hint)


def test_names_unlike_are_not_suggested():
    assert nearest("dowels", ["wheels", "bolts"]) == ""
    assert nearest("widht", ["width", "board"]) == '"width"'
