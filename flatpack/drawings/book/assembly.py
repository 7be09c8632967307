"""The assembly chapter: every step with its picture, parts, work, fasteners and measures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from flatpack.drawings.book.content import Block, Chapter, Figure, Items, Para, Rows, Subtitle
from flatpack.drawings.book.lie import way
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.measures import measures
from flatpack.drawings.book.side_view import side_views
from flatpack.drawings.book.sight import from_below, middle, reach
from flatpack.drawings.book.step_view import Scene, scene, step_picture, views_for
from flatpack.drawings.book.steps import BuildStep, build_steps, joint_groups
from flatpack.drawings.book.work import work
from flatpack.drawings.projection import View
from flatpack.drawings.shapes import Drawing, Text
from flatpack.geometry import Vec
from flatpack.wording import book_english as words
from flatpack.wording import book_english_steps as said

_TRIES = 6
"""Views tried until one shows every new part."""
_ASIDE = 20.0
"""A part whose middle is nearer to the piece's own than this looks neither in nor out, mm."""


def assembly(m: Matter) -> Chapter:
    """The chapter."""
    made = scene(m.assembly)
    steps = build_steps(m.assembly)
    blocks = chain.from_iterable(_step(m, made, step) for step in steps)
    first = Para(words.FINISH_FIRST)
    return Chapter("assembly", words.CHAPTERS["assembly"], (first, *blocks))


def _step(m: Matter, made: Scene, step: BuildStep) -> Iterator[Block]:
    view, drawing = _pictured(m, made, step)
    below = from_below(view)
    yield Subtitle(said.step_title(step.number, step.title), page=step.number > 1)
    yield _figure(m, step, drawing, below)
    if step.words:
        yield Para(step.words)
    yield from side_views(m, step)
    if step.new:
        yield Rows(said.PARTS_CAPTION, said.PARTS_HEADER, tuple(_parts(m, step)), frozenset({2}))
    hardware = tuple((h.item, h.size, str(h.pieces), h.use) for h in step.hardware)
    if hardware:
        header = (*said.FASTENERS_HEADER,)
        yield Rows(said.FASTENERS_CAPTION, header, hardware, frozenset({2}))
    checked = tuple(measures(m, step))
    if checked:
        glued = any(group.glue for group in joint_groups(step, m.assembly))
        title = said.MEASURES_GLUED if glued else said.MEASURES_CAPTION
        yield Rows(title, said.MEASURES_HEADER, checked)
    yield Items(tuple(work(m, step, below)), numbered=True)


def _pictured(m: Matter, made: Scene, step: BuildStep) -> tuple[View, Drawing]:
    """The best view in which every new part can be seen; the best of all where there is none."""
    tried = []
    for view in views_for(made, step)[:_TRIES]:
        drawing = step_picture(made, step, m.marks, view)
        tried.append((view, drawing))
        if set(marks(m, step.new)) <= _texts(drawing):
            return tried[-1]
    return tried[0]


def _texts(drawing: Drawing) -> set[str]:
    return {s.shape.text for s in drawing.strokes if isinstance(s.shape, Text)}


def _figure(m: Matter, step: BuildStep, drawing: Drawing, below: bool) -> Figure:
    shown = _texts(drawing)
    new = marks(m, step.new)
    onto = [k for k in marks(m, (p for j in step.joints for p in j.parts)) if k not in new]
    unseen = [mark for mark in (*new, *onto) if mark not in shown]
    caption = said.caption(below, unseen)
    return Figure(drawing, caption, said.alt(step.title, new, onto, below))


def marks(m: Matter, keys: Iterable[str]) -> tuple[str, ...]:
    """Marks of parts and bars, each once."""
    return tuple(dict.fromkeys(m.mark_of[key] for key in keys))


def _parts(m: Matter, step: BuildStep) -> Iterator[tuple[str, ...]]:
    for mark in marks(m, step.new):
        keys = [k for k in step.new if m.mark_of[k] == mark]
        yield mark, m.name_of(keys[0]), str(len(keys)), _size(m, keys[0]), *_turned(m, keys)


def _size(m: Matter, key: str) -> str:
    bar = m.assembly.bars.get(key)
    if bar is not None:
        return said.bar_size(m.rough(bar.stock.diameter), m.rough(bar.length))
    part = m.assembly.parts[key]
    return said.board_size(*map(m.rough, (part.length, part.width, part.thickness)))


def _turned(m: Matter, keys: list[str]) -> tuple[str, str, str]:
    """Which way the show face, datum end and datum edge of parts look in the finished piece."""
    parts = [m.assembly.parts[k] for k in keys if k in m.assembly.parts]
    if not parts:
        return said.ROUND, said.ANYWHERE, said.NONE
    low, high = reach(m.assembly)
    centre = low.plus(high.minus(low), 0.5)
    offs = [middle(part).minus(centre) for part in parts]
    faces = [part.frame.z for part in parts]
    ends = [part.frame.x.negated() for part in parts]
    edges = [part.frame.y.negated() for part in parts]
    return _ways(m, faces, offs), _ways(m, ends, offs), _ways(m, edges, offs)


def _ways(m: Matter, ways: list[Vec], offs: list[Vec]) -> str:
    """One name for directions: their own when alike, else whether all look in or out."""
    names = said.WAYS[m.assembly.bearing]
    own = dict.fromkeys(names[way(direction)] for direction in ways)
    off_middle = [direction.dot(off) for direction, off in zip(ways, offs, strict=True)]
    outward = {distance > 0.0 for distance in off_middle}
    if len(own) == 1 or len(outward) > 1 or min(map(abs, off_middle)) < _ASIDE:
        if len(own) == 1 or len(ways) != len(own):
            return "; ".join(own)
        each = zip(_apart(offs), ways, strict=True)
        return "; ".join(said.at_its(names[where], names[way(to)]) for where, to in each)
    return said.OUTWARDS if outward == {True} else said.INWARDS


def _apart(offs: list[Vec]) -> list[str]:
    """Sides at which parts lie, along the one of the piece's axes that parts them furthest."""
    spreads = [max(axis) - min(axis) for axis in zip(*offs, strict=True)]
    axis = spreads.index(max(spreads))
    return [f"{'xyz'[axis]}{'+' if off[axis] > 0.0 else '-'}" for off in offs]
