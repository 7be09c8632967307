"""Whatever the text, the reader answers with a record or with an error of its own tree."""

from __future__ import annotations

from types import SimpleNamespace

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from flatpack.errors import FlatpackError, ParameterErrors
from flatpack.parameters import canonical, read, template


def attempt(source: str, family: SimpleNamespace) -> None:
    try:
        record = read(family.families, source, "f.toml", known=family.known, checks=family.checks)
    except FlatpackError as error:
        caught: FlatpackError | None = error
    else:
        caught = None
        assert canonical(record)
    if isinstance(caught, ParameterErrors):
        last = source.count("\n") + 1
        assert caught.faults
        assert all(0 <= fault.line <= last for fault in caught.faults)
        assert all(fault.message and fault.key for fault in caught.faults)
    assert caught is None or str(caught).startswith("f.toml")


@settings(max_examples=150, deadline=None)
@given(source=st.text(max_size=80))
@example(source="x = " + "[" * 2000)
@example(source='family = "shelf"\nload = ' + "9" * 5000)
@example(source='family = "shelf"\nload = ' + "9" * 4000)
@example(source='family = "shelf"\nshelves = 1e300')
@example(source='family = "shelf"\nload = 1e400')
@example(source='family = "shelf"\nupright.height = "' + "9" * 9 + ' mm"')
@example(source='family = "shelf"\n"" = 1\n"\\u0000" = 2')
@example(source='family = "shelf"\nslopes = ' + "[" * 140 + "]" * 140)
def test_any_text(family, source):
    attempt(source, family)


values = st.one_of(
    st.integers().map(str),
    st.floats().map(repr),
    st.sampled_from(["true", "nan", "-inf", "[]", "{}", "[[1, 2]]", "2030-05-01", "07:32:00"]),
    st.sampled_from(['"3/4 in"', '"ply-18"', '{ profile = "ply-18", measured = "x" }', "0x10"]),
    st.text(alphabet="abc 19/\"'", max_size=6).map(lambda t: '"' + t.replace('"', '\\"') + '"'),
    st.text(alphabet='[]{}=,"1.', max_size=6),
)


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(changes=st.lists(st.tuples(st.integers(0, 999), values), min_size=1, max_size=4))
def test_a_good_file_with_values_changed(family, changes):
    rows = template(family.Shelf, "shelf").splitlines()
    settable = [n for n, row in enumerate(rows) if " = " in row and not row.startswith("# ")]
    for pick, value in changes:
        number = settable[pick % len(settable)]
        key, equals, _ = rows[number].partition(" = ")
        rows[number] = f"{key.lstrip('#')}{equals}{value}"
    attempt("\n".join(rows), family)


@settings(max_examples=150, deadline=None)
@given(at=st.integers(0, 2000), letters=st.text(alphabet="[]{}\"'=.,#\n a1", max_size=3))
def test_a_good_file_with_letters_struck_in(family, at, letters):
    source = template(family.Shelf, "shelf")
    attempt(source[:at] + letters + source[at + 1 :], family)
