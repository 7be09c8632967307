"""Putting a piece of one's own together, and what is wrong with its file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.finding import Finding
from flatpack.joinery import BoltThrough, HingeJoint, fit_trials, machine
from flatpack.model import Assembly, Bar, Comfort, Cutting, Joint, Part, Step
from flatpack.parameters import Conflict, Sum, specs_of
from flatpack.pieces.composed.faults import Faults
from flatpack.pieces.composed.hands import parted
from flatpack.pieces.composed.joint_makers import Bench
from flatpack.pieces.composed.joints import entries, joints
from flatpack.pieces.composed.layout import Layout
from flatpack.pieces.composed.meeting import TOUCHING, touch
from flatpack.pieces.composed.nearness import nearest_part
from flatpack.pieces.composed.off_sides import note_off_sides
from flatpack.pieces.composed.origins import origins
from flatpack.pieces.composed.parameters import BEARINGS, Composed
from flatpack.pieces.composed.parts import Made, made_parts
from flatpack.pieces.composed.rows import Stated
from flatpack.pieces.composed.shaping import shape_of
from flatpack.pieces.family import Workings, mm
from flatpack.profiles import Profiles


def build(p: Composed, profiles: Profiles) -> Assembly:
    """The whole piece, joints made.

    Raises:
        ValueError: the file has faults (a bug: conflicts tells them first).
    """
    faults = Faults()
    layout = Layout(p, profiles, faults)
    made = made_parts(layout)
    entered = joints(layout, made)
    every = tuple(joint for row in entered.values() for joint in row)
    felt = tuple(_felt(layout))
    if faults.rows:
        raise ValueError(f"this file has faults: {faults.rows}")
    plain = Assembly(
        family="composed",
        name=p.name,
        date=p.date or "",
        parts={k: v for k, v in made.items() if isinstance(v, Part)},
        bars={k: v for k, v in made.items() if isinstance(v, Bar)},
        joints=every,
        steps=_steps(layout),
        workings=tuple(_workings(layout).rows),
        spacers=tuple(_spacers(layout)),
        bearing=BEARINGS[p.used],  # type: ignore[arg-type]  # its values are bearings
        comfort=felt,
        remarks=(*_not_judged(every), *_afloat(layout, made, every)),
        origins=origins(layout, entered),
        trials=_trials(layout, every, made),
    )
    return parted(layout, plain, machine(plain), entered)


def conflicts(p: Composed, profiles: Profiles) -> Iterable[Conflict]:
    """All that is wrong with the file, each with its key."""
    faults = Faults()
    layout = Layout(p, profiles, faults)
    for name in layout.measures:
        faults.attempt(lambda name=name: layout.measure(name, f"measures.{name}"))  # type: ignore[misc]  # a loop's value bound
    made = made_parts(layout)
    note_off_sides(layout, made)
    every = joints(layout, made)
    faults.attempt(lambda: list(_felt(layout)))
    faults.attempt(lambda: list(_spacers(layout)))
    if not faults.rows:
        _alone(layout, made, tuple(joint for row in every.values() for joint in row))
        _askew(layout, made, every)
    return tuple(faults.rows)


def _askew(layout: Layout, made: Made, every: dict[str, tuple[Joint, ...]]) -> None:
    """Joints whose fasteners would run neither square to a part nor along it."""
    parts = {k: v for k, v in made.items() if isinstance(v, Part)}
    bars = {k: v for k, v in made.items() if isinstance(v, Bar)}
    whole = Assembly(family="composed", name="", parts=parts, bars=bars)
    for key, row in every.items():
        for joint in row:
            try:
                joint.machine(whole)
            except ValueError as wrong:
                allowed = "parts that lie square to the fasteners"
                layout.faults.note(key, " and ".join(joint.parts), allowed, str(wrong))


def _alone(layout: Layout, made: Made, every: tuple[Joint, ...]) -> None:
    """Parts that touch nothing, and parts that nothing holds."""
    held = {key for joint in every for key in joint.parts}
    parts = [p for p in made.values() if isinstance(p, Part)]
    for name in layout.parts:
        for key in layout.copies(name):
            one = made[key]
            if key in held or getattr(layout.parts[name].made, "loose", False):
                continue
            touches = isinstance(one, Part) and any(
                touch(one, other) is not None for other in parts if other is not one
            )
            if not touches and len(made) > 1:
                near = nearest_part(one, made.values())
                off = f"; the nearest, {near.key}, is {near.gap:.1f} mm off" if near else ""
                layout.faults.note(f"parts.{name}", key, "a place against another part, or loose "
                                   "= true", f"it touches nothing{off}")  # fmt: skip
            else:
                layout.faults.note(f"parts.{name}", key, "a joint that names it, or loose = true",
                                   "no joint holds it")  # fmt: skip


def _steps(layout: Layout) -> tuple[Step, ...]:
    """The file's steps, or one for each of its joints, like neighbours together."""
    own = layout.record.steps
    if own:
        return tuple(Step(s.name, s.title, s.words, s.measures, s.spacers) for s in own)
    found: dict[str, tuple[dict[str, None], dict[str, None]]] = {}
    for entry in entries(layout):
        sides = found.setdefault(entry.step, ({}, {}))
        for side, where in zip(sides, ("through", "into"), strict=True):
            side.update(dict.fromkeys(getattr(entry.made, where, ())))
    return tuple(Step(key, _title(*sides)) for key, sides in found.items())


def _title(through: Iterable[str], into: Iterable[str]) -> str:
    names = [", ".join(side) for side in (through, into)]
    title = " to ".join(n.replace("-", " ") for n in names if n)
    return title[:1].upper() + title[1:]


def _workings(layout: Layout) -> Workings:
    """Measures that follow from others, lengths that follow from places, gaps."""
    notes = Workings()
    for name, said in layout.measures.items():
        if said.plain is None:
            notes.add(name, layout.measure(name, ""), _sum(layout, said))
    for name, (_, made) in layout.parts.items():
        title = made.title or name
        for axis, what in enumerate(("length", "width")):
            stated = layout.stated(name, axis)
            if getattr(made, what, 0) is None and len(stated) == 2:
                how = " to ".join(s.said.written() for s in sorted(stated, key=lambda s: s.share))
                notes.add(f"{title}, {what}", layout.extent(name, axis), f"from {how}")
        row = layout.row(name)
        if row is not None and row.gap is not None:
            notes.add(f"{title}: gap", row.gap, f"{row.pieces} shared evenly")
    return notes


def _sum(layout: Layout, said: Sum) -> str:
    """A sum in words and figures: height 430 - slats.thickness 27."""

    def told(term: float | str) -> str:
        value = mm(layout.term(term, "", said))
        return f"{term} {value}" if isinstance(term, str) else value

    tail = f" {'+' if said.sign > 0 else '-'} {told(said.second)}" if said.sign else ""
    return told(said.first) + tail


def _spacers(layout: Layout) -> Iterator[Cutting]:
    """Gap spacers of rows of slats, and the file's own."""
    for name, (kind, made) in layout.parts.items():
        row = layout.row(name)
        if kind == "slats" and row is not None and row.gap is not None and row.gap > 0.05:
            title = (made.title or name).lower()
            width = shape_of(layout, name).outline.bounds[3]
            yield Cutting(f"Gap spacer, {title}", width, row.gap, 2, f"between {title}s")
    for number, s in enumerate(layout.record.spacers):
        key = f"spacers[{number}]"
        length, width = layout.length(s.length, key), layout.length(s.width, key)
        yield Cutting(s.name, length, width, s.pieces, s.use)


def _felt(layout: Layout) -> Iterator[Comfort]:
    """Measures that a body feels; each names the measure of the file that changes it."""
    felt = layout.record.felt
    for key, spec in specs_of(felt).items():
        said, what = getattr(felt, key), key.replace("_", " ")
        if said is None:
            continue
        if spec.kind == "angle":
            yield Comfort(what, said, f"felt.{key}")  # type: ignore[arg-type]  # keys are kinds
            continue
        value = _felt_length(layout, said, key)
        owner = f"measures.{said.first}" if said.first in layout.measures else f"felt.{key}"
        yield Comfort(what, value, owner)  # type: ignore[arg-type]  # keys are kinds


def _felt_length(layout: Layout, said: Sum, key: str) -> float:
    """A length, or how far a place stands along the way that the measure runs."""
    way = 0 if "depth" in key else 2
    stated = Stated(0.0, said, f"felt.{key}")
    plane = layout.plane(said.first, way, stated)
    level = 0.0 if said.at is None else layout.length(Sum(said.at), stated.key)
    slope = plane.normal[way]
    if abs(slope) < 1e-6:
        raise layout.faults.stop(stated.key, said, "a side that faces that way", "it runs aside")
    across = plane.normal.z * level if way != 2 else 0.0
    far = (plane.reach - across) / slope
    return far + (said.sign * layout.term(said.second, stated.key, said) if said.sign else 0.0)


def _trials(layout: Layout, every: tuple[Joint, ...], made: Made) -> tuple[Part, ...]:
    """Pieces to try the fit on, of each board that is let into another."""
    let_in = dict.fromkeys(
        k for j in every if getattr(j, "kind", "") in ("halving", "tenon", "wedged tenon")
        for k in j.parts
    )  # fmt: skip
    boards = [one.board for k in let_in if isinstance(one := made[k], Part)]
    return fit_trials(boards, Bench(layout=layout, parts=made).fitting) if boards else ()


def _afloat(layout: Layout, made: Made, every: tuple[Joint, ...]) -> Iterator[Finding]:
    """Loose parts that no joint holds and that lie on nothing: allowed, but told."""
    held = {key for joint in every for key in joint.parts}
    for name in layout.parts:
        for key in layout.copies(name):
            near = None if key in held else nearest_part(made[key], made.values())
            if near is not None and near.gap > TOUCHING:
                text = f"lies loose and touches nothing; the nearest, {near.key}, is {near.gap:.1f}"
                yield Finding("loose-touches-nothing", "note", key, f"{text} mm off")


def _not_judged(every: tuple[Joint, ...]) -> Iterator[Finding]:
    """Hinges and pivots turn, but what turns on them isn't known to the file."""
    for joint in every:
        if isinstance(joint, HingeJoint) or (isinstance(joint, BoltThrough) and joint.turning):
            text = "what turns on this isn't said, so its swing wasn't tried: try it with care"
            yield Finding("swing-not-tried", "not done", joint.key, text)
