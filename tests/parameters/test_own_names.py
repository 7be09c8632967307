"""Tables under names of the writer's own, entries of several kinds, lengths that name another."""

from __future__ import annotations

import tomllib
from typing import Any

import jsonschema
import pytest

from flatpack import parameters as keys
from flatpack.errors import ParameterErrors
from flatpack.parameters import (
    BoardChoice,
    Chosen,
    Named,
    Sum,
    canonical,
    read,
    record,
    schema,
    template,
)
from flatpack.parameters.sums import summed


@record
class Peg:
    """A peg."""

    size: Sum = keys.total(keys.UNSET, least=5, most=90, does="across", example=20.0)
    low: Sum | None = keys.place(None, does="lower end")
    high: Sum | None = keys.place(None, does="upper end")
    middle: Sum | None = keys.place(None, does="middle")


@record
class Plate:
    """A plate."""

    size: Sum = keys.total(Sum(50.0), least=5, does="across")
    at: tuple[Sum, ...] | None = keys.places(None, does="places")


KINDS = {"peg": Peg, "plate": Plate}


@record
class Rack:
    """A rack of the writer's own things."""

    name: str = keys.text("Rack", does="its name")
    boards: Any = keys.named(keys.board(None, does="Boards."), left_out="must",
                             default=(Named("ply", BoardChoice("ply-18")),))  # fmt: skip
    measures: Any = keys.named(keys.total(None, least=-100, does="Lengths."),
                               default=(Named("wide", Sum(30.0)),))  # fmt: skip
    things: Any = keys.named(
        keys.kinds(KINDS, "shape", does="Things."),
        default=(Named("one", Chosen("peg", Peg(size=Sum("wide", 1, 3.0)))),),
        together=(("low", "high", "middle"),),
    )
    joints: Any = keys.kinds(KINDS, "kind", does="Joints.")


FAMILIES = {"rack": Rack}
KNOWN = {"boards": ("ply-18", "pine-20")}
HEAD = 'family = "rack"\nboards = { ply = "ply-18" }\n'


def rack(text: str) -> Any:
    return read(FAMILIES, HEAD + text, "r.toml", known=KNOWN)


def faults(text: str, head: str = HEAD) -> list[str]:
    with pytest.raises(ParameterErrors) as raised:
        read(FAMILIES, head + text, "r.toml", known=KNOWN)
    return [str(fault) for fault in raised.value.faults]


@pytest.mark.parametrize(
    ("text", "made"),
    [
        ("18", Sum(18.0)),
        ("18 mm", Sum(18.0)),
        ("-4.5", Sum(-4.5)),
        ("3/4 in", Sum(19.05)),  # an inch is 25.4 mm exactly
        ("wide", Sum("wide")),
        ("wide less 18 mm", Sum("wide", -1, 18.0)),
        ("leg.top plus 1 1/2 in", Sum("leg.top", 1, 38.1)),
        ("under-seat less slat-2.thickness", Sum("under-seat", -1, "slat-2.thickness")),
        ("post.front at seat-height", Sum("post.front", 0, 0.0, "seat-height")),
        ("post.front at 400 plus 3", Sum("post.front", 1, 3.0, 400.0)),
        ("18 mm plus 3", Sum(18.0, 1, 3.0)),
    ],
)
def test_sums(text: str, made: Sum) -> None:
    assert summed(text, place=True) == made
    assert summed(made.written(), place=True) == made


@pytest.mark.parametrize(
    "text", ["", "a less b less c", "a minus b", "a.b.c", "A", "less 3", "a plus", "a + 3", "a at",
             "at 3", "a at b at c", "a less b at c", "1e3", "a  less", "a\nless b"],
)  # fmt: skip
def test_what_is_no_sum(text: str) -> None:
    assert summed(text, place=True) is None


def test_heights_are_for_places_alone() -> None:
    assert summed("a at 3", place=False) is None


def test_names_and_plain_lengths() -> None:
    assert Sum("a", 1, "b", "c").names() == ("a", "c", "b")
    assert Sum(3.0, -1, 1.0).plain == 2.0
    assert Sum("a").plain is None


def test_entries_keep_their_order_and_kind() -> None:
    made = rack(
        '[things.b]\nshape = "plate"\nat = ["a.top", 3]\n[things.a]\nshape = "peg"\nsize = 9\n'
    )
    assert [entry.name for entry in made.things] == ["b", "a"]
    assert made.things[0].value.kind == "plate"
    assert made.things[0].value.made.at == (Sum("a.top"), Sum(3.0))
    assert made.things[1].value.made.size == Sum(9.0)


def test_one_place_needs_no_brackets() -> None:
    assert rack('[things.b]\nshape = "plate"\nat = 3\n').things[0].value.made.at == (Sum(3.0),)


def test_what_a_file_leaves_out_it_hasnt() -> None:
    made = rack("")
    assert (made.things, made.joints, made.measures) == ((), (), ())
    assert Rack().things != ()
    assert faults("", 'family = "rack"\n') == [
        "r.toml: boards: missing; allowed: a table of entries under names of your own"
    ]


BASE = '[things.a]\nshape = "peg"\nsize = 9\nlow = 1\n'


@pytest.mark.parametrize(
    ("own", "low", "high", "middle"),
    [
        ("size = 8\n", 1.0, None, None),
        ("high = 7\n", None, 7.0, None),  # one of one: takes its place
        ("middle = 4\n", None, None, 4.0),
    ],
)
def test_like_takes_over_what_isnt_said(
    own: str, low: float | None, high: float | None, middle: float | None
) -> None:
    made = rack(f'{BASE}[things.b]\nlike = "a"\n{own}').things[1].value
    assert made.kind == "peg"
    found = [getattr(made.made, key) for key in ("low", "high", "middle")]
    assert found == [None if v is None else Sum(v) for v in (low, high, middle)]


def test_like_of_two_ends_changes_the_one_said_or_both_for_the_middle() -> None:
    made = rack(
        f'{BASE}high = 5\n[things.b]\nlike = "a"\nhigh = 6\n[things.c]\nlike = "b"\nmiddle = 2\n'
    )
    b, c = (entry.value.made for entry in made.things[1:])
    assert (b.low, b.high, b.middle) == (Sum(1.0), Sum(6.0), None)
    assert (c.low, c.high, c.middle) == (None, None, Sum(2.0))
    assert c.size == Sum(9.0)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('[things.a]\nshape = "pge"\n', ['r.toml:4: things.a.shape: no such shape; found "pge"; '
                                         'allowed: "peg", "plate"; did you mean "peg"?']),
        ("[things.a]\nsize = 3\n", ['r.toml:3: things.a.shape: missing; allowed: "peg", "plate"']),
        ('[things.a]\nshape = "peg"\n', ["r.toml:3: things.a.size: missing; allowed: 5 to 90 mm; "
                                         "written as a length, or a name such as"]),
        ('[things.a]\nshape = "peg"\nsize = 3\n', ["r.toml:5: things.a.size: too small; found 3"]),
        ('[things.a]\nshape = "peg"\nsize = "b +3"\n',
         ['r.toml:5: things.a.size: neither a length nor a name of one; found "b +3"']),
        ('[things."a.b"]\nshape = "plate"\n', ['r.toml:3: things."a.b": not a name']),
        ("things = 3\n", ["r.toml:3: things: no table; found 3"]),
        ("[things]\na = 3\n", ["r.toml:4: things.a: a table is needed; found 3"]),
        ('[things.a]\nlike = "b"\n[things.b]\nlike = "a"\n',
         ["r.toml:4: things.a.like: leads back to itself", "r.toml:6: things.b.like: leads back"]),
        ("[[joints]]\nsize = 3\n", ['r.toml:3: joints[0].kind: missing; allowed: "peg", "plate"']),
        ("[measures]\na = true\n", ["r.toml:4: measures.a: a length is needed; found true"]),
    ],
)  # fmt: skip
def test_faults(text: str, expected: list[str]) -> None:
    found = faults(text)
    assert len(found) == len(expected)
    for one, beginning in zip(found, expected, strict=True):
        assert one.startswith(beginning)


def test_template_reads_back_to_the_defaults_and_shows_every_key() -> None:
    text = template(Rack, "rack")
    assert read(FAMILIES, text, "t.toml", known=KNOWN) == Rack()
    for word in ("#[things.name]", '#shape = "plate"', "#[[joints]]", '#kind = "peg"', "#middle ="):
        assert word in text


def test_schema_accepts_what_is_read_and_refuses_what_isnt() -> None:
    made = jsonschema.Draft202012Validator(schema(Rack, "rack"))
    good = tomllib.loads(
        f'{HEAD}{BASE}[things.b]\nlike = "a"\n[[joints]]\nkind = "plate"\nat = "x"\n'
    )
    assert made.is_valid(good)
    assert not made.is_valid({**good, "things": {"a": {"shape": "pge"}}})
    assert not made.is_valid({**good, "things": {"A": good["things"]["a"]}})
    assert not made.is_valid({"family": "rack"})


def test_canonical_text_tells_equal_records_apart_from_others() -> None:
    one = canonical(rack(f'[measures]\na = "18 mm"\n{BASE}'))
    assert one == canonical(rack(f"[measures]\na = 18\n{BASE}"))
    assert one != canonical(rack(f"[measures]\na = 18.5\n{BASE}"))
    assert one != canonical(rack(f"[measures]\nb = 18\n{BASE}"))
