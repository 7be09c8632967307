"""Stool and table from sheet without hardware: crossed legs, or sides and wedged stretchers."""

from flatpack.pieces.sheet.build import build_stool, build_table
from flatpack.pieces.sheet.conflicts import conflicts
from flatpack.pieces.sheet.parameters import SheetStool, SheetTable

__all__ = ["SheetStool", "SheetTable", "build_stool", "build_table", "conflicts"]
