"""The picture of an assembly step: what is there in outline, what is added in grey."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from flatpack.drawings.book.picture import Ordered, Shown, ordered, picture
from flatpack.drawings.book.sight import from_below, paintable, views_of
from flatpack.drawings.book.steps import BuildStep
from flatpack.drawings.book.worked import Spots, holes
from flatpack.drawings.projection import Body, View
from flatpack.drawings.shapes import Drawing
from flatpack.geometry import Vec
from flatpack.model import Assembly, Fastener

Marks = Mapping[str, tuple[str, ...]]
"""Keys of the parts and bars that a mark stands for."""


class Scene(NamedTuple):
    """The whole piece as bodies, and their orders of painting as far as they were asked for.

    One order serves every step: what lies before what doesn't change with what is left out.
    A small sub-assembly gets an order of its own, which costs little: bodies that hide one another
    in a ring can't be ordered, and fewer bodies make fewer rings.
    """

    assembly: Assembly
    bodies: tuple[Body, ...]
    holes: Mapping[str, Spots]
    orders: dict[View, tuple[Ordered, ...]]

    def seen(self, view: View, wanted: frozenset[str]) -> tuple[Ordered, ...]:
        """The bodies with these keys, furthest first."""
        some = tuple(b for b in self.bodies if b.key in wanted)
        if 2 * len(some) < len(self.bodies):
            return ordered(some, view)
        if view not in self.orders:
            self.orders[view] = ordered(self.bodies, view)
        return tuple(o for o in self.orders[view] if o.body.key in wanted)


def scene(assembly: Assembly) -> Scene:
    """The piece made ready for pictures."""
    return Scene(assembly, paintable(assembly), holes(assembly), {})


def step_picture(made: Scene, step: BuildStep, marks: Marks, view: View) -> Drawing:
    """The sub-assembly that a step works on, seen along `view`."""
    return picture(f"step-{step.number}", step.title, _shown(made, step, marks, view), view)


def _shown(made: Scene, step: BuildStep, marks: Marks, view: View) -> Shown:
    """Bodies of a step with their looks; marks for new parts and those they are joined to."""
    here = frozenset((*step.old, *step.new))
    metal = _names(step.fasteners)
    wanted = here | metal | _names(step.placed)
    bodies = made.seen(view, wanted)
    looks = {o.body.key: _look(o.body.key, step, metal) for o in bodies}
    touched = here & {p for joint in step.joints for p in joint.parts}
    named = {mark: tuple(k for k in keys if k in touched) for mark, keys in marks.items()}
    return Shown(
        bodies, looks, made.holes, step.key, {mark: keys for mark, keys in named.items() if keys}
    )


def _names(fasteners: tuple[Fastener, ...]) -> frozenset[str]:
    return frozenset(solid.name for f in fasteners for solid in f.solids)


def _look(key: str, step: BuildStep, metal: frozenset[str]) -> str:
    if key in step.new or key in step.old:
        return "new" if key in step.new else "old"
    return "new metal" if key in metal else "metal"


def views_for(made: Scene, step: BuildStep) -> tuple[View, ...]:
    """Views, first the one that shows most of the holes that the step works on, and heads."""
    faces = [
        normal
        for key in (*step.old, *step.new)
        for spot in made.holes.get(key, ())
        if step.key in spot.steps and (normal := _normal(made.assembly, key, spot.face))
    ]
    heads = [f.direction.negated() for f in step.fasteners]
    views = views_of(made.assembly)
    if any(made.assembly.parts[k].group == "arm" for k in step.new if k in made.assembly.parts):
        views = tuple(v for v in views if from_below(v))  # arms fold away under the slats
    scores = {v: sum(d.dot(v.toward) > 0.2 for d in (*faces, *heads)) for v in views}
    return tuple(sorted(views, key=lambda view: -scores[view]))


def _normal(assembly: Assembly, key: str, face: str) -> Vec | None:
    z = assembly.parts[key].frame.z
    return {"show": z, "back": z.negated()}.get(face)
