"""What a rounded arm end gains over one cut square."""

from __future__ import annotations

from collections.abc import Sequence

from flatpack.frozen import frozen, replace
from flatpack.mechanism.bodies import Body, arm_outline
from flatpack.mechanism.path import Path
from flatpack.mechanism.sweep import Clash, Names, sweep


@frozen
class EndGain:
    """Least gap of an arm to everything else over the travel, rod end square and round, mm.

    A negative gap is the depth of a clash; `against_square` and `against_round` name the body
    that is nearest (None: nothing within reach).
    """

    arm: str
    square: float
    round: float
    against_square: str | None
    against_round: str | None

    @property
    def gained(self) -> float:
        """Clearance gained by the half round end, mm."""
        return self.round - self.square


def end_gain(
    arm: Body,
    bodies: Sequence[Body],
    path: Path,
    *,
    width: float,
    beyond: float | None = None,
    joined: Names = frozenset(),
) -> EndGain:
    """Compare an arm `width` mm wide, cut square `beyond` mm past the rod, with a half round end.

    `beyond` is half the width unless given, so that both ends are as long.
    """
    length = path.prop.arm
    square = arm_outline(length, width, width / 2.0 if beyond is None else beyond)
    others = [b for b in bodies if b.name != arm.name]
    (gap_s, at_s), (gap_r, at_r) = (
        _least(replace(arm, outlines=(outline,)), others, path, joined)
        for outline in (square, arm_outline(length, width))
    )
    return EndGain(arm=arm.name, square=gap_s, round=gap_r, against_square=at_s, against_round=at_r)


def _least(
    arm: Body, others: Sequence[Body], path: Path, joined: Names
) -> tuple[float, str | None]:
    """The arm's least signed gap and the body that it is to."""
    least: tuple[float, str | None] = (float("inf"), None)
    for result in sweep((*others, arm), path, joined=joined):
        if arm.name not in (result.first, result.second):
            continue
        other = result.second if result.first == arm.name else result.first
        gap = -result.depth if isinstance(result, Clash) else result.least
        beyond = not isinstance(result, Clash) and result.beyond
        if gap < least[0]:
            least = (gap, None if beyond else other)
    return least
