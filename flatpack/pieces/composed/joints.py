"""The joints: which parts each entry joins, and one joint where every two of them meet."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from flatpack.frozen import frozen
from flatpack.model import Bar, Joint, Part
from flatpack.pieces.composed import joint_bars as with_bars
from flatpack.pieces.composed import joint_makers as make
from flatpack.pieces.composed import joint_shapes as shapes
from flatpack.pieces.composed.faults import StuckError
from flatpack.pieces.composed.layout import Layout
from flatpack.pieces.composed.meeting import TOUCHING, Meeting, meeting, touch
from flatpack.pieces.composed.nearness import nearest_part
from flatpack.pieces.composed.parts import Made, siblings


@frozen
class Entry:
    """One of the file's joints, and where it stands in the file."""

    kind: str
    made: Any
    key: str
    step: str


class Pair(NamedTuple):
    """Two parts that meet, the one that the fastener comes from first."""

    one: Part
    other: Part
    met: Meeting


Maker = Callable[[make.Bench, Any, make.Where, Pair], Iterator[Joint]]
MEETING: Mapping[str, Maker] = {
    "pocket screws": make.pocket_screws,
    "screws": make.screws,
    "bolts": make.bolts,
    "barrel nuts": make.barrel_nuts,
    "inserts": make.inserts,
    "glue": make.glue,
    "hinges": make.hinges,
    "tenons": shapes.tenons,
    "wedged tenons": shapes.wedged_tenons,
}
"""Kind -> what makes its joints where two parts meet."""


def joints(layout: Layout, parts: Made) -> dict[str, tuple[Joint, ...]]:
    """Every joint that can be worked out, by its entry's key; faults of the others are noted.

    Wedges, which joints bring, are added to the parts.
    """
    bench = make.Bench(layout=layout, parts=parts)
    found: dict[str, tuple[Joint, ...]] = {}
    for entry in entries(layout):
        made = layout.faults.attempt(lambda entry=entry: tuple(_of_entry(bench, entry)))  # type: ignore[misc]  # a loop's value bound
        found[entry.key] = made or ()
    parts.update(bench.wedges)
    return found


def entries(layout: Layout) -> Iterator[Entry]:
    """The file's joints, each with the step at which it is made."""
    steps = [step.name for step in layout.record.steps]
    own = tuple(_steps_of_joints(layout))
    for number, (kind, made) in enumerate(layout.record.joints):
        key = f"joints[{number}]"
        step = made.step or (steps[0] if len(steps) == 1 else "" if steps else own[number])
        if steps and step not in steps:
            layout.faults.attempt(lambda: _no_step(layout, key, made.step, steps))  # noqa: B023  # called at once
        yield Entry(kind=kind, made=made, key=key, step=step)


def _steps_of_joints(layout: Layout) -> Iterator[str]:
    """Each joint's step where the file names none: one for neighbours that join the same parts.

    Those are the same where the fastener comes from, or both ways round.
    """
    before: tuple[frozenset[str], frozenset[str]] | None = None
    step = ""
    for number, (_, made) in enumerate(layout.record.joints, 1):
        through, into = (frozenset(getattr(made, w, ())) for w in ("through", "into"))
        same = (
            before is not None
            and through
            and (through == before[0] or through | into == before[0] | before[1])
        )
        step = step if same else f"joint {number}"
        before = (through, into)
        yield step


def _no_step(layout: Layout, key: str, step: str, steps: list[str]) -> None:
    raise layout.faults.unknown(f"{key}.step", step, steps, "no such step")


def _of_entry(bench: make.Bench, entry: Entry) -> Iterator[Joint]:
    if entry.kind == "wheels":
        yield from with_bars.wheels(bench, entry.made, entry.key, entry.step, _named(bench, entry))
    elif entry.kind == "bar":
        bars, holders = _named(bench, entry), _named(bench, entry, "into")
        yield from with_bars.bars(bench, entry.made, entry.key, entry.step, (bars, holders))
    elif entry.kind == "halving":
        ones, others = (_boards(bench, entry, which) for which in ("through", "into"))
        pairs = [(a, b) for a in ones for b in others if a.key != b.key]
        yield from shapes.halvings(bench, entry.made, (entry.key, entry.step), pairs)
    else:
        for pair in _pairs(bench, entry):
            yield from MEETING[entry.kind](bench, entry.made, (entry.key, entry.step), pair)


def _named(bench: make.Bench, entry: Entry, which: str = "through") -> list[Part | Bar]:
    """The parts that an entry names; a name that isn't known is a fault.

    Raises:
        StuckError: a part that it names couldn't be made.
    """
    layout, found = bench.layout, []
    for number, name in enumerate(getattr(entry.made, which)):
        many = len(getattr(entry.made, which)) > 1
        key = f"{entry.key}.{which}" + (f"[{number}]" if many else "")
        keys = siblings(layout, name, key)
        if not set(keys) <= set(bench.parts):
            raise StuckError
        found += [bench.parts[k] for k in keys]
    return found


def _pairs(bench: make.Bench, entry: Entry) -> Iterator[Pair]:
    """All that meet; each part that is named must meet one of the others."""
    ones, others = (_boards(bench, entry, which) for which in ("through", "into"))
    found = [
        Pair(a, b, met)
        for a in ones
        for b in others
        if a.key != b.key and (met := touch(a, b)) is not None
    ]
    left = {p.key: p for p in (*ones, *others)}
    for pair in found:
        left.pop(pair.one.key, None)
        left.pop(pair.other.key, None)
    _unmet(bench, entry, left, (ones, others))
    yield from found


def _boards(bench: make.Bench, entry: Entry, which: str) -> list[Part]:
    return [_board(bench, entry, p) for p in _named(bench, entry, which)]


def _board(bench: make.Bench, entry: Entry, part: Part | Bar) -> Part:
    if isinstance(part, Part):
        return part
    raise bench.layout.faults.stop(
        entry.key, part.key, 'kind = "bar"', "a round bar can't be joined this way"
    )


def _unmet(
    bench: make.Bench, entry: Entry, left: dict[str, Part], ends: tuple[list[Part], list[Part]]
) -> None:
    """Faults of those that meet none: each gap told once, from one end and for one hand."""
    told: set[str] = set()
    for part in left.values():
        mate = f"{part.key.removesuffix('-right')}-left"
        if part.hand == "right" and mate in left:
            continue
        near = _alone(bench, entry, part, ends, told)
        told |= {part.key, near}


def _alone(
    bench: make.Bench,
    entry: Entry,
    part: Part,
    ends: tuple[list[Part], list[Part]],
    told: set[str],
) -> str:
    """The fault of a part that meets none of those it should be joined to; the nearest of them."""
    first = part in ends[0]
    others = [p for p in ends[first] if p.key != part.key]
    near = nearest_part(part, others)
    if near is None or (part.key in told and near.key in told):
        return ""
    written = entry.made.into if first else entry.made.through
    names = " or ".join(written[:4]) + (" or others" if len(written) > 4 else "")
    how = _apart(part, next(o for o in others if o.key == near.key), near.gap)
    text = f"{part.key} doesn't meet {names}: it {how} {near.key}"
    bench.layout.faults.note(entry.key, part.key, "parts that touch face to face", text)
    return near.key


def _apart(part: Part, other: Part, gap: float) -> str:
    if gap > TOUCHING:
        return f"stands {gap:.1f} mm off from"
    met = meeting(part, other)
    if met is not None and met.gap < -TOUCHING:
        return f"runs {-met.gap:.1f} mm into"
    return "only touches an edge or a corner of, or runs askew into,"
