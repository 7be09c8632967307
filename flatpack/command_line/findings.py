"""Findings as a person reads them: a headline with every count, then the worst first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from textwrap import wrap

from flatpack.command_line.terminal import Style, Terminal
from flatpack.finding import ORDER, Finding, Severity, by_severity

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
    return "; ".join([*sizes, f"source: {finding.source}", finding.code])


def _size(value: float) -> str:
    text = f"{value:.2f}"
    return text.rstrip("0").rstrip(".")


def _few(parts: Sequence[str]) -> str:
    if len(parts) <= _MOST_PARTS:
        return ", ".join(parts)
    return f"{', '.join(parts[: _MOST_PARTS - 1])} and {len(parts) - _MOST_PARTS + 1} more"
