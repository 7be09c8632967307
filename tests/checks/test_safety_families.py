"""Safety of tables, planters, boxes and stools: what their use asks, told or not done."""

from __future__ import annotations

from functools import cache

import pytest

from flatpack.checks.safety import findings
from flatpack.checks.safety.asked import Asked
from flatpack.frozen import replace
from flatpack.mechanism.study import study
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load
from flatpack.strength import report
from flatpack.strength.basis import loads_of
from flatpack.strength.records import Report

PROFILES = load(profile_texts())
FAMILIES = [f for f in PIECES if f in PROFILES.names("loads")]


@cache
def asked(family: str) -> Asked:
    made = PIECES[family]
    record = made.record()
    assembly = made.build(record, PROFILES)
    return Asked(
        assembly, study(assembly), PROFILES, report(assembly, record, PROFILES),
        loads_of(assembly, record, PROFILES),
    )  # fmt: skip


@pytest.fixture(scope="module", params=FAMILIES)
def piece(request) -> Asked:
    return asked(request.param)


def told(one: Asked) -> dict[str, list]:
    found: dict[str, list] = {}
    for f in findings(one):
        found.setdefault(f.code, []).append(f)
    return found


def test_every_family_has_every_point_told_or_not_done(piece):
    found = told(piece)
    always = {
        "safety-caution", "safety-tools", "safety-dust", "safety-finish", "safety-first-load",
        "safety-lifting", "safety-tipping", "safety-stability-tests", "safety-squeeze-under-load",
    }  # fmt: skip
    assert always <= found.keys()
    (caution,) = found["safety-caution"]
    for word in ("replaces testing", "licensed", "local rules"):
        assert word in caution.message
    assert not {f.severity for rows in found.values() for f in rows} & {"fault"}
    assert piece.seat, "what is touched was found"


def test_what_is_told_fits_the_use(piece):
    found = told(piece)
    tests = found["safety-stability-tests"][0].source
    assert ("EN 1022" in tests) == (piece.use == "sit")
    assert ("EN 581-3" in tests) == (piece.use == "table")
    assert ("safety-filled" in found) == (piece.use in ("soil", "lid"))
    assert ("Fill it" in found["safety-first-load"][0].message) == (piece.use == "soil")


def test_a_planter_weighs_its_soil():
    one = asked("planter")
    (filled,) = told(one)["safety-filled"]
    bare = told(one)["safety-lifting"][0]
    assert filled.measured > 3.0 * float(bare.message.split()[2])
    none = replace(one, loads=None)
    assert "safety-filled" not in told(none)


def test_a_tables_edges_count_further_down():
    one = asked("bench")  # its legs' arrises are left sharp
    assert any("within 120 mm" in f.message for f in told(one)["safety-sharp-arris"])
    laid = replace(one, loads=replace_use(one, "table"))
    near = [f for f in told(laid)["safety-sharp-arris"] if "within" in f.message]
    assert near
    assert all("within 500 mm" in f.message for f in near)
    assert "stretcher" in near[0].message  # low down, but within 500 mm of the top's edge


def replace_use(one: Asked, use: str):
    from flatpack.parameters import replace as record_replaced

    return record_replaced(one.loads, use=use)


def test_what_turns_without_a_study_is_not_done():
    turning = [f for f in FAMILIES if asked(f).study is None and _pivots(asked(f))]
    for family in turning:
        rows = told(asked(family))["safety-squeeze-moving"]
        assert [f.severity for f in rows] == ["not done"]
    still = asked("side-table")
    assert "safety-squeeze-moving" not in told(still)


def _pivots(one: Asked) -> bool:
    return any(
        "pivot" in getattr(f, "fit", "") for p in one.assembly.parts.values() for f in p.features
    )


def test_no_strength_means_tipping_is_not_done():
    one = asked("side-table")
    empty = Report(
        family="x", name="x", edition="", checks=(), joints=(), parts=(), cases=(), assumptions=()
    )
    rows = told(replace(one, report=empty))
    assert rows["safety-tipping"][0].severity == "not done"


def test_where_a_sum_says_it_tips_that_is_a_warning():
    one = asked("side-table")
    tip = next(c for c in one.report.checks if c.code == "tipping")
    over = tuple(c._replace(use=1.3) if c is tip else c for c in one.report.checks)
    (found,) = told(replace(one, report=replace(one.report, checks=over)))["safety-tipping"]
    assert found.severity == "warning"
    assert found.remedy
