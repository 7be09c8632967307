"""English: what a piece is for, what it may carry, and how it is tried, by what it is."""

from __future__ import annotations

_SIT = (
    "Sit or lie on it; nobody stands, kneels or jumps on it. Keep children off until it is "
    "finished and checked."
)
_KEEP_OFF = (
    "Nobody sits, stands, kneels or climbs on it. Keep children away until it is finished and "
    "checked."
)
USE_IT = {"": _SIT, "lying": _SIT, "standing": _KEEP_OFF, "opening": _KEEP_OFF}
"""What it is for, and what it isn't, by the piece's bearing."""
_BY_PERSON = "sand bags or a person who can step off"
_BY_BAGS = "sand bags or water cans"
TEST_WITH = {"": _BY_PERSON, "lying": _BY_PERSON, "standing": _BY_BAGS, "opening": _BY_BAGS}
"""What a piece is loaded with for a test, by its bearing."""
EVERY_NOTCH = ", in every notch of what moves"


def no_tests(bearing: str, notches: bool) -> str:
    """That sums are no test, and how to test it; `notches` hold what moves."""
    return (
        f"The checks are sums. Before anyone uses the piece, load it slowly, near the ground, with "
        f"{TEST_WITH[bearing]}: a quarter, a half, then the whole of the load that it is meant "
        f"for, some minutes at each{EVERY_NOTCH if notches else ''}. Listen and look for cracks, "
        "sagging and slipping joints; at any of them stop, and don't use it."
    )


LOADS = "The piece is meant for no more than this: {}."
NO_LOADS = (
    "What it may carry wasn't judged: no loads are known for a piece like this. Decide what it is "
    "to carry, test it with that as told below, and load it with no more."
)
