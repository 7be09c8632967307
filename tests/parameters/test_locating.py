"""The locator against other readers of TOML: tomllib (which paths there are) and tree-sitter."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from flatpack.parameters.locating import line_of, lines

AWKWARD = '''# head
a.b."c.d" = 1 # c
[t]
  'q"q' = """
x = 1
[not.a.table]
\\""" """
"s\\u0041" = \'\'\'
y = 2\'\'\'\'
n = [ # note ]
  1, [2,
  3], { k = "}", 'm' = [ ] }, # more
  "]", \'#\',
]
d = 1979-05-27 07:32:00
e = ""
[ t . u ]
v = inf
[[arr]]
x = 1
[[arr.sub]]
y = 2
[[arr.sub]]
y = 3
[arr.tab]
z = {a.b = 1, c = {d = 2}}
[[arr]]
x = 4
'''


def paths(value: Any, path: tuple[str | int, ...] = ()) -> set[tuple[str | int, ...]]:
    found = {path} if path else set()
    steps = value.items() if isinstance(value, dict) else ()
    steps = enumerate(value) if isinstance(value, list) else steps
    for step, below in steps:
        found |= paths(below, (*path, step))
    return found


def test_awkward_text():
    found = lines(AWKWARD)
    assert set(found) == paths(tomllib.loads(AWKWARD))
    row = AWKWARD.splitlines()
    assert found["a", "b", "c.d"] == 2
    assert found["t", 'q"q'] == 4
    assert found["t", "sA"] == 8
    assert found["t", "n"] == 10
    assert found["t", "n", 1, 0] == 11
    assert found["t", "n", 1, 1] == 12
    assert found["t", "n", 2, "m"] == 12
    assert found["t", "n", 4] == 13
    assert row[found["t", "u", "v"] - 1] == "v = inf"
    assert row[found["arr", 0] - 1] == "[[arr]]"
    assert row[found["arr", 0, "sub", 1, "y"] - 1] == "y = 3"
    assert row[found["arr", 0, "tab", "z", "c", "d"] - 1].startswith("z = ")
    assert row[found["arr", 1, "x"] - 1] == "x = 4"


def test_a_missing_key_stands_where_its_table_does():
    places = lines("a = 1\n[t]\nb = 2\n[[r]]\n[[r]]\nc = 3\n")
    assert line_of(("t", "missing"), places) == 2
    assert line_of(("r", 1, "missing"), places) == 5
    assert line_of(("missing",), places) == 0


def test_windows_line_ends():
    assert lines("a = 1\r\n[t]\r\nb = [\r\n1,\r\n2]\r\n")["t", "b", 1] == 5


def test_very_deep_arrays_do_not_raise():
    depth = 160
    source = "x = " + "[" * depth + "]" * depth
    tomllib.loads(source)
    assert lines(source)["x",] == 1


names = st.text(alphabet="ab.-_ \"'é\\#[]{}=", min_size=1, max_size=5)
quoted = names.map(lambda n: '"' + n.replace("\\", "\\\\").replace('"', '\\"') + '"')
bare = st.text(alphabet="abcdeAB01-_", min_size=1, max_size=4)
key = st.lists(st.one_of(bare, quoted), min_size=1, max_size=3).map(" . ".join)
scalar = st.one_of(
    st.integers().map(str), st.sampled_from(["true", "inf", "1e3", "07:32:00", "2030-05-01"]),
    quoted, st.sampled_from(["'#]}'", "''", '""', "'''\n'''", '"""a\n#"]\\""""', "'''x''''"]),
)  # fmt: skip
sep = st.sampled_from([",", " , ", ",\n", ", # c ] }\n  "])


def arrays(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.tuples(st.lists(inner, max_size=3), sep).map(lambda t: f"[ {t[1].join(t[0])} ]")


def inline(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.lists(st.tuples(key, inner), max_size=3).map(
        lambda rows: "{ " + ", ".join(f"{k} = {v}" for k, v in rows) + " }"
    )


value = st.recursive(scalar, lambda inner: st.one_of(arrays(inner), inline(inner)), max_leaves=5)
statement = st.one_of(
    st.tuples(key, value).map(lambda t: f"{t[0]} = {t[1]}  # x = 1"),
    key.map("[{}]".format),
    key.map("[[{}]]".format),
    st.just("# [no] = 1"),
    st.just(""),
)


@settings(max_examples=400, deadline=None)
@given(st.lists(statement, max_size=7))
def test_any_valid_text_yields_the_paths_that_the_reader_sees(rows):
    source = "\n".join(rows)
    try:
        read = tomllib.loads(source)
    except tomllib.TOMLDecodeError:
        return
    assert set(lines(source)) == paths(read)


def test_lines_agree_with_a_syntax_tree():
    tree_sitter = pytest.importorskip("tree_sitter")
    grammar = pytest.importorskip("tree_sitter_toml")
    parser = tree_sitter.Parser(tree_sitter.Language(grammar.language()))
    tree = parser.parse(AWKWARD.encode())
    theirs: list[int] = []

    def walk(node: Any) -> None:
        if node.type == "pair":
            theirs.append(node.start_point[0] + 1)
        for child in node.children:
            walk(child)

    walk(tree.root_node)
    found = lines(AWKWARD)
    leaves = {p for p in found if not any(q[: len(p)] == p and q != p for q in found)}
    ours = {found[p] for p in leaves if isinstance(p[-1], str)}
    assert ours <= set(theirs)
    assert len(theirs) > 12
