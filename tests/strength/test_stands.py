"""A stand with shelves: what stands on it, against hand sums."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from flatpack import job
from flatpack.profile_files import profile_texts
from flatpack.profiles import load
from flatpack.strength.setting import Setting
from flatpack.strength.shelves import stand
from flatpack.strength.surfaces import shelves_of
from flatpack.strength.use_cases import Use

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
PROFILES = load(profile_texts())


@pytest.fixture(scope="module")
def made():
    found = re.search(r"```toml\n(family = \"composed\".*?)```", README, re.S)
    assert found is not None
    return job.design(found[1], "stand.toml", profile_texts())


@pytest.fixture(scope="module")
def cases(made) -> dict[str, list[Use]]:
    setting = Setting(assembly=made.assembly, profiles=PROFILES, loads=PROFILES.load_set("stand"),
                      grades={})  # fmt: skip
    found: dict[str, list[Use]] = {}
    for use in stand(setting):
        found.setdefault(use.loading.case.key, []).append(use)
    return found


def down(use: Use) -> float:
    return -sum(push.force.z for push in use.pushes)


def test_one_shelf_full_weighs_its_plan_times_the_load(made, cases):
    """600 by 300 at 1600 N/m2 and a factor of 1.5: 432 N; half of it on the front half."""
    assert len(shelves_of(made.assembly)) == 1
    [full], [half] = cases["full"], cases["front half"]
    assert down(full) == pytest.approx(0.6 * 0.3 * 1600.0 * 1.5)
    assert down(half) == pytest.approx(down(full) / 2.0)
    assert max(push.place.x for push in half.pushes) <= 150.0
    assert full.loading.lasting == 1.0


def test_a_pot_on_each_board_and_a_pull_at_the_top(cases):
    """300 N and 200 N, times 1.5; four slats, three places each."""
    assert len(cases["pot"]) == 4 * 3
    assert {round(down(use), 6) for use in cases["pot"]} == {450.0}
    for way in ("forwards", "backwards", "to the left", "to the right"):
        [use] = cases[f"push {way}"]
        aside = [sum(push.force[i] for push in use.pushes) for i in (0, 1)]
        assert sum(a * a for a in aside) == pytest.approx(300.0**2)


def test_nobody_sits_on_it(cases):
    assert not {"one", "drop", "sits front", "all"} & set(cases)


def test_the_readmes_stand_is_judged_by_it(made):
    assert made.assembly.family == "composed"
    codes = [f.code for f in made.findings]
    assert "strength-loads-not-done" not in codes
    assert [f for f in made.findings if f.severity == "fault"] == []
