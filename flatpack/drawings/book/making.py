"""The parts and how to make them: cutting list, spacers, pairs, jig settings."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.book.content import Block, Chapter, Figure, Items, Para, Rows
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.needed import bars
from flatpack.drawings.book.trial import trial
from flatpack.drawings.book.whole import exploded_picture
from flatpack.drawings.faces import one_sided
from flatpack.drawings.lists import jig_settings
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.saw_cuts import saw_settings
from flatpack.drawings.shapes import Text
from flatpack.wording import book_english as words
from flatpack.wording import book_english_details as details
from flatpack.wording import english
from flatpack.wording import english_fits as fits
from flatpack.wording import english_saw as saw

_SHORT = 100.0
"""A part shorter than this is worked on a longer strip, mm (common practice, no source)."""


def parts(m: Matter) -> Chapter:
    """Cutting list, bars, spacers, and the piece taken apart."""
    return Chapter("parts", words.CHAPTERS["parts"], tuple(_parts(m)))


def _parts(m: Matter) -> Iterator[Block]:
    alt = words.exploded_alt(tuple(m.marks))
    drawing = exploded_picture(m.assembly, words.EXPLODED, m.marks)
    shown = {s.shape.text for s in drawing.strokes if isinstance(s.shape, Text)}
    unseen = ", ".join(mark for mark in m.marks if mark not in shown)
    caption = words.UNSEEN.format(words.EXPLODED, unseen) if unseen else words.EXPLODED
    yield Figure(drawing, caption, alt)
    rows = tuple(
        (g.mark, g.part.name, english.HANDS[g.part.hand], str(g.count), m.size(g.part.length),
         m.size(g.part.width), m.size(g.part.thickness), g.part.board.name)
        for g in m.parts
    )  # fmt: skip
    header = m.headed(words.CUTTING_HEADER, words.CUTTING_HEADER[4:7])
    yield Rows(words.CUTTING, header, rows, frozenset({3, 4, 5, 6}))
    if m.bars:
        yield bars(m)
    yield Para(words.CUTTING_NOTE)
    if m.assembly.spacers:
        yield _spacers(m)
        yield Para(words.SPACERS_NOTE)


def _spacers(m: Matter) -> Rows:
    rows = tuple(
        (s.name, str(s.pieces), m.size(s.length), m.size(s.width), s.use)
        for s in m.assembly.spacers
    )
    header = m.headed(words.SPACERS_HEADER, words.SPACERS_HEADER[2:4])
    return Rows(words.SPACERS, header, rows, frozenset({1, 2, 3}))


def making(m: Matter) -> Chapter:
    """From boards to parts, in the order of work."""
    return Chapter("making", words.CHAPTERS["making"], tuple(_making(m)))


def _making(m: Matter) -> Iterator[Block]:
    yield from trial(m)
    yield Items(fits.MAKING if m.by_shape else words.MAKING, numbered=True)
    pairs = tuple(_pairs(m))
    if pairs:
        yield Rows(words.PAIRS_TITLE, words.PAIRS_HEADER, pairs)
    yield from _saw(m)
    table = jig_settings(m.assembly, m.parts, m.settings.drawing)
    if table.rows:
        rows = tuple((*map(str, r[:2]), *map(str, r[3:])) for r in table.rows)
        yield Rows(words.JIG, words.JIG_HEADER, rows, frozenset({7}))
        yield Para(words.JIG_NOTE)


def _saw(m: Matter) -> Iterator[Block]:
    """How the saw is set for what isn't square."""
    table = saw_settings(m.assembly, m.parts, m.settings.drawing)
    if table.rows:
        rows = tuple(tuple(map(str, row)) for row in table.rows)
        yield Rows(saw.TITLE, table.header, rows, frozenset({4, 5, 8}))
        yield Para(saw.BOOK_NOTE)


def _pairs(m: Matter) -> Iterator[tuple[str, str, str]]:
    """Handed pairs, and parts alike that are drilled clamped together."""
    marks = {g.mark: g for g in m.parts}
    for mark, group in marks.items():
        twin = marks.get(f"{mark[:-1]}R") if mark.endswith("-L") else None
        if twin is not None:
            minded = tuple(_handed(group))
            yield f"{mark}, {twin.mark}", group.part.name, "; ".join((*_strip(group), *minded))
        elif not group.part.hand and group.count > 1 and _through(group):
            alike = words.CLAMP_ALIKE.format(group.count)
            yield mark, group.part.name, "; ".join((*_strip(group), alike))


def _handed(group: PartGroup) -> Iterator[str]:
    features = group.part.features
    if any(f.operation == "thin-line" for f in features):
        plain = len(group.part.outline.segments) == 4
        yield details.BLOCK_LINES if plain else words.NOTCHES_TOGETHER
    if _through(group) and group.part.length >= _SHORT:
        yield words.CLAMP_PAIR
    if any(f.operation == "pocket-hole" for f in features):
        yield words.POCKETS_MIRRORED
    elif any(one_sided(f) for f in features):
        yield words.BLIND_MIRRORED
    elif not _through(group):
        yield words.MIND


def _strip(group: PartGroup) -> tuple[str, ...]:
    return (details.STRIP,) if group.part.length < _SHORT else ()


def _through(group: PartGroup) -> bool:
    return any(f.operation == "drill-through" for f in group.part.features)
