"""Cutting plans: boards cut to length, sheets on a panel saw, true shapes on a router.

Pure: records in, records out.  Every plan carries a bound that its own search has no part in, and
each has an independent checker.  Heavy libraries are imported inside the functions that use them.
"""

from flatpack.cutting.bounds import Bound
from flatpack.cutting.crosscut import Crosscut, CrossPlan, CutBoard, plan_crosscuts
from flatpack.cutting.effort import Effort
from flatpack.cutting.records import (
    CrossSaw,
    PanelSaw,
    Piece,
    StockLength,
    StockSheet,
    Trouble,
)
from flatpack.cutting.saw_records import Cut, CutSheet, Laid, Rest, SawPlan
from flatpack.cutting.sawplan import plan_sheets

__all__ = [
    "Bound",
    "CrossPlan",
    "CrossSaw",
    "Crosscut",
    "Cut",
    "CutBoard",
    "CutSheet",
    "Effort",
    "Laid",
    "PanelSaw",
    "Piece",
    "Rest",
    "SawPlan",
    "StockLength",
    "StockSheet",
    "Trouble",
    "plan_crosscuts",
    "plan_sheets",
]
