"""Parts of sheets whose fit wants more than the merchant's saw holds to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from flatpack.finding import Finding
from flatpack.model import Assembly, Fit
from flatpack.planning import told
from flatpack.planning.pool import Counted, Lot, Wanted
from flatpack.planning.supply import figure
from flatpack.wording import english_plans as words

_LOOSE = 0.5
_SOURCE = "common practice, no source"


def saw_findings(pieces: Sequence[Counted], lots: Sequence[Lot], holds: float) -> Iterator[Finding]:
    """For parts off the panel saw, which holds to `holds` mm: joints and moving parts by name.

    Where no part asks for more, a note that the saw is a loose one.
    """
    found = [f for lot in lots for part in lot.parts for f in _of_part(pieces, part, holds)]
    yield from found
    if lots and holds > _LOOSE and not found:
        yield told.told("tolerance", "note", words.loose(f"{holds:g}"), measured=holds,
                        limit=_LOOSE, source=_SOURCE)  # fmt: skip


def _of_part(pieces: Sequence[Counted], part: Wanted, holds: float) -> Iterator[Finding]:
    assembly = pieces[part.piece - 1].assembly
    keys = set(part.group.keys)
    close = [f for f in assembly.fits if keys & {f.part, f.onto} and _play(f) < holds]
    if close:
        least = min(close, key=_play)
        text = words.close_fit(figure_of(least), f"{holds:g}")
        yield told.told("saw-fit", "warning", text, part.mark, words.CLOSE_FIT, holds,
                        _play(least), source="the workshop's fits")  # fmt: skip
    motion = assembly.motion
    if motion is not None and holds > motion.tolerance and keys & _moving(assembly):
        text = words.moving_fit(figure(motion.tolerance), f"{holds:g}")
        yield told.told("saw-moving", "warning", text, part.mark, words.MOVING_FIT, holds,
                        motion.tolerance, source="how the moving part was proved")  # fmt: skip


def _play(fit: Fit) -> float:
    return max(0.0, fit.clearance)


def figure_of(fit: Fit) -> str:
    """Play of a fit in words' figures."""
    return f"{_play(fit):g}"


def _moving(assembly: Assembly) -> set[str]:
    """Parts that a bar or a hinge goes through, and those joined to them: they set the angles."""
    joints = [frozenset(j.parts) for j in assembly.joints]
    barred = {k for parts in joints if parts & set(assembly.bars) for k in parts}
    found = {k for parts in joints if parts & barred for k in parts}
    hinged = (j.parts for j in assembly.joints if type(j).__name__ == "HingeJoint")
    return (found | {k for parts in hinged for k in parts}) & set(assembly.parts)
