"""Single parts to cut, without a piece that they belong to."""

from flatpack.pieces.loose_parts.build import build, conflicts
from flatpack.pieces.loose_parts.parameters import LooseParts

__all__ = ["LooseParts", "build", "conflicts"]
