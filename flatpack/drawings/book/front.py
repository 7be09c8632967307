"""The first chapters: the finished piece, how to read the book, and what can hurt."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.book.content import Block, Caution, Chapter, Figure, Items, Para
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.whole import finished_picture
from flatpack.wording import book_english as words
from flatpack.wording import book_english_safety as safe
from flatpack.wording.english_guide import GUIDE_USE

CAUTION = "caution"
"""Code of a remark by which a family says what can hurt about its pieces."""
_PERSONS, _THINGS = ("one", "all"), ("laid", "soil", "filled")
_MEANT = {"": _PERSONS, "lying": _PERSONS, "standing": _THINGS, "opening": _THINGS}
"""Load cases that say what a piece is meant for, by its bearing: persons, or what lies in it."""


def about(m: Matter) -> Chapter:
    """The piece as it will be, and how marks, hands and pictures are meant."""
    poses = tuple(m.settings.drawing.poses.values())
    motion = m.assembly.motion
    title = words.RAISED.format(panel=motion.panel) if poses and motion else words.FINISHED
    drawing = finished_picture(poses[-1] if poses else m.assembly, title)
    count = len(m.assembly.parts) + len(m.assembly.bars)
    alt = words.finished_alt(count, len(m.marks))
    use = GUIDE_USE[m.assembly.bearing]
    read = tuple(Para(text.format(use=use)) for text in words.ABOUT)
    return Chapter("about", words.CHAPTERS["about"], (Figure(drawing, title, alt), *read))


def safety(m: Matter) -> Chapter:
    """What can hurt, and the gaps that the back closes."""
    return Chapter("safety", words.CHAPTERS["safety"], tuple(_safety(m)))


def _safety(m: Matter) -> Iterator[Block]:
    yield from (Caution(text) for text in words.SAFETY)
    yield Caution(safe.USE_IT[m.assembly.bearing])
    yield from (Caution(f.message) for f in m.findings if f.code == CAUTION)
    traps = [f for f in m.findings if f.code == "finger-trap"]
    if traps:
        motion = m.assembly.motion
        yield Caution(words.FINGERS.format(panel=motion.panel if motion else ""))
        yield Items(tuple(f"{marked(m, f.part)}: {f.message}" for f in traps))
    yield from _loads(m)
    notches = m.study is not None and bool(m.study.found.stops)
    yield Caution(safe.no_tests(m.assembly.bearing, notches))


def _loads(m: Matter) -> Iterator[Block]:
    """What it is meant for, where strength was worked out: nothing is said of it otherwise."""
    strength = m.settings.drawing.strength
    if strength is None:
        return
    meant = [c.words for c in strength.cases if c.key in _MEANT[m.assembly.bearing]]
    yield Caution(safe.LOADS.format("; ".join(meant)) if meant else safe.NO_LOADS)


def marked(m: Matter, parts: str) -> str:
    """Names and marks of a finding's parts, as far as it names parts."""
    keys = parts.split(" / ")
    return ", ".join(f"{m.name_of(k)} {m.mark_of[k]}" if k in m.mark_of else k for k in keys)
