"""Parts that lie askew on those they are joined to: their corners, or that holes place them."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.book.lie import parallel, way
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.steps import BuildStep
from flatpack.geometry import Vec
from flatpack.model import Joint, Part
from flatpack.wording import book_english_askew as words
from flatpack.wording import book_english_steps as said

_FLAT = 1.0 - 1e-6


def askew(m: Matter, step: BuildStep, placed: set[str]) -> Iterator[str]:
    """Where parts lie that a step brings and that no sentence has placed yet."""
    bolted = {key for f in step.fasteners if "bolt" in f.kind for key in f.passes}
    turning = {key for j in step.joints if getattr(j, "turning", ()) for key in j.parts}
    by_holes: dict[str, None] = {}
    by_corners: dict[str, None] = {}
    for key in step.new:
        if key in placed or key in turning or key not in m.assembly.parts:
            continue
        if key in bolted:
            by_holes[f"{m.name_of(key)} {m.mark_of[key]}"] = None
        elif corners := tuple(_ends(m, step, key)):
            by_corners[words.part(m.name_of(key), m.mark_of[key], corners)] = None
    yield from by_corners
    if by_holes:
        yield said.by_holes(tuple(by_holes))


def _ends(m: Matter, step: BuildStep, key: str) -> Iterator[str]:
    """At each end of a part that lies flat but not square on others, where its corners are."""
    part = m.assembly.parts[key]
    bases = [b for joint in step.joints for b in _on(m, joint, key) if _flat(part, b)]
    if not bases or part.planes or _square(part):
        return
    x0, y0, x1, y1 = part.outline.bounds
    for x, end in ((x0, words.DATUM), (x1, words.OTHER)):
        middle = part.frame.place(x, (y0 + y1) / 2.0, 0.0)
        base = min(bases, key=lambda b: _off(b, middle))
        places = [_place(m, base, part.frame.place(x, y, 0.0)) for y in (y0, y1)]
        yield words.end(end, m.name_of(base.key), m.mark_of[base.key], *places)


def _on(m: Matter, joint: Joint, key: str) -> Iterator[Part]:
    """The other part of a joint between two."""
    parts = m.assembly.parts
    if key in joint.parts and len(joint.parts) == 2:
        yield from (parts[other] for other in joint.parts if other != key and other in parts)


def _flat(part: Part, base: Part) -> bool:
    return abs(part.frame.z.dot(base.frame.z)) > _FLAT and not parallel(part, base)


def _square(part: Part) -> bool:
    """True when a part's grain runs along one of the piece's own axes."""
    return max(map(abs, part.frame.x)) > _FLAT


def _off(base: Part, at: Vec) -> float:
    """How far a place lies outside a part's face, mm."""
    here = base.frame.local(at)
    x0, y0, x1, y1 = base.outline.bounds
    return max(x0 - here.x, here.x - x1, 0.0) + max(y0 - here.y, here.y - y1, 0.0)


def _place(m: Matter, base: Part, at: Vec) -> str:
    """A corner from its base's datum end and datum edge."""
    names = said.WAYS[m.assembly.bearing]
    here = base.frame.local(at)
    x0, y0, _, _ = base.outline.bounds
    end = said.end_of(names[way(base.frame.x.negated())])
    edge = names[way(base.frame.y.negated())]
    x, y = here.x - x0, here.y - y0
    return words.corner(m.said(abs(x)), x < 0.0, end, m.said(abs(y)), y < 0.0, edge)
