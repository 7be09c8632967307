"""Parts placed in space, the joints between them, and the piece that they make."""

from flatpack.model.assembly import (
    Assembly,
    Bearing,
    Comfort,
    ComfortKind,
    Cutting,
    Driver,
    Fastener,
    Fit,
    Hardware,
    Hold,
    Joint,
    Machining,
    Motion,
    Recess,
    Step,
    Working,
)
from flatpack.model.folded import folded, lying
from flatpack.model.folding import Folding
from flatpack.model.motion import posed
from flatpack.model.part import Bar, Cut, Face, Feature, Group, Hand, Part
from flatpack.model.passage import Passage, is_shaped, passage, sides
from flatpack.model.saw_cuts import SawCut, saw_cuts
from flatpack.model.sawn import (
    corners,
    left_corners,
    outline_at,
    placed_corners,
    trimmed,
    volume,
)
from flatpack.model.solid import Solid, axis_frame, cylinder

__all__ = [
    "Assembly",
    "Bar",
    "Bearing",
    "Comfort",
    "ComfortKind",
    "Cut",
    "Cutting",
    "Driver",
    "Face",
    "Fastener",
    "Feature",
    "Fit",
    "Folding",
    "Group",
    "Hand",
    "Hardware",
    "Hold",
    "Joint",
    "Machining",
    "Motion",
    "Part",
    "Passage",
    "Recess",
    "SawCut",
    "Solid",
    "Step",
    "Working",
    "axis_frame",
    "corners",
    "cylinder",
    "folded",
    "is_shaped",
    "left_corners",
    "lying",
    "outline_at",
    "passage",
    "placed_corners",
    "posed",
    "saw_cuts",
    "sides",
    "trimmed",
    "volume",
]
