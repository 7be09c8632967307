"""Any keys in their range are refused with reasons, or make a piece that every check can judge."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from flatpack import checks
from flatpack.finding import ORDER
from flatpack.parameters import BoardChoice, Spec, fields_of
from flatpack.pieces import PIECES, Family
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

SHIPPED = load(profile_texts())
Values = Mapping[str, object]


def numbers(spec: Spec) -> st.SearchStrategy[float]:
    """The ends of the range as often as anything between."""
    inside = st.floats(spec.least, spec.most)
    return st.one_of(st.sampled_from([float(spec.least), float(spec.most)]), inside)


def boards(_: Spec) -> st.SearchStrategy[BoardChoice]:
    measured = st.one_of(st.none(), st.floats(6.0, 60.0))
    return st.builds(BoardChoice, st.sampled_from(SHIPPED.names("boards")), measured)


KINDS: Mapping[str, Callable[[Spec], st.SearchStrategy[Any]]] = {
    "board": boards,
    "item": lambda spec: st.sampled_from(SHIPPED.names(spec.among)),
    "choice": lambda spec: st.sampled_from(spec.choices),
    "flag": lambda _: st.sampled_from((False, True)),
    "text": lambda spec: st.text("AZ äß", min_size=1, max_size=spec.longest),
    "date": lambda _: st.just("2031-04-12"),
    "count": lambda spec: st.integers(int(spec.least), int(spec.most)),
}


def values_of(spec: Spec) -> st.SearchStrategy[Any]:
    made: st.SearchStrategy[Any] = KINDS[spec.kind](spec) if spec.kind in KINDS else numbers(spec)
    if not spec.many:
        return made
    several = st.lists(made, min_size=spec.fewest, max_size=min(spec.most_count, 6))
    return st.builds(tuple, several)


def keys(family: Family, most: int) -> st.SearchStrategy[Values]:
    """Some keys of a family with values that the reader would let pass."""
    rows = {f.path: f.spec for f in fields_of(family.record) if f.spec.record is None}
    some = st.lists(st.sampled_from(sorted(rows)), max_size=most, unique=True)
    return some.flatmap(lambda paths: st.fixed_dictionaries({p: values_of(rows[p]) for p in paths}))


def judged(family: Family, record: Any) -> None:
    """Refused with a reason that names a key and what is allowed, or built and judged."""
    known = {f.path for f in fields_of(family.record)}
    refused = list(family.conflicts(record, SHIPPED))
    for conflict in refused:
        assert conflict.key in known
        assert conflict.message
        assert conflict.allowed
    if not refused:
        for finding in checks.run(family.build(record, SHIPPED)):
            assert finding.severity in ORDER
            assert finding.message


gently = settings(
    deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
)


@pytest.mark.parametrize("most", [3, 40])
@settings(gently, max_examples=20)
@given(data=st.data())
def test_bench(most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    family = PIECES["bench"]
    judged(family, with_keys(family.record(name="Any"), data.draw(keys(family, most))))


@pytest.mark.parametrize("most", [3, 40])
@settings(gently, max_examples=15)
@given(data=st.data())
def test_planter(most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    family = PIECES["planter"]
    judged(family, with_keys(family.record(name="Any"), data.draw(keys(family, most))))


@pytest.mark.parametrize("most", [1, 4, 40])
@settings(gently, max_examples=6)
@given(data=st.data())
def test_cushion_box(most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    family = PIECES["cushion-box"]
    judged(family, with_keys(family.record(name="Any"), data.draw(keys(family, most))))


@pytest.mark.parametrize("most", [1, 4, 40])
@settings(gently, max_examples=6)
@given(data=st.data())
def test_lounger(most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    family = PIECES["lounger"]
    judged(family, with_keys(family.record(name="Any"), data.draw(keys(family, most))))


@pytest.mark.parametrize("family", ["side-table", "dining-table", "dining-bench"])
@pytest.mark.parametrize("most", [3, 40])
@settings(gently, max_examples=8)
@given(data=st.data())
def test_tables(family: str, most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    one = PIECES[family]
    judged(one, with_keys(one.record(name="Any"), data.draw(keys(one, most))))


@pytest.mark.parametrize("most", [3, 40])
@settings(gently, max_examples=15)
@given(data=st.data())
def test_low_chair(most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    family = PIECES["low-chair"]
    judged(family, with_keys(family.record(name="Any"), data.draw(keys(family, most))))


@pytest.mark.parametrize("family", ["sheet-stool", "sheet-table"])
@pytest.mark.parametrize("most", [3, 40])
@settings(gently, max_examples=12)
@given(data=st.data())
def test_sheet(family: str, most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    """What isn't refused goes together and stays together; it may still be too large."""
    one = PIECES[family]
    record = with_keys(one.record(name="Any"), data.draw(keys(one, most)))
    judged(one, record)
    if not list(one.conflicts(record, SHIPPED)):
        found = checks.run(one.build(record, SHIPPED))
        assert {f.code for f in found if f.severity == "fault"} <= {"larger-than-sheet"}


@pytest.mark.parametrize("most", [3, 40])
@settings(gently, max_examples=15)
@given(data=st.data())
def test_folding_stool(most: int, with_keys: Callable[..., Any], data: st.DataObject) -> None:
    family = PIECES["folding-stool"]
    judged(family, with_keys(family.record(name="Any"), data.draw(keys(family, most))))
