"""English: what the overview of a batch prints."""

from __future__ import annotations

TITLE = "Overview of variants"
PICTURE, NAME, STATE = "Picture", "Variant", "State"
PROBLEM, PLACE, FOLDER = "What is the matter", "From", "Folder"
STATES = {
    "made": "made",
    "faults": "with faults in the design",
    "refused": "refused",
    "failed": "failed",
    "stopped": "not reached",
}
SORT = "A click on a column's head sorts by it; another click turns the order round."
SIZES = (
    "Sizes in mm of the piece as it stands, its back flat or its lid closed; timber as its boards "
    "weigh it. Sheets of a design that has faults aren't for cutting."
)
CAUTION = (
    "A check that passes replaces neither a test of the finished piece nor the advice of a "
    "licensed person where that is required."
)


def counted(counts: dict[str, int]) -> str:
    """How many variants there are in each state."""
    total = sum(counts.values())
    told = [f"{count} {STATES[state]}" for state, count in counts.items() if count]
    noun = "variant" if total == 1 else "variants"
    return f"{total} {noun}: {', '.join(told)}" if told else f"{total} {noun}"


def page(number: int, pages: int) -> str:
    """One of several pages."""
    return f"page {number} of {pages}"
