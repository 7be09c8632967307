"""Findings and lists speak of what the piece has: a lid only where there is one, parts by name."""

from __future__ import annotations

from pathlib import Path

from flatpack import job
from flatpack.profile_files import profile_texts, read_text

FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"
TEXTS = profile_texts()
STAND = """
family = "composed"
name = "A stand"
[size]
width = 600
depth = 300
[boards]
timber = "larch-27"
[parts.leg]
shape = "board"
width = 70
runs = "up"
shows = "left"
pair = "left"
left = 40
front = 10
bottom = 0
top = 400
[parts.cleat]
shape = "board"
width = 70
runs = "rear"
shows = "right"
pair = "left"
left = "leg.right"
front = 10
rear = 200
top = 400
[[joints]]
kind = "bolts"
through = "leg"
into = "cleat"
count = 1
"""


def test_a_lid_is_spoken_of_only_where_there_is_one() -> None:
    bare = job.with_strength(job.design(STAND, "stand", TEXTS))
    assert any(f.code == "safety-tipping" for f in bare.findings)
    assert not any("lid open" in f.message for f in bare.findings)
    source = read_text(str(FOLDER / "cabin-box.toml"))
    box = job.with_strength(job.design(source, "cabin-box", TEXTS))
    assert any(f.code == "safety-tipping-lid-open" for f in box.findings)


def test_bolts_nuts_and_washers_name_the_parts_that_they_join() -> None:
    bill = job.design(STAND, "stand", TEXTS).assembly.hardware
    assert {h.use for h in bill} == {"Leg to Cleat"}
    assert len(bill) == 3
