"""Folding stool: crossed legs on a pivot, held open by a seat that hooks over their top bars."""

from flatpack.pieces.folding_stool.build import build, conflicts
from flatpack.pieces.folding_stool.parameters import FoldingStool

__all__ = ["FoldingStool", "build", "conflicts"]
