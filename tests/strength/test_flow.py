"""Strength and safety on the command line: told by check, tried on request, drawn as a kind."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from flatpack import job
from flatpack.__main__ import main
from flatpack.profile_files import profile_texts, read_text

KEPT = Path(__file__).parents[2] / "profiles" / "pieces"
BENCH = KEPT / "sprout-bench.toml"


def test_check_opens_with_what_was_not_judged(capsys):
    assert main(["check", str(BENCH)]) == 0
    lines = capsys.readouterr().out.splitlines()
    made = job.with_strength(job.design(read_text(str(BENCH)), BENCH.name, profile_texts()))
    open_ = len(made.strength.open_joints)
    assert lines[1].startswith(f"Strength: {open_} of {len(made.strength.joints)} joints not judg")
    assert any("replaces testing" in line for line in lines)


def test_check_tells_a_program_the_same(capsys):
    assert main(["check", str(BENCH), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    codes = {row["code"] for row in told["findings"]}
    assert {"strength", "safety-caution", "safety-lifting"} <= codes
    assert told["counts"]["not done"] == sum(
        row["severity"] == "not done" for row in told["findings"]
    )


def test_findings_come_worst_first():
    made = job.with_strength(job.design(read_text(str(BENCH)), BENCH.name, profile_texts()))
    order = ["fault", "not done", "warning", "note"]
    ranks = [order.index(f.severity) for f in made.findings]
    assert ranks == sorted(ranks)
    codes = [f.code for f in made.findings]
    assert not {"strength-caution", "strength-tipping", "strength-sliding"} & set(codes)


def test_a_design_is_judged_only_when_asked():
    made = job.design(read_text(str(BENCH)), BENCH.name, profile_texts())
    assert made.strength is None
    assert not any(f.code.startswith(("strength", "safety")) for f in made.findings)


def test_draw_writes_the_kind_asked_for(tmp_path, capsys):
    out = tmp_path / "out"
    assert main(["draw", str(BENCH), "--out", str(out), "--only", "strength"]) == 0
    names = {p.relative_to(out).as_posix() for p in out.rglob("*") if p.is_file()}
    assert {"strength.html", "lists/strength.csv", "strength/use-of-capacity.svg"} <= names
    assert not any(name.startswith("parts/") for name in names)
    lists = tmp_path / "lists"
    assert main(["draw", str(BENCH), "--out", str(lists), "--only", "lists"]) == 0
    assert not (lists / "lists" / "strength.csv").exists()


@pytest.mark.parametrize(("value", "fits"), [(3, True), (99, False)])
def test_remedies_are_built_with_the_keys_that_they_change(value, fits):
    piece = KEPT / "seedling-lounger.toml"
    made = job.design(read_text(str(piece)), piece.name, profile_texts())
    built = job._rebuilt(made, made.profiles, {"slats.deck_count": value})
    assert (built is not None) == fits
    if built is not None:
        assert sum(key.startswith("slat-") for key in built.parts) == value


def test_check_says_in_a_sentence_whether_it_is_known_to_hold(capsys):
    assert main(["check", str(BENCH)]) == 0
    said = capsys.readouterr().out
    made = job.with_strength(job.design(read_text(str(BENCH)), BENCH.name, profile_texts()))
    assert "It fits together and can be made." in said
    held = "It holds the loads assumed." in said
    assert held == (not made.strength.open_joints and not made.strength.open_parts
                    and not made.strength.over)  # fmt: skip


def test_findings_that_stand_together_are_counted(capsys):
    made = job.with_strength(job.design(read_text(str(BENCH)), BENCH.name, profile_texts()))
    kinds = {f._replace(part="") for f in made.findings}
    assert main(["check", str(BENCH)]) == 0
    said = capsys.readouterr().out
    told = f"{len(made.findings)} findings of {len(kinds)} kinds"
    assert (told in said) == (len(kinds) < len(made.findings))
