"""Assembly steps from the joints: what each adds, what it is added to, and with which fasteners.

A step makes the joints that name it.  The parts that joints have tied together so far form
sub-assemblies; a step works on those that its joints touch, and unites them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from flatpack.model import Assembly, Fastener, Hardware, Joint, Step


class BuildStep(NamedTuple):
    """One step: `new` parts and bars come in, `old` ones are there already, in what it works on.

    `placed` are the fasteners that hold the old ones together; `words`, `measures` and `spacers`
    as in the piece's own step.
    """

    number: int
    key: str
    title: str
    joints: tuple[Joint, ...]
    new: tuple[str, ...]
    old: tuple[str, ...]
    fasteners: tuple[Fastener, ...]
    placed: tuple[Fastener, ...]
    measures: tuple[str, ...] = ()
    spacers: tuple[str, ...] = ()
    words: str = ""
    together: tuple[frozenset[str], ...] = ()
    """What earlier steps have made one, of all that this step works on."""

    @property
    def hardware(self) -> tuple[Hardware, ...]:
        """What its fasteners take, counted by item and size, in the order of use."""
        counts: dict[tuple[str, str], int] = {}
        uses: dict[tuple[str, str], dict[str, None]] = {}
        for item in (h for f in self.fasteners for h in f.hardware):
            key = (item.item, item.size)
            counts[key] = counts.get(key, 0) + item.pieces
            uses.setdefault(key, {})[item.use] = None
        return tuple(Hardware(*k, count, "; ".join(uses[k])) for k, count in counts.items())


def build_steps(assembly: Assembly) -> tuple[BuildStep, ...]:
    """Steps in the order of the piece that have joints to make."""
    return tuple(_steps(assembly))


def _steps(assembly: Assembly) -> Iterator[BuildStep]:
    tied: dict[str, frozenset[str]] = {}
    made: list[Fastener] = []
    by_step: dict[str, list[Joint]] = {}
    for joint in assembly.joints:
        by_step.setdefault(joint.step, []).append(joint)
    own = {step.key: step for step in assembly.steps}
    order = [key for key in own if key in by_step]
    order += [key for key in by_step if key not in own]
    rank = {key: n for n, key in enumerate((*assembly.parts, *assembly.bars))}
    for number, key in enumerate(order, 1):
        touched = {p for joint in by_step[key] for p in joint.parts}
        together = tuple(dict.fromkeys(tied[p] for p in sorted(touched) if p in tied))
        old = frozenset().union(*together)
        new = touched - old
        fasteners = tuple(f for f in assembly.fasteners if f.step == key)
        placed = tuple(f for f in made if set(_parts(f, assembly)) & old)
        step = own.get(key, Step(key, key))
        yield BuildStep(
            number, key, step.title, tuple(by_step[key]),
            tuple(sorted(new, key=rank.__getitem__)), tuple(sorted(old, key=rank.__getitem__)),
            fasteners, placed, step.measures, step.spacers, step.words, together,
        )  # fmt: skip
        made += fasteners
        _unite(tied, by_step[key])


def _parts(fastener: Fastener, assembly: Assembly) -> tuple[str, ...]:
    """Parts that a fastener sits on; a hinge or wheel passes through none: its joint's parts."""
    if fastener.passes:
        return fastener.passes
    return next((j.parts for j in assembly.joints if j.key == fastener.joint), ())


def _unite(tied: dict[str, frozenset[str]], joints: list[Joint]) -> None:
    for joint in joints:
        whole = frozenset(joint.parts).union(*(tied.get(p, frozenset()) for p in joint.parts))
        for part in whole:
            tied[part] = whole


class JointGroup(NamedTuple):
    """Joints of a step that are alike: kind of fastener, the parts' names, how many, and of what.

    `kind` is the first fastener's kind, or "glued", "bar fixed", "bar free".  `each` fasteners of
    `item`, `size` go into one joint; `parts` are the (through, into) keys of every joint.
    """

    kind: str
    glue: bool
    item: str
    size: str
    each: int
    parts: tuple[tuple[str, ...], ...]
    words: str


def joint_groups(step: BuildStep, assembly: Assembly) -> tuple[JointGroup, ...]:
    """A step's joints, alike ones together, in the order of making."""
    held: dict[str, list[Fastener]] = {}
    for fastener in step.fasteners:
        held.setdefault(fastener.joint, []).append(fastener)
    alike: dict[tuple[object, ...], list[Joint]] = {}
    for joint in step.joints:
        alike.setdefault(_likeness(joint, held.get(joint.key, []), assembly), []).append(joint)
    return tuple(
        JointGroup(*_facts(joints[0], held.get(joints[0].key, [])),
                   tuple(j.parts for j in joints), joints[0].words())
        for joints in alike.values()
    )  # fmt: skip


def _likeness(joint: Joint, held: list[Fastener], assembly: Assembly) -> tuple[object, ...]:
    named = (assembly.parts.get(p) or assembly.bars[p] for p in joint.parts)
    return (*_facts(joint, held), *(part.name for part in named))


def _facts(joint: Joint, held: list[Fastener]) -> tuple[str, bool, str, str, int]:
    glue = bool(getattr(joint, "glue", False))
    screws = [f for f in held if "screw" in f.kind] or held
    if getattr(joint, "fitting", None) or getattr(joint, "made", None):
        return str(getattr(joint, "kind", "")), glue, "", "", 0
    if not held:
        kind = f"bar {joint.fit}" if hasattr(joint, "bar") and hasattr(joint, "fit") else "glued"
        return kind, kind in ("glued", "bar fixed"), "", "", 0
    kind = "turning bolt" if getattr(joint, "turning", ()) else held[0].kind
    return kind, glue, screws[0].item, screws[0].size, len(screws)
