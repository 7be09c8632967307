"""English: cuts at a slant, as table and blade of a saw are set for them."""

from __future__ import annotations

SQUARE, UPRIGHT = "table square", "blade upright"
FINE = 0.05
"""Angles below this are square: a scale is read to 0.1 degree."""
STEEP = 60.0
"""A cut turned further than this from square across is told by its angle to the length."""


def setting(table: float, blade: float) -> str:
    """E.g. 'table 7.1°, blade 12.3°'; a cut along the board is ripped."""
    tilted = UPRIGHT if blade < FINE else f"blade {blade:.1f}°"
    if table > 90.0 - FINE:
        return f"ripped along the edge, {tilted}"
    if table > STEEP:
        return f"ripped {90.0 - table:.1f}° off the edge, {tilted}"
    return f"{SQUARE if table < FINE else f'table {table:.1f}°'}, {tilted}"


def bevel(setting: str, face: str) -> str:
    """A slanting cut of a part."""
    return f"saw at a slant: {setting}, {face} face longer and up"


def on_drawing(setting: str, long: str, seen: str) -> str:
    """Beside the cut on a drawing of one face."""
    if not long:
        return f"saw: {setting}"
    which = "this face" if long == seen else "the other face"
    return f"saw: {setting}; long face up: {which}"


def brief(setting: str) -> str:
    """The same where there is little room."""
    return setting


SETTINGS_HEADER = (
    "mark", "name", "hand", "cut", "table", "blade", "longer face, up on the saw", "long point at",
    "cuts",
)  # fmt: skip
TITLE = "Saw settings"
CUTS = {
    "start": "datum end", "end": "far end", "low": "datum edge", "high": "far edge",
}  # fmt: skip
EITHER_FACE = "either"
SQUARE_ACROSS = "square across"
LONG_POINTS = "length over the long points"
FROM_LONG_POINT = "lengths, x and y are measured from the long points"
BOTH_ARRISES = (
    "where the blade is tilted the outline is the longer face's, the dashed and dotted line the "
    "arris of the shorter"
)
BEVELS = (
    "bevelled cuts are marks: cut the outline square, then saw along it with table and blade as "
    "told, the longer face up; the bevel line is the arris of the other face"
)
TOOL = (
    "saw whose table turns and whose blade tilts, with an angle gauge that reads 0.1°",
    "bevelled cuts: try the setting on waste first",
)
BOOK_NOTE = (
    "Table: turned from square across the board. Blade: tilted from upright. Lay the longer face "
    "up, try each setting on waste and check it with a bevel gauge; keep hands clear of the tilted "
    "blade and clamp short parts. Drill before sawing where a hole stands near a slanting end."
)


def cuts(number: int, said: str) -> str:
    """A line below the drawing of a part."""
    return f"{number} cuts that aren't square: {said}" if number > 1 else f"not square: {said}"


def at(where: str, said: str) -> str:
    """One cut, told by where it is."""
    return f"{where}: {said}"
