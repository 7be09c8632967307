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
from flatpack.model.motion import posed
from flatpack.model.part import Bar, Cut, Face, Feature, Group, Hand, Part
from flatpack.model.passage import Passage, is_shaped, passage, sides
from flatpack.model.sawn import corners, outline_at, planes, volume
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
    "Solid",
    "Step",
    "Working",
    "axis_frame",
    "corners",
    "cylinder",
    "is_shaped",
    "outline_at",
    "passage",
    "planes",
    "posed",
    "sides",
    "volume",
]
