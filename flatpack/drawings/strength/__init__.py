"""Sheets that say whether a piece will hold: list, page, greys of use, bending of the worst."""

from flatpack.drawings.strength.sheets import sheets

__all__ = ["sheets"]
