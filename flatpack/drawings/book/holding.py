"""The chapter that says whether the piece will hold: it opens with what wasn't judged."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.book.content import (
    Block,
    Caution,
    Chapter,
    Figure,
    Items,
    Para,
    Rows,
    Subtitle,
)
from flatpack.drawings.book.matter import Matter
from flatpack.finding import Finding
from flatpack.strength import Check, Report
from flatpack.wording import book_english_strength as words

_SHOWN, _ROWS = 4, 8
"""Names in a row before it says how many more; rows of a table, the worst first."""
_SMALL = 0.7
"""Share of the sheet's size at which the picture stands in the book."""
_STANDING = ("safety-tipping", "safety-sliding", "safety-tipping-lid-open")


def holding(m: Matter) -> Chapter:
    """What wasn't judged, the worst uses, the loads, how to test it, tipping and cautions."""
    report = m.settings.drawing.strength
    blocks: tuple[Block, ...] = (Para(words.NOT_WORKED_OUT),)
    if report is not None:
        blocks = tuple(_blocks(m, report))
    return Chapter("holding", words.TITLE, blocks)


def _blocks(m: Matter, report: Report) -> Iterator[Block]:
    yield Para(f"{report.headline[0].upper()}{report.headline[1:]}.")
    yield from _open(m, report)
    yield from _uses(m, report)
    if report.cases:
        rows = tuple((c.key, c.words) for c in report.cases)
        yield Rows(words.LOADS_CAPTION, words.LOADS_HEADER, rows)
        yield Para(words.LOADS_NOTE)
    yield Subtitle(words.TEST)
    yield Items(words.load_test(bool(report.cases)), numbered=True)
    yield Para(words.YEARLY)
    yield from _cautions(m.findings)


def _open(m: Matter, report: Report) -> Iterator[Block]:
    groups: dict[tuple[str, str, str], list[str]] = {}
    for c in report.checks:
        if c.use is None:
            groups.setdefault((c.kind, c.code, c.why), []).append(c.subject)
    if not groups:
        yield Para(words.ALL_JUDGED)
        return
    ranked = sorted(groups.items(), key=lambda row: (-len(row[1]), row[0]))[:_ROWS]
    rows = tuple(
        (f"{len(who)} {kind}{'s' if len(who) > 1 else ''}", code, why, _names(m, who))
        for (kind, code, why), who in ranked
    )
    yield Rows(words.OPEN_CAPTION, words.OPEN_HEADER, rows)
    yield Para(words.OPEN_NOTE)


def _uses(m: Matter, report: Report) -> Iterator[Block]:
    # Those of book and strength draw on one another's pictures, so one is fetched when needed.
    from flatpack.drawings.strength.picture import use_picture
    from flatpack.wording import english_strength as shown

    code = m.settings.drawing.code
    drawing = use_picture(m.assembly, report, code, named=False, small=_SMALL)
    yield Figure(drawing, words.PICTURE, shown.USE_ALT)
    done = _first_each([c for c in report.checks if c.use is not None])
    if done:
        rows = tuple(_row(m, c, c.use or 0.0) for c in done[:_ROWS])
        yield Rows(words.USES_CAPTION, words.USES_HEADER, rows, frozenset({2}))
        yield Para(words.USES_NOTE)
    other = [c for c in report.checks if c.use is None and c.second and c.second.use > 1.0]
    if other:
        ranked = _first_each(sorted(other, key=lambda c: (-c.weight, c.subject, c.code)))
        rows = tuple(_row(m, c, c.weight) for c in ranked[:_ROWS])
        yield Rows(words.OTHER_CAPTION, words.USES_HEADER, rows, frozenset({2}))
        yield Para(words.OTHER_NOTE)


def _first_each(checks: list[Check]) -> list[Check]:
    """The first check of each kind of part and joint, those that differ by number and side once."""
    from flatpack.strength.as_findings import stem

    found: dict[tuple[str, str], Check] = {}
    for check in checks:
        found.setdefault((stem(check.subject), check.code), check)
    return list(found.values())


def _row(m: Matter, check: Check, use: float) -> tuple[str, ...]:
    from flatpack.drawings.strength.table import percent

    return _name(m, check.subject), check.code, words.use(percent(use)), check.case


def _name(m: Matter, key: str) -> str:
    """A part by its name and mark; a joint by its key."""
    return f"{m.name_of(key)} {m.mark_of[key]}" if key in m.mark_of else key


def _names(m: Matter, keys: list[str]) -> str:
    shown = list(dict.fromkeys(_name(m, k) for k in keys))
    return words.more(", ".join(shown[:_SHOWN]), max(len(shown) - _SHOWN, 0))


def _cautions(findings: tuple[Finding, ...]) -> Iterator[Block]:
    standing = [f for f in findings if f.code in _STANDING]
    if standing:
        yield Subtitle(words.STANDING)
        yield Items(tuple(f.message for f in standing))
    yield from (Caution(f.message) for f in findings if f.code == "safety-caution")
