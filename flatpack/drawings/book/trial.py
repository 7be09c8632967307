"""The fit trial in the book: cut and try this first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Protocol, cast

from flatpack.drawings.book.content import Block, Figure, Items, Para, Subtitle
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.boxes import bounds_of
from flatpack.drawings.marks import PartGroup, trial_groups
from flatpack.drawings.moving.reduced import Paper
from flatpack.drawings.shapes import Closed, Drawing, Stroke, Text
from flatpack.geometry import Point
from flatpack.model import Part
from flatpack.wording import english_fits as words

WIDE = 150.0
"""Width of the picture on paper, mm."""


class Engraving(Protocol):
    """Lettering on a part: its text, where it stands and how high, mm."""

    at: Point
    text: str
    height: float


def trial(m: Matter) -> Iterator[Block]:
    """Why and how, with a picture of each strip; nothing for a piece without a trial."""
    found = trial_groups(m.assembly)
    if not found:
        return
    yield Subtitle(words.TRIAL)
    yield Para(words.TRIAL_WHY.format(", ".join(_named(group) for group in found)))
    strips = [group for group in found if group.part.features]
    yield from (_picture(group) for group in strips)
    tongues = {g.part.board.key: g.mark for g in found if not g.part.features}
    for group in strips:
        texts = _figures(group.part)
        said = {"strip": group.mark, "tongue": tongues[group.part.board.key], "example": texts[-1]}
        yield Items(tuple(text.format(**said) for text in words.TRIAL_HOW), numbered=True)
        return


def _named(group: PartGroup) -> str:
    return f"{group.part.name.lower()} {group.mark}"


def _figures(part: Part) -> tuple[str, ...]:
    return tuple(one.text for one in _engraved(part))


def _engraved(part: Part) -> tuple[Engraving, ...]:
    return tuple(cast(Engraving, f) for f in part.features if hasattr(f, "text"))


def _picture(group: PartGroup) -> Figure:
    """The strip reduced, with its figures as text: a page knows no engraving."""
    part, scale = group.part, min(WIDE / group.part.length, 1.0)
    paper = Paper(Point(0.0, 0.0), scale, (0.0, 0.0, WIDE, WIDE))
    strokes = (
        Stroke("outline", Closed(paper.outline(part.outline))),
        *(_figure_at(paper, one) for one in _engraved(part)),
    )
    drawing = Drawing(f"trial-{group.mark}", words.TRIAL, bounds_of(strokes, 2.0), strokes)
    texts = _figures(part)
    alt = words.TRIAL_ALT.format(len(texts), ", ".join(texts))
    return Figure(drawing, words.TRIAL_SHOWN.format(_named(group)), alt)


def _figure_at(paper: Paper, one: Engraving) -> Stroke:
    at = paper.at(one.at.x, one.at.y)
    return Stroke("text", Text(at, one.text, one.height * paper.scale))
