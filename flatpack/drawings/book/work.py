"""What to do at a step, in order: lay out, place, dry fit, glue, fasten, wait."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.drawings.book import details
from flatpack.drawings.book.askew import askew
from flatpack.drawings.book.details import toothed
from flatpack.drawings.book.matter import Matter
from flatpack.drawings.book.placing import Place, places
from flatpack.drawings.book.steps import BuildStep, JointGroup, joint_groups
from flatpack.model import Part, placed_corners
from flatpack.wording import book_english as words
from flatpack.wording import book_english_steps as said
from flatpack.wording import english_fits as fits

_LOWER = 10.0
"""New parts that reach further below the old than this are put on upside down, mm."""


def work(m: Matter, step: BuildStep, below: bool) -> Iterator[str]:
    """Sentences in the order of work."""
    joints = joint_groups(step, m.assembly)
    glued = any(group.glue for group in joints)
    if step.new:
        yield said.CHECK_MARKS
    pairs = tuple(_pairs(m, step))
    if pairs:
        yield said.check_pairs(pairs)
    yield from _stand(m, step, below)
    yield from _placing(m, step)
    yield from details.teeth(m, _new(m, step))
    yield from _spacers(m, step)
    if step.new:
        dry = said.DRY_FIT if glued else said.CLAMP_FIRST
        yield fits.DRY_FIT if _by_shape(m, step) else dry
    if glued:
        yield _glue(m, joints)
    yield from (_joint(m, group) for group in joints)
    if any(f.operation == "thin-line" for p in _new(m, step) for f in p.features):
        yield said.NOTCHES_BLOCKS if any(map(toothed, _new(m, step))) else said.NOTCHES
    if glued:
        yield from _after_glue(m, step)


def _by_shape(m: Matter, step: BuildStep) -> bool:
    """True when nothing but the parts' shape holds at this step, no glue and no fastener."""
    fitted = {fit.joint for fit in m.assembly.fits}
    glued = any(getattr(joint, "glue", False) for joint in step.joints)
    return not glued and all(joint.key in fitted for joint in step.joints)


def _stand(m: Matter, step: BuildStep, below: bool) -> Iterator[str]:
    """How the work lies: upright under a hinged back, else with what is worked on above."""
    bars = m.assembly.bars
    hinged = any(f.kind == "hinge" for f in step.fasteners)
    if hinged and any(bars[k].group == "rod" for k in step.old if k in bars):
        motion = m.assembly.motion
        # Leaves that lie on one another at rest are only reached with the hinge open.
        yield said.OPENED if motion and motion.leaf_angle == 0.0 else said.FOLD
    elif below:
        yield said.BELOW
    elif _hangs(m, step):
        yield said.HANGING


def _hangs(m: Matter, step: BuildStep) -> bool:
    """True when new parts of a frame reach below all that is there."""
    old = [v.z for key in step.old if key in m.assembly.parts
           for v in placed_corners(m.assembly.parts[key])]  # fmt: skip
    new = [v.z for p in _new(m, step) if p.group == "frame" for v in placed_corners(p)]
    return bool(old and new) and min(new) < min(old) - _LOWER


def _glue(m: Matter, joints: tuple[JointGroup, ...]) -> str:
    glue = m.settings.glue
    if glue is None:
        return said.GLUE_ANY
    bars = all(group.kind == "bar fixed" for group in joints if group.glue)
    return (said.glue_bar if bars else said.glue)(glue.name, glue.open_minutes)


def _new(m: Matter, step: BuildStep) -> Iterator[Part]:
    return (m.assembly.parts[key] for key in step.new if key in m.assembly.parts)


def _after_glue(m: Matter, step: BuildStep) -> Iterator[str]:
    if len(step.new) >= 4 and not step.old:
        yield said.SQUARE
    yield said.WIPE
    if m.settings.glue:
        yield said.leave(m.settings.glue.clamp_minutes)


def _pairs(m: Matter, step: BuildStep) -> Iterator[str]:
    marks = dict.fromkeys(m.mark_of[key] for key in step.new)
    for mark in marks:
        if mark.endswith("-L") and f"{mark[:-1]}R" in marks:
            yield f"{mark}, {mark[:-1]}R"


def _placing(m: Matter, step: BuildStep) -> Iterator[str]:
    found = places(m.assembly, step, m.mark_of)
    yield from (_place(m, place) for place in found)
    placed = {key for place in found for key in (*place.part, *place.base)}
    yield from askew(m, step, placed)


def _place(m: Matter, place: Place) -> str:
    names = said.WAYS[m.assembly.bearing]
    across = None if place.across is None else m.said(abs(place.across))
    low, high = names[place.low], names[place.high]
    side = said.side_of(place.side, low)
    flush = said.flush_words(place.flush, low, high, side, across, (place.across or 0.0) < 0.0)
    face = said.face_words(place.face, said.OUT[place.out], m.said(place.past))
    base = m.name_of(place.base[0])
    on = said.base(base, _marks(m, place.base), names.get(place.which, ""))
    along = said.along(
        said.side_of(place.near, names[place.start]), base, said.end_of(names[place.start]),
        [m.size(-a) for a in place.along if a < 0.0], [m.size(a) for a in place.along if a >= 0.0],
        words.UNIT[m.settings.units],
    )  # fmt: skip
    lies = "; ".join(t for t in (along, flush, face) if t)
    return said.place(m.name_of(place.part[0]), _marks(m, place.part), on, lies)


def _marks(m: Matter, keys: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(m.mark_of[key] for key in keys))


def _spacers(m: Matter, step: BuildStep) -> Iterator[str]:
    uses = step.spacers
    for spacer in m.assembly.spacers:
        if uses and spacer.use.startswith(uses):
            yield said.spacer(spacer.name, m.said(spacer.width), spacer.use)


def _joint(m: Matter, group: JointGroup) -> str:
    first = group.parts[0]
    through = _named(m, (parts[0] for parts in group.parts))
    into = _named(m, (p for parts in group.parts for p in parts[1:])) if first[1:] else ""
    sentence = said.joints(
        group.kind, through, into, len(group.parts), group.each, group.item, group.size,
        group.glue, group.words, details.where(m, group),
    )  # fmt: skip
    return sentence[:1].upper() + sentence[1:]


def _named(m: Matter, keys: Iterable[str]) -> str:
    every = tuple(dict.fromkeys(keys))
    return f"{m.name_of(every[0]).lower()} {_marks(m, every)}" if every else ""
