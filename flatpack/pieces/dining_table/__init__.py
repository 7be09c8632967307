"""Dining table: a slatted top on two leg frames, at which benches to match fit between the legs."""

from flatpack.pieces.dining_table.build import build, conflicts
from flatpack.pieces.dining_table.parameters import DiningTable

__all__ = ["DiningTable", "build", "conflicts"]
