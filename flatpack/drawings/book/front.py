"""The first chapters: the finished piece, how to read the book, and what can hurt."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.book.content import Block, Caution, Chapter, Figure, Items, Para
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.whole import finished_picture
from flatpack.wording import book_english as words

CAUTION = "caution"
"""Code of a remark by which a family says what can hurt about its pieces."""
_MEANT = ("one", "all")
"""Load cases that say how many persons of which weight a piece is meant for."""


def about(m: Matter) -> Chapter:
    """The piece as it will be, and how marks, hands and pictures are meant."""
    poses = tuple(m.settings.drawing.poses.values())
    motion = m.assembly.motion
    title = words.RAISED.format(panel=motion.panel) if poses and motion else words.FINISHED
    drawing = finished_picture(poses[-1] if poses else m.assembly, title)
    count = len(m.assembly.parts) + len(m.assembly.bars)
    alt = words.finished_alt(count, len(m.marks))
    read = tuple(Para(text) for text in words.ABOUT)
    return Chapter("about", words.CHAPTERS["about"], (Figure(drawing, title, alt), *read))


def safety(m: Matter) -> Chapter:
    """What can hurt, and the gaps that the back closes."""
    return Chapter("safety", words.CHAPTERS["safety"], tuple(_safety(m)))


def _safety(m: Matter) -> Iterator[Block]:
    yield from (Caution(text) for text in words.SAFETY)
    yield Caution(words.USE_IT[m.assembly.bearing])
    yield from (Caution(f.message) for f in m.findings if f.code == CAUTION)
    traps = [f for f in m.findings if f.code == "finger-trap"]
    if traps:
        motion = m.assembly.motion
        yield Caution(words.FINGERS.format(panel=motion.panel if motion else ""))
        yield Items(tuple(f"{marked(m, f.part)}: {f.message}" for f in traps))
    strength = m.settings.drawing.strength
    if strength is not None and strength.cases:
        meant = (case.words for case in strength.cases if case.key in _MEANT)
        yield Caution(words.LOADS.format("; ".join(meant)))
    yield Caution(words.NO_TESTS)


def marked(m: Matter, parts: str) -> str:
    """Names and marks of a finding's parts, as far as it names parts."""
    keys = parts.split(" / ")
    return ", ".join(f"{m.name_of(k)} {m.mark_of[k]}" if k in m.mark_of else k for k in keys)
