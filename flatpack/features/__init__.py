"""What is worked on a part, one kind a file; each says what it is, not how it is written."""

from flatpack.features.arris import Arris
from flatpack.features.bevel import Bevel, Slant, bevels
from flatpack.features.edge_hole import EdgeHole
from flatpack.features.engraving import Engraving, engraved
from flatpack.features.hole import Counterbore, Countersink, Hole
from flatpack.features.notch import Notch
from flatpack.features.pocket_hole import PocketHole
from flatpack.features.slot import Slot

__all__ = [
    "Arris",
    "Bevel",
    "Counterbore",
    "Countersink",
    "EdgeHole",
    "Engraving",
    "Hole",
    "Notch",
    "PocketHole",
    "Slant",
    "Slot",
    "bevels",
    "engraved",
]
