"""English: every sentence of the strength page, its tables and pictures."""

from __future__ import annotations

LANGUAGE = "en"
CONTENTS = "Contents"
PURPOSES = {
    "strength-list": "use of capacity of every part and joint, worst first",
    "strength-page": "will it hold, and is it safe: what was judged, how, and what wasn't",
    "use-of-capacity": "the piece in greys: the darker, the more of its strength is used",
    "diagrams": "bending and deflection of the worst members",
}
FACTS = {"code": "Content code", "date": "Date of issue"}
WARNING = "Not for cutting: the design has faults"
TABLE_TITLE = "Use of capacity, worst first"
HEADER = (
    "part or joint", "kind", "check", "use %", "state", "load case", "formula", "clause", "source",
    "what is missing", "other method, no pass", "its use %", "its source", "remedy",
)  # fmt: skip
OVER, WITHIN, NOT_JUDGED = "over capacity", "within capacity", "not judged"
KINDS = {"part": "part", "joint": "joint", "piece": "whole piece"}


def page_title(name: str) -> str:
    """Title of the page."""
    return f"Will it hold, and is it safe? {name}"


def foot(name: str, code: str) -> str:
    """Foot of the page."""
    return f"{name}, code {code}"


CHAPTERS = {
    "open": "What was not judged",
    "use": "How much of its strength is used",
    "other": "By another method, which is no pass",
    "bent": "Bending and deflection of the worst members",
    "remedies": "What would help",
    "safety": "Safety",
    "cases": "Load cases",
    "assumed": "Assumptions, edition and national choices",
}
ALL_JUDGED = "Every joint and every part was judged."
OPEN_CAPTION = "Not judged, by reason"
OPEN_HEADER = ("how many", "check", "what is missing", "clause", "which")
USE_CAPTION = "The worst check of each part and joint, worst first"
USE_HEADER = ("part or joint", "check", "use", "load case", "working", "clause and source")
OTHER_CAPTION = "What the code doesn't cover, by a second published method"
OTHER_HEADER = ("part or joint", "check", "use", "method", "load case", "source")
OTHER_NOTE = (
    "Where the code's rules end, a second published method stands here for comparison. Even a use"
    " below 100 % is no pass: test the joint, or choose one that the code covers."
)
USE_NOTE = (
    "Use is load over strength, both with their safety factors: above 100 % the part or joint is"
    " weaker than the code asks. The whole list is in lists/strength.csv."
)
REMEDIES_CAPTION = "The cheapest change that was tried and works"
REMEDIES_HEADER = ("part or joint and check", "what was tried")
NO_REMEDIES = "Nothing is over capacity, so no remedy was sought."
REMEDIES_NOT_SOUGHT = (
    "No remedies were sought here, as trying them takes some seconds: `flatpack check FILE"
    " --remedies` builds the piece anew with one change at a time and tells the cheapest that"
    " works."
)
CASES_CAPTION = "Loads that the piece was put under"
CASES_HEADER = ("case", "load")
SAFETY_CAPTION = "Findings about safety"
SAFETY_HEADER = ("", "where", "what", "source", "what helps")
SEVERITIES = {"fault": "fault", "warning": "warning", "note": "note", "not done": "not checked"}


def edition(words: str) -> str:
    """Which code is used."""
    return f"Judged after {words}."


# --- pictures -----------------------------------------------------------------------------------

USE_TITLE = "Use of capacity"
PARTS_TITLE = "Parts"
JOINTS_TITLE = "Joints"
BANDS = ("to 25 %", "to 50 %", "to 75 %", "to 100 %", "over 100 %")
PART_OPEN = "dashed: not wholly judged"
JOINT_OPEN = "ring: not judged"
JOINT_OTHER = "thick ring: over by another method, its use in brackets"
USE_ALT = (
    "The piece seen from above and the side. Each part is filled with a grey: the darker, the more"
    " of its strength is used. Below, each joint is a dot in the same greys."
)
DIAGRAMS_TITLE = "Worst members"
DIAGRAMS_ALT = (
    "For each member a curve of its bending moment above its length and one of its deflection below"
)
PLANES = {"flat": "bent flat", "edge": "bent on edge"}


def label(key: str, others: int, use: str, by_other: bool = False) -> str:
    """Beside the worst parts and joints."""
    alike = f" and {others} alike" if others else ""
    return f"{key}{alike} {f'({use} %)' if by_other else f'{use} %'}"


def moment(newton_metres: str, place: str) -> str:
    """Greatest moment and where."""
    return f"M {newton_metres} N m at {place}"


def deflection(mm: str, place: str) -> str:
    """Greatest deflection and where."""
    return f"w {mm} mm at {place}"


def member(part: str, others: int, plane: str) -> str:
    """Over a member's curves."""
    return f"{part}{f' and {others} alike' if others else ''}, {PLANES[plane]}"


LENGTH_NOTE = "places in mm; M with the load's factors, w at once and without them"
