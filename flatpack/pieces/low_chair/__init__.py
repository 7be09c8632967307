"""Low chair: raked seat, back of fanned slats, broad rounded arms on the front legs."""

from flatpack.pieces.low_chair.build import build, conflicts
from flatpack.pieces.low_chair.parameters import LowChair

__all__ = ["LowChair", "build", "conflicts"]
