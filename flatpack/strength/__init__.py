"""Will it hold: members, joints and stability of a piece, after Eurocode 5, as far as it goes.

What the code doesn't cover is *not done*, never passed; a second published method may stand
beside it, labelled.
"""

from flatpack.strength.findings import findings
from flatpack.strength.records import Case, Check, Diagram, Report, Second
from flatpack.strength.remedies import Change, changes, with_remedies
from flatpack.strength.reporting import report

__all__ = [
    "Case",
    "Change",
    "Check",
    "Diagram",
    "Report",
    "Second",
    "changes",
    "findings",
    "report",
    "with_remedies",
]
