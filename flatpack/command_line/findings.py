"""Findings as a person reads them: a headline with every count, then the worst first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import TYPE_CHECKING

from flatpack.command_line.terminal import Style, Terminal
from flatpack.finding import ORDER, Finding, Severity, by_severity

if TYPE_CHECKING:
    from flatpack.strength import Report

_STYLES: dict[Severity, Style] = {
    "fault": "fault",
    "not done": "bold",
    "warning": "warning",
    "note": "note",
}
_INDENT = 10
_MOST_PARTS = 4


def headline(findings: Sequence[Finding]) -> str:
    """Such as "2 faults, 1 check not done, 0 warnings, 3 notes"."""
    counts = Counter(finding.severity for finding in findings)
    return ", ".join(_counted(counts[severity], severity) for severity in ORDER)


def _counted(count: int, severity: Severity) -> str:
    noun = "check" if severity == "not done" else severity
    plural = noun if count == 1 else f"{noun}s"
    return f"{count} {plural} not done" if severity == "not done" else f"{count} {plural}"


def verdict(findings: Sequence[Finding], strength: Report | None) -> str:
    """In a sentence or two: whether it can be made, and whether it is known to hold."""
    faults = sum(finding.severity == "fault" for finding in findings)
    made = (
        f"It can't be made as it stands: {_counted(faults, 'fault')}."
        if faults
        else "It fits together and can be made."
    )
    return made if strength is None else f"{made} {_holds(strength)}"


def _holds(strength: Report) -> str:
    if strength.over:
        return "It isn't known to hold: some of it is too weak for the loads assumed."
    if strength.doubted:
        return "It isn't known to hold: what the code leaves open, another method finds too weak."
    if strength.open_joints or strength.open_parts:
        return (
            "Whether it holds is known in part only: load it low and carefully before anybody"
            " trusts it."
        )
    return "It holds the loads assumed."


def told(findings: Sequence[Finding]) -> str:
    """How many kinds are listed, where findings that differ in their part alone stand together."""
    kinds = len({finding._replace(part="") for finding in findings})
    if kinds == len(findings):
        return ""
    return f"{len(findings)} findings of {kinds} kinds: alike ones stand together"


def report(findings: Sequence[Finding], terminal: Terminal) -> Iterator[str]:
    """Lines of the table; findings that differ in their part alone stand together."""
    alike: dict[Finding, list[str]] = {}
    for finding in by_severity(tuple(findings)):
        parts = alike.setdefault(finding._replace(part=""), [])
        if finding.part and finding.part not in parts:
            parts.append(finding.part)
    for finding, parts in alike.items():
        yield from _block(finding, parts, terminal)


def _block(finding: Finding, parts: Sequence[str], terminal: Terminal) -> Iterator[str]:
    width = max(30, terminal.width - _INDENT)
    where = f"{_few(parts)}: " if parts else ""
    first, *rest = wrap(where + finding.message, width) or [""]
    label = finding.severity.ljust(_INDENT)
    yield terminal.styled(label, _STYLES[finding.severity]) + first
    if finding.remedy:
        rest += wrap(f"Remedy: {finding.remedy}", width)
    yield from (" " * _INDENT + line for line in rest)
    for line in wrap(_detail(finding), width):
        yield " " * _INDENT + terminal.styled(line, "faint")


def _detail(finding: Finding) -> str:
    sizes = [
        f"{word} {_size(value)} {finding.unit}".rstrip()
        for word, value in (("measured", finding.measured), ("limit", finding.limit))
        if value is not None
    ]
    told = [f"source: {finding.source}"] if finding.source else []
    return "; ".join([*sizes, *told, finding.code])


def _size(value: float) -> str:
    text = f"{value:.2f}"
    return text.rstrip("0").rstrip(".")


def _few(parts: Sequence[str]) -> str:
    if len(parts) <= _MOST_PARTS:
        return ", ".join(parts)
    return f"{', '.join(parts[: _MOST_PARTS - 1])} and {len(parts) - _MOST_PARTS + 1} more"
