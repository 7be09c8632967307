"""Lidded box for cushions: boarded sides, ventilated bottom, a lid on hinges held by a prop."""

from flatpack.pieces.cushion_box.build import build, conflicts
from flatpack.pieces.cushion_box.parameters import CushionBox

__all__ = ["CushionBox", "build", "conflicts"]
