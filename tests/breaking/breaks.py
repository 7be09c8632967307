"""Ways to break a piece on purpose, and what the checks then say."""

from __future__ import annotations

from flatpack import checks
from flatpack.features import Hole
from flatpack.finding import Finding
from flatpack.frozen import replace
from flatpack.geometry import Point, Vec
from flatpack.model import Assembly


def changed(whole: Assembly, key: str, **values: object) -> Assembly:
    """A piece with some fields of one part changed."""
    return replace(whole, parts={**whole.parts, key: replace(whole.parts[key], **values)})


def shifted(whole: Assembly, key: str, x: float, y: float, z: float) -> Assembly:
    """A piece with one part moved, mm."""
    frame = whole.parts[key].frame
    return changed(whole, key, frame=replace(frame, origin=frame.origin.plus(Vec(x, y, z))))


def drilled_aside(whole: Assembly, key: str, by: float) -> Assembly:
    """A piece with the first hole in a part's face moved along its grain, mm."""
    features = whole.parts[key].features
    first = next(f for f in features if isinstance(f, Hole))
    moved = replace(first, at=Point(first.at.x + by, first.at.y))
    return changed(whole, key, features=tuple(moved if f is first else f for f in features))


def faults(whole: Assembly) -> list[Finding]:
    """What the checks call faults."""
    return [f for f in checks.run(whole) if f.severity == "fault"]


def named(found: list[Finding], code: str) -> set[str]:
    """Parts of the findings of one code."""
    return {f.part for f in found if f.code == code}
