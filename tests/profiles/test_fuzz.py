"""Whatever a profile's text, its reader answers with a record or an error of its own tree."""

from __future__ import annotations

from pathlib import PurePosixPath

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from flatpack.errors import FlatpackError
from flatpack.profile_files import profile_texts
from flatpack.profiles import KINDS, load

SHIPPED = profile_texts()
BY_KIND = {
    kind: sorted(p for p in SHIPPED if PurePosixPath(p).parent.name == kind) for kind in KINDS
}
gently = settings(
    deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
)
each_kind = pytest.mark.parametrize("kind", sorted(KINDS))


def attempt(kind: str, text: str) -> None:
    """Read it; whatever is wrong is said with the file's name and is no traceback."""
    profiles = load({f"own/{kind}/one.toml": text})
    assert profiles.names(kind) == ("one",)
    try:
        key, said = profiles.get(kind, "one").key, "one.toml"
    except FlatpackError as error:
        key, said = "one", str(error)
    assert key == "one"
    assert "one.toml" in said
    assert len(said) < 100_000


@each_kind
def test_shipped_files_of_every_kind_are_there_to_change(kind: str) -> None:
    assert BY_KIND[kind]


@each_kind
@settings(gently, max_examples=15)
@given(text=st.text(max_size=60))
def test_any_text(kind: str, text: str) -> None:
    attempt(kind, text)


values = st.one_of(
    st.integers().map(str),
    st.floats().map(repr),
    st.sampled_from(["true", "nan", "-inf", "1e400", "-0.0", "[]", "{}", "[[1, 2]]", "[0]"]),
    st.sampled_from(['""', '"3/4 in"', '"ply-18"', "2030-05-01", "07:32:00", "0x10", "[[], 1]"]),
    st.sampled_from(["[{}]", "[{ x = 1 }]", "[[0, 0], [0, 0], [0, 0]]", "[1, 1]", '["a", "a"]']),
    st.text(alphabet="abc 19/\"'é\\", max_size=6).map(lambda t: '"' + t.replace('"', "'") + '"'),
)


@each_kind
@settings(gently, max_examples=40)
@given(data=st.data())
def test_a_shipped_file_with_values_changed(kind: str, data: st.DataObject) -> None:
    rows = SHIPPED[data.draw(st.sampled_from(BY_KIND[kind]))].splitlines()
    settable = [n for n, row in enumerate(rows) if " = " in row and not row.startswith("#")]
    for _ in range(data.draw(st.integers(1, 3))):
        n = data.draw(st.sampled_from(settable))
        rows[n] = f"{rows[n].split(' = ')[0]} = {data.draw(values)}"
    if data.draw(st.booleans()):
        del rows[data.draw(st.sampled_from(settable))]
    attempt(kind, "\n".join(rows))
