"""The planter's steps: the box's own, the liner, the cap."""

from __future__ import annotations

from flatpack.model import Step
from flatpack.pieces.common.boarded.joints import STEPS
from flatpack.pieces.planter.parameters import Planter

CAP = Step("cap", "Capping rail", "", ("Side boards' top",))
LINER = (
    "{}, fold the liner up at all four sides, corners in pleats, staple its fold along the top of "
    "the boards, and prick it over every gap of the bottom so that water drains."
)


def steps(p: Planter) -> tuple[Step, ...]:
    """Steps in order; the liner goes in before the cap, or last where there is none."""
    kept = (*STEPS, CAP) if p.cap.use else STEPS
    if not p.liner.use:
        return kept
    last = kept[-1]
    words = LINER.format("Before the cap goes on" if p.cap.use else "When the bottom is in")
    measures = (*last.measures, "Liner's cut")
    return (*kept[:-1], last._replace(words=f"{last.words} {words}".strip(), measures=measures))
