"""The page that says whether the piece will hold: it opens with what wasn't judged."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.book.content import (
    Block,
    Book,
    Caution,
    Chapter,
    Figure,
    Items,
    Para,
    Rows,
)
from flatpack.drawings.settings import Settings
from flatpack.drawings.shapes import Drawing
from flatpack.drawings.strength.table import percent
from flatpack.finding import Finding
from flatpack.model import Assembly
from flatpack.strength import Check, Report
from flatpack.wording import english_strength as words

NAME = "strength"
_SHOWN = 8
"""Subjects that a row names before it says how many more there are."""
_ROWS = 30
"""Rows of a table on the page; the list has them all."""


def strength_page(
    assembly: Assembly, report: Report, settings: Settings, pictures: tuple[Drawing, Drawing]
) -> Book:
    """The page; `pictures` are use of capacity and the bent members."""
    labels, facts = words.FACTS, {"code": settings.code, "date": assembly.date}
    used, bent = pictures
    chapters = (
        _chapter("open", _open(report)),
        _chapter("use", _use(report, used)),
        _chapter("other", _other(report)),
        _chapter("bent", _bent(report, bent)),
        _chapter("remedies", _remedies(report)),
        _chapter("safety", _safety(settings.findings)),
        _chapter("cases", _cases(report)),
        _chapter("assumed", _assumed(report)),
    )
    return Book(
        name=NAME,
        title=words.page_title(assembly.name),
        language=words.LANGUAGE,
        facts=tuple((labels[k], v) for k, v in facts.items() if v),
        foot=words.foot(assembly.name, settings.code),
        warning=words.WARNING if settings.faulty else "",
        contents=words.CONTENTS,
        chapters=tuple(c for c in chapters if c.blocks),
    )


def _chapter(key: str, blocks: Iterator[Block]) -> Chapter:
    return Chapter(key, words.CHAPTERS[key], tuple(blocks))


def _open(report: Report) -> Iterator[Block]:
    yield Para(f"{report.headline[0].upper()}{report.headline[1:]}.")
    groups: dict[tuple[str, str, str, str, str], list[str]] = {}
    for c in report.checks:
        if c.use is None:
            clause = f"{c.source} {c.clause}".strip()
            groups.setdefault((c.kind, c.code, c.why, clause, ""), []).append(c.subject)
    if not groups:
        yield Para(words.ALL_JUDGED)
        return
    ranked = sorted(groups.items(), key=lambda row: (-len(row[1]), row[0]))
    rows = tuple(
        (f"{len(who)} {kind}{'s' if len(who) > 1 else ''}", code, why, clause, _named(who))
        for (kind, code, why, clause, _), who in ranked
    )
    yield Rows(words.OPEN_CAPTION, words.OPEN_HEADER, rows)


def _named(keys: list[str]) -> str:
    more = f" and {len(keys) - _SHOWN} more" if len(keys) > _SHOWN else ""
    return ", ".join(keys[:_SHOWN]) + more


def _use(report: Report, used: Drawing) -> Iterator[Block]:
    yield Para(words.USE_NOTE)
    yield Figure(used, used.title, words.USE_ALT)
    rows = tuple(map(_row, _worst_each([c for c in report.checks if c.use is not None])))
    if rows:
        yield Rows(words.USE_CAPTION, words.USE_HEADER, rows[:_ROWS], frozenset({2}))


def _worst_each(checks: list[Check]) -> list[Check]:
    """The first check of each part and joint; they come worst first."""
    found: dict[str, Check] = {}
    for check in checks:
        found.setdefault(check.subject, check)
    return list(found.values())


def _row(c: Check) -> tuple[str, ...]:
    where = f"{c.source} {c.clause}".strip()
    return c.subject, c.code, f"{percent(c.use)} %", c.case, c.formula, where


def _other(report: Report) -> Iterator[Block]:
    rows = tuple(
        (c.subject, c.code, f"{percent(c.second.use)} %", c.second.method, c.case, c.second.source)
        for c in report.checks
        if c.second is not None
    )
    if rows:
        yield Para(words.OTHER_NOTE)
        yield Rows(words.OTHER_CAPTION, words.OTHER_HEADER, rows[:_ROWS], frozenset({2}))


def _bent(report: Report, bent: Drawing) -> Iterator[Block]:
    if report.diagrams:
        yield Figure(bent, bent.title, words.DIAGRAMS_ALT)


def _remedies(report: Report) -> Iterator[Block]:
    if report.remedies:
        yield Rows(words.REMEDIES_CAPTION, words.REMEDIES_HEADER, report.remedies)
    elif any(c.weight > 1.0 for c in report.checks):
        yield Para(words.REMEDIES_NOT_SOUGHT)
    else:
        yield Para(words.NO_REMEDIES)


def _safety(findings: tuple[Finding, ...]) -> Iterator[Block]:
    told = [f for f in findings if f.code.startswith("safety-") or f.code == "finger-trap"]
    for caution in (f for f in told if f.code == "safety-caution"):
        yield Caution(caution.message)
    rows = tuple(
        (words.SEVERITIES[f.severity], f.part, f.message, f.source, f.remedy)
        for f in told
        if f.code != "safety-caution"
    )
    if rows:
        yield Rows(words.SAFETY_CAPTION, words.SAFETY_HEADER, rows)


def _cases(report: Report) -> Iterator[Block]:
    if report.cases:
        rows = tuple((c.key, c.words) for c in report.cases)
        yield Rows(words.CASES_CAPTION, words.CASES_HEADER, rows)


def _assumed(report: Report) -> Iterator[Block]:
    yield Para(words.edition(report.edition))
    yield Items(report.assumptions)
