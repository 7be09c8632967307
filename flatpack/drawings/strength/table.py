"""The list of every check: use of capacity per part and joint, worst first."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.page import Cell, Table
from flatpack.strength import Check, Report
from flatpack.wording import english_strength as words


def percent(use: float | None) -> str:
    """Use of capacity as a whole percentage, never rounded down to a pass; empty when not done."""
    if use is None:
        return ""
    if use > 1e6:
        return "> 100000000"
    shown = round(100.0 * use)
    return str(max(shown, 101) if use > 1.0 else min(shown, 100))


def strength_table(report: Report) -> Table:
    """One row a check; what isn't done stands after what is, those with a second method first."""
    remedies = dict(report.remedies)
    rows = (_row(check, remedies) for check in report.checks)
    return Table(
        name="strength", title=words.TABLE_TITLE, header=words.HEADER, rows=tuple(map(tuple, rows))
    )


def _row(check: Check, remedies: dict[str, str]) -> Iterator[Cell]:
    second = check.second
    yield from (check.subject, words.KINDS[check.kind], check.code, percent(check.use))
    yield state(check)
    yield from (check.case, check.formula, check.clause, check.source, check.why)
    yield from ("", "", "") if second is None else (second.method, percent(second.use),
                                                     second.source)  # fmt: skip
    yield remedies.get(f"{check.subject} {check.code}", "")


def state(check: Check) -> str:
    """Over capacity, within it, or not judged."""
    if check.use is None:
        return words.NOT_JUDGED
    return words.OVER if check.use > 1.0 else words.WITHIN
