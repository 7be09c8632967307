"""Small pictures of whole pieces and of parts, to know them by among many."""

from flatpack.drawings.overview.picture import thumbnail
from flatpack.drawings.overview.plate import plate

__all__ = ["plate", "thumbnail"]
