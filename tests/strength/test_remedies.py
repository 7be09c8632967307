"""Remedies are found by trying: the cheapest that works, or that none does."""

from __future__ import annotations

from flatpack.strength import Change, changes, findings, with_remedies


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


def test_a_sound_piece_needs_none(lounger, profiles):
    from dataclasses import replace

    sound = replace(lounger.report(), checks=())
    assert (
        with_remedies(sound, lounger.record, lounger.assembly, profiles, lounger.rebuild) == sound
    )
