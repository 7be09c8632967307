"""The assembly chapter: every step with its picture, parts, work, fasteners and measures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from flatpack.drawings.book.content import Block, Chapter, Figure, Items, Rows, Subtitle
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.measures import measures
from flatpack.drawings.book.placing import way
from flatpack.drawings.book.sight import from_below
from flatpack.drawings.book.step_view import Scene, best_view, scene, step_picture
from flatpack.drawings.book.steps import BuildStep, build_steps
from flatpack.drawings.book.work import work
from flatpack.drawings.shapes import Drawing, Text
from flatpack.wording import book_english as words
from flatpack.wording import book_english_steps as said


def assembly(m: Matter) -> Chapter:
    """The chapter."""
    made = scene(m.assembly)
    steps = build_steps(m.assembly)
    blocks = chain.from_iterable(_step(m, made, step) for step in steps)
    return Chapter("assembly", words.CHAPTERS["assembly"], tuple(blocks))


def _step(m: Matter, made: Scene, step: BuildStep) -> Iterator[Block]:
    view = best_view(made, step)
    below = from_below(view)
    yield Subtitle(said.step_title(step.number, step.title), page=step.number > 1)
    yield _figure(m, step, step_picture(made, step, m.marks, view), below)
    if step.new:
        yield Rows(said.PARTS_CAPTION, said.PARTS_HEADER, tuple(_parts(m, step)), frozenset({2}))
    hardware = tuple((h.item, h.size, str(h.pieces), h.use) for h in step.hardware)
    if hardware:
        header = (*said.FASTENERS_HEADER,)
        yield Rows(said.FASTENERS_CAPTION, header, hardware, frozenset({2}))
    yield Items(tuple(work(m, step, below)), numbered=True)
    checked = tuple(measures(m, step))
    if checked:
        yield Rows(said.MEASURES_CAPTION, said.MEASURES_HEADER, checked)


def _figure(m: Matter, step: BuildStep, drawing: Drawing, below: bool) -> Figure:
    shown = {s.shape.text for s in drawing.strokes if isinstance(s.shape, Text)}
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
        yield mark, m.name_of(keys[0]), str(len(keys)), *_turned(m, keys)


def _turned(m: Matter, keys: list[str]) -> tuple[str, str]:
    """Which way the show face and the datum end of parts look in the finished piece."""
    names = said.WAYS.get(m.assembly.family, said.WAYS[""])
    frames = [m.assembly.parts[k].frame for k in keys if k in m.assembly.parts]
    if not frames:
        return said.ROUND, said.ANYWHERE
    faces = dict.fromkeys(names[way(f.z)] for f in frames)
    ends = dict.fromkeys(names[way(f.x.negated())] for f in frames)
    return "; ".join(faces), "; ".join(ends)
