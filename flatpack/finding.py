"""What a check has to say: one Finding each, gathered and shown together, never raised."""

from __future__ import annotations

from typing import Literal, NamedTuple

Severity = Literal["fault", "warning", "note", "not done"]
ORDER: tuple[Severity, ...] = ("fault", "not done", "warning", "note")


class Finding(NamedTuple):
    """One result of a check.

    `severity` is *fault* (can't be made, doesn't fit, doesn't move: blocks drawings), *warning* (a
    published limit or good practice is missed), *note* (advice) or *not done* (couldn't be
    checked: counted, never a pass, never blocking).  `measured` and `limit` carry `unit`.
    `source` names the standard or book, or says "common practice, no source" or "geometry".
    `tries` are changes of the parameter file (dotted key, value) that may cure it: each is tried
    by building the piece again, and the first that does becomes the remedy.
    """

    code: str
    severity: Severity
    part: str
    message: str
    measured: float | None = None
    limit: float | None = None
    unit: str = "mm"
    source: str = "geometry"
    remedy: str = ""
    tries: tuple[tuple[str, float | tuple[float, ...]], ...] = ()


def in_order(findings: tuple[Finding, ...] | list[Finding]) -> tuple[Finding, ...]:
    """Worst first, then by code, part and text, so that the same design reads the same."""
    return tuple(
        sorted(findings, key=lambda f: (ORDER.index(f.severity), f.code, f.part, f.message))
    )


def by_severity(findings: tuple[Finding, ...] | list[Finding]) -> tuple[Finding, ...]:
    """Worst first, those of one severity left in the order in which they come."""
    return tuple(sorted(findings, key=lambda f: ORDER.index(f.severity)))


def blocks(findings: tuple[Finding, ...]) -> bool:
    """True when any finding is a fault."""
    return any(f.severity == "fault" for f in findings)
