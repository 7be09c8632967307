"""The book from its chapters."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from flatpack.drawings.book import after, finishing, front, making
from flatpack.drawings.book.assembly import assembly as assembly_chapter
from flatpack.drawings.book.content import Book
from flatpack.drawings.book.holding import holding
from flatpack.drawings.book.matter import Matter, matter
from flatpack.drawings.book.needed import needed
from flatpack.drawings.book.settings import BookSettings
from flatpack.drawings.page import Sheet
from flatpack.finding import Finding
from flatpack.mechanism.study import Study
from flatpack.model import Assembly, placed_corners
from flatpack.wording import book_english as words

CHAPTERS = (
    front.about, front.safety, needed, making.parts, making.making, assembly_chapter,
    after.moving, after.finish, after.care, holding, after.checks, after.sums,
)  # fmt: skip
"""What makes each chapter, in order; None where the piece has no use for it."""


def book(
    assembly: Assembly,
    study: Study | None,
    findings: tuple[Finding, ...],
    settings: BookSettings,
) -> Book:
    """The build book of a piece, its back flat."""
    m = matter(assembly, study, findings, settings)
    code = settings.drawing.code
    return Book(
        name="build-book",
        title=words.title(assembly.name),
        language=words.LANGUAGE,
        facts=tuple((k, v) for k, v in zip(words.FACTS, _facts(m), strict=True) if v),
        foot=words.foot(assembly.name, code, assembly.date),
        warning=words.WARNING if settings.drawing.faulty else "",
        contents=words.CONTENTS,
        chapters=tuple(c for make in CHAPTERS if (c := make(m)) is not None),
    )


FORMATS: tuple[Literal["html", "pdf"], ...] = ("html", "pdf")
"""The formats that a book is written in, each a whole book."""


def sheets(
    assembly: Assembly,
    study: Study | None,
    findings: tuple[Finding, ...],
    settings: BookSettings,
) -> Iterator[Sheet]:
    """The book's files; both formats hold the same words and pictures."""
    made = book(assembly, study, findings, settings)
    for form in FORMATS:
        yield Sheet(folder="", name=made.name, purpose=words.PURPOSE, content=made, format=form)


def _facts(m: Matter) -> tuple[str, ...]:
    bars = m.assembly.bars.values()
    ends = [bar.frame.place(0.0, 0.0, z) for bar in bars for z in (0.0, bar.length)]
    corners = (v for p in m.assembly.parts.values() for v in placed_corners(p))
    x, y, z = (max(axis) - min(axis) for axis in zip(*corners, *ends, strict=True))
    size = words.overall(m.said(x), m.said(y), m.said(z), m.assembly.bearing)
    mass = finishing.mass(m.assembly.parts.values(), m.assembly.bars.values())
    return (
        m.assembly.name, m.settings.drawing.code, m.assembly.date,
        words.UNITS_SAID[m.settings.units], size, words.kilograms(mass),
    )  # fmt: skip
