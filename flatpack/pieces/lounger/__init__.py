"""Reclining lounger: slatted deck on side rails, a hinged back held by two arms, rod and racks."""

from flatpack.pieces.lounger.build import build, conflicts
from flatpack.pieces.lounger.parameters import Lounger

__all__ = ["Lounger", "build", "conflicts"]
