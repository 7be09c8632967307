"""Side table: a slatted top on two leg frames, straight or splayed."""

from flatpack.pieces.side_table.build import build, conflicts
from flatpack.pieces.side_table.parameters import SideTable

__all__ = ["SideTable", "build", "conflicts"]
