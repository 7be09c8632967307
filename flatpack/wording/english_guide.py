"""English: how to use the printed sheets, and what their lines mean."""

from __future__ import annotations

GUIDE_TITLE = "How to use these sheets"
GUIDE = (
    "1. Measure both rulers with a steel tape. If they are off, measure them to 0.1 mm and draw "
    "again with --printed and both lengths, that along the paper's short side first, for example "
    "--printed 179.4,239.2.",
    "2. Cut the windows of a page apart, across waste paper or along the zigzags: each says inside "
    "which part, window and face it is for. Lay it on the face named, heavy lines on the part's "
    "edges; where it has no end of the part, draw the steel-tape line across the board first, as "
    "far from the end as it says, and lay the paper's line on it. Fix it with sticky tape.",
    "3. Check every mark with a steel tape: x from the datum end, y from the datum edge. Prick the "
    "crosses through, lift the paper, drill. Back the part up under through holes; clamp it; wear "
    "eye protection.",
    "4. Left and right hand: as seen by someone who {use}. Show face: the better face, seen in "
    "the finished piece unless its sheet says otherwise; back face: the other one. Datum end and "
    "datum edge: where all measuring starts; mark both on the board in pencil.",
    "5. Hole numbers that a sheet leaves out are on the part's other face or on the story stick. "
    "Holes that meet take the same screw or bolt: check one against the other before drilling. "
    "Content codes have no letter O or I: those are nought and one.",
)
GUIDE_USE = {
    "": "sits on it",
    "lying": "lies on it, feet to the foot end",
    "standing": "stands behind it and looks over it to its front",
    "opening": "stands before its front and opens it",
}
"""What somebody does who sees left and right as the sheets mean them, by the piece's bearing."""
LINE_KEY = (
    ("outline", "edge of the part: saw to it"),
    ("datum-edge", "datum edge, datum end"),
    ("break", "paper ends, the part goes on"),
    ("tape", "steel-tape line"),
    ("thin-line", "already cut, or no cut"),
    ("hidden-edge", "worked from the other face"),
    ("pocket-hole", "pocket hole, by the jig"),
    ("countersink", "countersink"),
)
"""Layer of a line, or the name of a drawn sample, and what it means."""
