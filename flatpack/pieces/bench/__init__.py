"""Slatted bench: seat on two or more leg frames, with a raked back and arm rests or without."""

from flatpack.pieces.bench.build import build, conflicts
from flatpack.pieces.bench.parameters import Bench

__all__ = ["Bench", "build", "conflicts"]
