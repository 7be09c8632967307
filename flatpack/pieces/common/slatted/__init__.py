"""A slatted top on two leg frames: what side table, dining table and dining bench are made of."""

from flatpack.pieces.common.slatted.build import build
from flatpack.pieces.common.slatted.conflicts import conflicts
from flatpack.pieces.common.slatted.plan import Plan, Sizes, Splay, planned

__all__ = ["Plan", "Sizes", "Splay", "build", "conflicts", "planned"]
