"""Parts placed in space, the joints between them, and the piece that they make."""

from flatpack.model.assembly import (
    Assembly,
    Bearing,
    Comfort,
    ComfortKind,
    Cutting,
    Driver,
    Fastener,
    Hardware,
    Joint,
    Machining,
    Motion,
    Step,
    Working,
)
from flatpack.model.motion import posed
from flatpack.model.part import Bar, Cut, Face, Feature, Group, Hand, Part
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
    "Group",
    "Hand",
    "Hardware",
    "Joint",
    "Machining",
    "Motion",
    "Part",
    "Solid",
    "Step",
    "Working",
    "axis_frame",
    "cylinder",
    "posed",
]
