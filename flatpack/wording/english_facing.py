"""English: which way a face of a part looks in the finished piece."""

from __future__ import annotations

UP_OR_DOWN = {
    True: "it looks up in the finished piece",
    False: "it looks down in the finished piece",
}
IN_OR_OUT = {True: "it looks to the middle of the piece", False: "it looks outwards"}
SIDES = {
    False: "it looks to the side of the left-hand parts",
    True: "it looks to the side of the right-hand parts",
}
ENDS = {
    "": ("front", "rear"),
    "lying": ("foot end", "head end"),
    "standing": ("front", "rear"),
    "opening": ("rear", "front"),
}
"""Names of the piece's ends, by its bearing."""


def towards(end: str) -> str:
    """To which end of the piece a face looks."""
    return f"it looks to the {end} of the piece"
