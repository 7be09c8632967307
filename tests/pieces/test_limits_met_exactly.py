"""A size chosen to meet a limit exactly meets it."""

from __future__ import annotations

from flatpack import checks
from flatpack.parameters import replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load


def test_arm_s_round_end_of_4_bolt_diameters() -> None:
    """Eurocode 5 table 8.4, a3,c: 4 x 8 = 32 from the hole to the end of an arm 64 wide."""
    family = PIECES["lounger"]
    record = family.record(name="Trial")
    for width, told in ((64.0, False), (63.9, True)):
        wide = replace(record, arms=replace(record.arms, width=width))
        found = checks.run(family.build(wide, load(profile_texts())), only=("walls",))
        ends = [f for f in found if f.code == "end-distance" and f.part.startswith("arm")]
        assert bool(ends) is told
