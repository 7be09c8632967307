"""Every limit that the checks hold a design to, each with the place it comes from."""

from __future__ import annotations

from typing import NamedTuple

PRACTICE = "common practice, no source"
EC5_BOLTS = "EN 1995-1-1 table 8.4 (bolts)"
EC5_SCREWS = "EN 1995-1-1 table 8.2 (nails and screws, predrilled)"


class Limit(NamedTuple):
    """A number, what it is measured in, and where it comes from."""

    value: float
    source: str = PRACTICE
    unit: str = "mm"


class Limits(NamedTuple):
    """What the checks compare with; a piece may hand in its own.

    Names ending in `_least` are faults when missed, those ending in `_wanted` warnings.  Distances
    in diameters (`_d`) are counted from a hole's centre, all others are wood that remains.  Tables
    8.2 and 8.4 are quoted after handbooks that print them; which of their cases applies depends on
    the load, so they give warnings and notes, never faults.
    """

    overlap: Limit = Limit(0.05, "stated tolerance: largest ball that may fit in shared room")
    touching: Limit = Limit(0.05, "stated tolerance")
    in_line: Limit = Limit(0.05, "stated tolerance")
    seated: Limit = Limit(0.1)
    fit_off: Limit = Limit(0.02, "stated tolerance")
    fit_loosest: Limit = Limit(0.6)
    squeeze_most: Limit = Limit(0.3)
    wedge_steepest: Limit = Limit(0.2, PRACTICE, "width over length")
    wedge_play: Limit = Limit(0.1, PRACTICE)
    blade_tilt: Limit = Limit(45.0, "instruction manuals of compound mitre saws", "degrees")
    table_turn: Limit = Limit(60.0, PRACTICE, "degrees")
    driver: Limit = Limit(1.0)
    wall_least: Limit = Limit(3.0)
    pilot_wall_least: Limit = Limit(2.0)
    round_end_wanted: Limit = Limit(8.0)
    web_least: Limit = Limit(2.0)
    web_wanted: Limit = Limit(4.0)
    floor_least: Limit = Limit(1.0)
    floor_wanted: Limit = Limit(2.0)
    bolt_edge_d: Limit = Limit(3.0, EC5_BOLTS, "diameters")
    bolt_end_d: Limit = Limit(4.0, EC5_BOLTS, "diameters")
    bolt_loaded_end_d: Limit = Limit(7.0, EC5_BOLTS, "diameters")
    bolt_loaded_end: Limit = Limit(80.0, EC5_BOLTS)
    bolt_apart_d: Limit = Limit(4.0, EC5_BOLTS, "diameters")
    screw_edge_d: Limit = Limit(3.0, EC5_SCREWS, "diameters")
    screw_end_d: Limit = Limit(7.0, EC5_SCREWS, "diameters")
    bite_least: Limit = Limit(6.0)
    bite_wanted: Limit = Limit(12.0)
    tip_cover_least: Limit = Limit(1.0)
    tip_cover_wanted: Limit = Limit(3.0)
    tip_end_least: Limit = Limit(2.0)
    tip_end_wanted: Limit = Limit(5.0)
    nut_askew: Limit = Limit(2.0, PRACTICE, "degrees")
    tail_pitches: Limit = Limit(1.0, PRACTICE, "threads")
    slat_gap_least: Limit = Limit(3.0)
    slat_gap_most: Limit = Limit(30.0)
    wet_gap_least: Limit = Limit(1.5)
    wet_season: Limit = Limit(8.0, PRACTICE, "% moisture")
