"""Dining bench: made to match a table, between whose legs it slides in."""

from flatpack.pieces.dining_bench.build import build, conflicts
from flatpack.pieces.dining_bench.parameters import DiningBench

__all__ = ["DiningBench", "build", "conflicts"]
