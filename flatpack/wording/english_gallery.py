"""English: the gallery of pieces and part shapes."""

from __future__ import annotations

TITLE = "What flatpack can draw"
LINES = (
    "Each picture is drawn from an example file. To begin one of your own, use the command "
    "under its heading, then change what you like in the file that it writes.",
    "The examples belong to the Wobbly Marrow Allotment Club, which doesn't exist.",
)
PIECES, SHAPES = "Pieces", "Shapes of parts for a piece of your own"
SHAPES_LINES = (
    "In a file of your own parts (flatpack new composed my-piece.toml) each part is made by one of "
    "these words, with the keys below it.",
)
NAME_OF_PART = "my-part"
KEYS_HEADER = ("key", "value", "left out", "what it does")
NEEDED, NOTHING = "must be given", "none, or derived"


def sizes(length: str, width: str, height: str) -> str:
    """Overall size below a picture."""
    return f"{length} x {width} x {height} mm"


def keys_of(word: str) -> str:
    """Over the keys of a shape."""
    return f"Keys of shape: {word}"


def how_to_begin(family: str) -> str:
    """The command that begins a piece of a family."""
    return f"flatpack new {family} my-{family}.toml"
