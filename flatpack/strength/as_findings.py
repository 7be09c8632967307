"""A report as findings: what wasn't judged first, then what is over capacity, worst first."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.finding import Finding
from flatpack.strength.records import Check, Report

SLUGS = str.maketrans({" ": "-", ",": ""})
ALWAYS = (
    "This doesn't replace tests, nor the advice of a licensed engineer where that is required: "
    "ask which local rules hold for furniture that is sold, let out or put where the public sits."
)
SIDES = ("left", "right", "middle", "front", "rear", "foot", "head")
"""Words that tell one of several like parts from another."""
SHOWN = 4
"""Names in a list before it says how many more."""


def findings(report: Report) -> tuple[Finding, ...]:
    """Findings of a report; over capacity is a warning, what isn't done is counted."""
    return tuple(_findings(report))


def _findings(report: Report) -> Iterator[Finding]:
    yield _headline(report)
    remedies = dict(report.remedies)
    for group in _alike(c for c in report.checks if c.use is not None and c.use > 1.0):
        yield _over(group, remedies)
    for group in _alike(c for c in report.checks if c.use is None and c.second is not None):
        first = group[0]
        assert first.second is not None
        if first.second.use > 1.0:
            yield _second(group, remedies)
    for group in _by_reason(c for c in report.checks if c.use is None):
        yield _open(group)
    yield Finding("strength-caution", "note", report.name, ALWAYS, source=report.edition)


def _headline(report: Report) -> Finding:
    open_ = bool(report.open_joints or report.open_parts)
    return Finding(
        "strength", "not done" if open_ else "note", report.name, report.headline,
        measured=float(len(report.open_joints)), limit=0.0, unit="joints", source=report.edition,
    )  # fmt: skip


def _over(group: list[Check], remedies: dict[str, str]) -> Finding:
    check = group[0]
    assert check.use is not None
    what = f"{check.code} {check.use:.0%} of capacity: {check.formula}; {check.case}"
    return Finding(
        f"strength-{check.code}".translate(SLUGS), "warning", check.subject,
        f"{what}{_also(group)}", round(100.0 * check.use, 1), 100.0, "%",
        f"{check.source} {check.clause}".strip(), _remedy(group, remedies),
    )  # fmt: skip


def _second(group: list[Check], remedies: dict[str, str]) -> Finding:
    check = group[0]
    assert check.second is not None
    second = check.second
    what = (
        f"{check.code} isn't covered by the code; by another method, which would be no pass "
        f"either, {second.use:.0%}: {second.method}; {check.case}"
    )
    return Finding(
        f"strength-{check.code}-by-another-method".translate(SLUGS), "warning", check.subject,
        f"{what}{_also(group)}", round(100.0 * second.use, 1), 100.0, "%", second.source,
        _remedy(group, remedies),
    )  # fmt: skip


def _remedy(group: list[Check], remedies: dict[str, str]) -> str:
    return next(
        (remedies[k] for k in (f"{c.subject} {c.code}" for c in group) if k in remedies), ""
    )


def _open(group: list[Check]) -> Finding:
    check = group[0]
    clause = f" ({check.source} {check.clause})" if check.clause else ""
    many = f"{len(group)} {check.kind}s" if len(group) > 1 else f"1 {check.kind}"
    what = f"{check.code} not judged in {many}: {check.why}{clause}"
    return Finding(
        f"strength-{check.code}-not-done".translate(SLUGS), "not done", check.subject,
        f"{what}{_also(group)}", source=f"{check.source} {check.clause}".strip(),
    )  # fmt: skip


def _also(group: list[Check]) -> str:
    others = [c.subject for c in group[1:]]
    if not others:
        return ""
    more = f" and {len(others) - SHOWN} more" if len(others) > SHOWN else ""
    return f" (also {', '.join(others[:SHOWN])}{more})"


def _alike(checks: Iterator[Check]) -> list[list[Check]]:
    """Checks of one code on parts or joints that differ by number and side only, worst first."""
    groups: dict[object, list[Check]] = {}
    for check in checks:
        groups.setdefault((check.code, stem(check.subject)), []).append(check)
    for group in groups.values():
        group.sort(key=lambda c: (-c.weight, c.subject))
    return sorted(groups.values(), key=lambda g: (-g[0].weight, g[0].subject, g[0].code))


def stem(subject: str) -> str:
    """A part's or joint's name without what numbers it and tells its side."""
    words = (w for w in subject.split("-") if not w.isdigit() and w not in SIDES)
    return "-".join(words)


def _by_reason(checks: Iterator[Check]) -> list[list[Check]]:
    groups: dict[object, list[Check]] = {}
    for check in checks:
        groups.setdefault((check.kind, check.code, check.why), []).append(check)
    return sorted(groups.values(), key=lambda g: (-len(g), g[0].code, g[0].subject))
