"""Remedies that were tried: a change of the parameter file counts only once it has worked.

Each finding may bring changes that its own geometry suggests (`Finding.tries`).  Here each is
put into the record, the piece is built and judged again, and the first change that cures the
finding and brings no new fault or warning of its kind is told as its remedy.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from flatpack.finding import Finding
from flatpack.parameters import fields_of, replace

MOST_TRIALS = 12
"""Pieces built again at the most, for all findings together."""

Judge = Callable[[Any], tuple[Finding, ...] | None]
Change = tuple[str, float | tuple[float, ...]]


def mended(findings: tuple[Finding, ...], record: Any, judge: Judge) -> tuple[Finding, ...]:
    """The findings with remedies that were tried; `judge` gives None for keys that conflict."""
    results: dict[Change, tuple[Finding, ...] | None] = {}
    return tuple(_one(f, findings, record, judge, results) for f in findings)


def _one(
    finding: Finding,
    before: tuple[Finding, ...],
    record: Any,
    judge: Judge,
    results: dict[Change, tuple[Finding, ...] | None],
) -> Finding:
    for change in finding.tries:
        if not in_range(record, change):
            continue
        if change not in results:
            if len(results) >= MOST_TRIALS:
                break
            results[change] = judge(changed(record, change))
        after = results[change]
        if after is not None and cures(finding, before, after):
            return finding._replace(remedy=_told(change, finding.remedy))
    return finding


def in_range(record: Any, change: Change) -> bool:
    """Whether the parameter file may hold the value that a change sets."""
    path, value = change
    spec = next((f.spec for f in fields_of(type(record)) if f.path == path), None)
    values = value if isinstance(value, tuple) else (value,)
    return spec is not None and all(spec.least <= v <= spec.most for v in values)


def cures(finding: Finding, before: tuple[Finding, ...], after: tuple[Finding, ...]) -> bool:
    """Whether a finding is gone and no fault or warning is there that wasn't there before."""
    known = {(f.code, f.part) for f in before}
    codes = {f.code for f in before}
    for one in after:
        if one.severity not in ("fault", "warning"):
            continue
        if (one.code, one.part) == (finding.code, finding.part):
            return False
        new = (one.code, one.part) not in known
        if new and (one.severity == "fault" or one.code not in codes):
            return False
    return True


def changed(record: Any, change: Change) -> Any:
    """The record with one dotted key set to a value."""
    path, value = change
    head, _, rest = path.partition(".")
    inner = changed(getattr(record, head), (rest, value)) if rest else value
    return replace(record, **{head: inner})


def _told(change: Change, otherwise: str) -> str:
    key, value = change
    shown = f"[{', '.join(f'{v:g}' for v in value)}]" if isinstance(value, tuple) else f"{value:g}"
    told = f"set {key} = {shown} (tried: it cures this and brings no other fault)"
    return f"{told}; or {otherwise}" if otherwise else told
