"""A piece of one's own, composed in a file from parts, places and joints, without any code."""

from flatpack.pieces.composed.build import build, conflicts
from flatpack.pieces.composed.parameters import Composed

__all__ = ["Composed", "build", "conflicts"]
