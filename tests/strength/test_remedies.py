"""Remedies are found by trying: the cheapest that works, or that none does."""

from __future__ import annotations

from dataclasses import replace

from flatpack.strength import Change, Check, changes, findings, with_remedies


def test_the_cheapest_that_works_is_told(lounger):
    tried = [
        Change((("rack.rod", "hardwood-25"),), "a rod of 25"),
        Change((("rack.rod", "steel-20"),), "a steel rod of 20"),
        Change((("rack.rod", "steel-16"),), "a steel rod of 16"),
        Change((("slats.deck_count", 99),), "more slats than fit"),
    ]
    first = lounger.report()
    found = with_remedies(first, lounger.record, lounger.assembly, lounger.profiles,
                          lounger.rebuild, tried=tried)  # fmt: skip
    remedies = dict(found.remedies)
    assert remedies["rod bending"].startswith("tried: a steel rod of 16 brings it to ")
    assert "none of 3 single changes tried mends it" in remedies.values()
    warned = [f for f in findings(found) if f.severity == "warning"]
    rows = {f.part: f.remedy for f in warned if "bending" in f.code}
    assert rows["rod"] == remedies["rod bending"]


def test_changes_reach_from_boards_to_bolts(lounger, bench):
    words = [c.words for c in changes(lounger.record, lounger.assembly, lounger.profiles)]
    text = "\n".join(words)
    boards = ('boards.slats = "ply-24"', "slats.deck_count = 14")
    for part in (*boards, "coach-m10", "steel", "wide-m8", "wood-5"):
        assert part in text
    text = "\n".join(c.words for c in changes(bench.record, bench.assembly, bench.profiles))
    assert "frames.count = 4, one more" in text  # a nearer leg


def test_two_together_where_one_is_not_enough(lounger, monkeypatch):
    # Each change adds strength: use = 2 / (1 + what is added).
    adds = {"a": 0.6, "b": 0.5, "c": 0.1}
    check = Check("rail", "part", "bending", "case", 2.0, "", "", "")

    def rebuilt(values):
        return replace(lounger.assembly, name="".join(sorted(values)))

    def judged(made, *_):
        strength = 1.0 + sum(add for key, add in adds.items() if key in made.name)
        return replace(first, checks=(check._replace(use=2.0 / strength),))

    monkeypatch.setattr("flatpack.strength.remedies.report", judged)
    first = replace(lounger.report(), checks=(check,))
    tried = [Change(((key, 1),), f"{key} = 1") for key in ("a", "b", "c")]
    found = with_remedies(first, lounger.record, lounger.assembly, lounger.profiles, rebuilt,
                          tried=tried)  # fmt: skip
    ((what, words),) = found.remedies
    assert what == "rail bending"
    assert words == "tried: a = 1 with b = 1 brings it to 95%, costing as much as 0.0 l of wood"
    found = with_remedies(first, lounger.record, lounger.assembly, lounger.profiles, rebuilt,
                          tried=tried[1:])  # fmt: skip
    ((_, words),) = found.remedies
    assert words == "none of 2 single changes tried mends it; b = 1 brings it to 133%"


def test_a_sound_piece_needs_none(lounger, profiles):
    sound = replace(lounger.report(), checks=())
    assert (
        with_remedies(sound, lounger.record, lounger.assembly, profiles, lounger.rebuild) == sound
    )
