"""English: the build book's chapter on whether the piece will hold."""

from __future__ import annotations

TITLE = "Will it hold, and is it safe"
NOT_WORKED_OUT = (
    "Whether it holds wasn't worked out for this book. `flatpack check` tells it; until then treat "
    "the piece as untested."
)
OPEN_CAPTION = "What was not judged, and why"
OPEN_HEADER = ("how many", "check", "what is missing", "which")
ALL_JUDGED = "Every joint and every part was judged."
OPEN_NOTE = (
    "Not judged is no pass: no published rule covers it, or a value is missing. The load test "
    "below is what stands for it."
)
USES_CAPTION = "Where most of the strength is used"
USES_HEADER = ("part or joint", "check", "use", "under which load")
USES_NOTE = (
    "Use is load over strength, both with their safety factors: over 100 % it is weaker than the "
    "code asks. The whole list is in lists/strength.csv, the workings in strength.html."
)
OTHER_CAPTION = "What another published method finds too weak; it would be no pass either"
OTHER_NOTE = (
    "These joints want more than the drawing gives: more or longer screws, glue besides, or "
    "another joint. Look at them first in the load test, and every month afterwards."
)
PICTURE = "How much of each part's and joint's strength is used"
LOADS_CAPTION = "The loads that it was judged by"
LOADS_HEADER = ("case", "load")
LOADS_NOTE = "Each is assumed where no test load was to be had; strength.html names every source."
TEST = "Load test: low, slow, nobody under it"
_NAMED = "of the weight named above"
_UNNAMED = "of the most that it is ever to carry"
_STEPS = (
    "Stand the piece on soft level ground. Nobody sits on it yet; keep children and feet away.",
    "Load it with bags of sand or water cans laid, not dropped, where the load will be: a quarter "
    "{weight}, for five minutes.",
    "Look along every part for sag, at every joint for gaps, at every screw head and round every "
    "bolt for crushed wood and cracks; listen while you load.",
    "Then half, then the whole, five minutes each; then an hour at the whole. Lay it at the ends "
    "and edges too, and push the piece sideways by hand in each direction.",
    "Take the load off. What stays bent, loose or cracked has failed: don't use the piece, mend "
    "the joint with more than it had, and begin again.",
    "Only then use it: slowly at first, and where it is sat on, hands on something that stands "
    "fast and somebody beside you.",
)


def load_test(named: bool) -> tuple[str, ...]:
    """How to load the piece; `named` where its loads stand above."""
    return tuple(text.format(weight=_NAMED if named else _UNNAMED) for text in _STEPS)


STANDING = "Tipping and sliding"
YEARLY = (
    "Do the look over again after the first month, after each winter, and whenever it creaks. "
    "Tighten bolts after the first dry summer."
)


def use(percent: str) -> str:
    """Use of capacity."""
    return f"{percent} %"


def more(names: str, count: int) -> str:
    """Names, and how many more there are."""
    return f"{names} and {count} more" if count else names
