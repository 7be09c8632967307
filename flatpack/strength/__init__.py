"""Will it hold: members, joints and stability of a piece, after Eurocode 5, as far as it goes.

What the code doesn't cover is *not done*, never passed; a second published method may stand
beside it, labelled.  Names are fetched when they are first asked for, as most drawings need none.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from flatpack.strength.as_findings import findings
    from flatpack.strength.records import Case, Check, Diagram, Report, Second
    from flatpack.strength.remedies import with_remedies
    from flatpack.strength.reporting import report
    from flatpack.strength.trying import Change, changes

_HOMES = {
    "Case": "records",
    "Change": "trying",
    "Check": "records",
    "Diagram": "records",
    "Report": "records",
    "Second": "records",
    "changes": "trying",
    "findings": "as_findings",
    "report": "reporting",
    "with_remedies": "remedies",
}


def __getattr__(name: str) -> Any:
    """A public name from its module."""
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(f"{__name__}.{home}"), name)
    globals()[name] = value
    return value


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
