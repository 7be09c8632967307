"""Planter box: boarded sides on corner posts or battens, a drained bottom off the ground, a cap."""

from flatpack.pieces.planter.build import build, conflicts
from flatpack.pieces.planter.parameters import Planter

__all__ = ["Planter", "build", "conflicts"]
