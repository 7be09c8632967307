"""Exact plane outlines and placement in space; knows no wood and no file format."""

from flatpack.geometry.frame import ORIGIN, Frame, Vec, X, Y, Z
from flatpack.geometry.outline import (
    Outline,
    Point,
    Segment,
    bulge_of,
    chain,
    closed,
    cosine_sine,
)
from flatpack.geometry.plane import Plane

__all__ = [
    "ORIGIN",
    "Frame",
    "Outline",
    "Plane",
    "Point",
    "Segment",
    "Vec",
    "X",
    "Y",
    "Z",
    "bulge_of",
    "chain",
    "closed",
    "cosine_sine",
]
