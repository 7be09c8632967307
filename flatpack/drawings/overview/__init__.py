"""A small picture of a whole piece, to know it by among many."""

from flatpack.drawings.overview.picture import thumbnail

__all__ = ["thumbnail"]
