"""The poses in which a piece that moves is drawn."""

from __future__ import annotations

from flatpack.mechanism.study import Study
from flatpack.model import Assembly, lying, posed
from flatpack.wording import english as words
from flatpack.wording import english_folding as folding


def poses(assembly: Assembly, study: Study | None) -> dict[str, Assembly]:
    """The piece with its back or lid at rest and at its highest stop, or folded flat and open.

    Empty when nothing moves; the last is how it is used.
    """
    if assembly.folding is not None:
        return {folding.FOLDED: lying(assembly), folding.OPEN: assembly}
    if study is None:
        return {}
    motion = study.motion
    flat = {words.at_rest(motion.panel, motion.rest): assembly}
    if not study.found.stops:
        return flat
    top = study.found.stops[-1]
    raised = posed(assembly, top.angle, top.rod)
    return {**flat, words.raised(motion.panel, round(top.angle, 1)): raised}
