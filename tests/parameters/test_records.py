from __future__ import annotations

import pickle

import pytest

from flatpack import parameters as keys
from flatpack.parameters import canonical, fields_of, record, replace


def test_a_record_is_frozen_and_slotted(family):
    shelf = family.Shelf()
    with pytest.raises(AttributeError):
        shelf.load = 3.0
    with pytest.raises(AttributeError):
        del shelf.load
    with pytest.raises(AttributeError):
        shelf.other = 3.0
    assert not hasattr(shelf, "__dict__")


def test_keywords_only_and_only_known_ones(family):
    with pytest.raises(TypeError):
        family.Shelf("name")
    with pytest.raises(TypeError, match="laod"):
        family.Shelf(laod=3.0)
    with pytest.raises(TypeError, match="needs at"):
        family.Mark(word="A")


def test_equal_by_value_and_usable_as_a_key(family):
    assert family.Mark(at=3.0) == family.Mark(at=3.0)
    assert family.Mark(at=3.0) != family.Mark(at=4.0)
    assert len({family.Mark(at=3.0), family.Mark(at=3.0)}) == 1
    assert family.Boards() != family.Upright()


def test_replace_changes_a_copy(family):
    shelf = family.Shelf()
    changed = replace(shelf, upright=replace(shelf.upright, height=1000.0))
    assert (shelf.upright.height, changed.upright.height) == (900.0, 1000.0)


@record
class Plain:
    """At module level, so that it can be sent to another process."""

    size: float = keys.length(3, does="size")


def test_a_record_can_be_sent_to_another_process():
    assert pickle.loads(pickle.dumps(Plain(size=4.0))) == Plain(size=4.0)


def test_numbers_in_defaults_have_the_type_that_reading_gives(family):
    assert type(family.Upright().height) is float
    assert all(type(slope) is float for slope in family.Shelf().slopes)


def test_a_key_that_hides_its_function_is_explained():
    from flatpack.parameters import length

    with pytest.raises(TypeError, match="hides the function"):

        class Trap:
            length = keys.length(3, does="hides the function below")
            other = length(4, does="means the key above")

    assert length(3, does="not hidden here") is not None


def test_fields_of_walks_nested_tables(family):
    paths = [field.path for field in fields_of(family.Shelf)]
    assert paths[:2] == ["name", "issued"]
    assert paths.index("upright") + 1 == paths.index("upright.height")
    assert "marks.at" in paths


def test_canonical_text_says_the_same_for_the_same_design(family):
    from flatpack.parameters import read

    one = read(family.families, 'family = "shelf"\nupright.height = 762', "a")
    two = read(family.families, '"family" = "shelf"\n[upright]\nheight = "2 ft 6 in"', "b")
    assert canonical(one) == canonical(two)
    assert canonical(one) != canonical(family.Shelf())


def test_canonical_text_changes_with_every_key(family):
    changes = {
        "name": "x", "issued": "2030-05-01", "shelves": 2, "style": "backed", "knock_down": False,
        "slopes": (1.0,), "load": 1.0, "screw": "x", "sheet": ((1.0, 2.0),),
        "boards": family.Boards(side=keys.BoardChoice("ply-18", 17.0)),
        "upright": family.Upright(lean=1.0), "marks": (family.Mark(at=1.0),),
    }  # fmt: skip
    assert set(changes) == set(keys.specs_of(family.Shelf))
    texts = {canonical(family.Shelf(**{key: value})) for key, value in changes.items()}
    assert len(texts | {canonical(family.Shelf())}) == len(changes) + 1
