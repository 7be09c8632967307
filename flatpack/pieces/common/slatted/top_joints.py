"""Slats on their bearers and aprons: each by itself, so that each can swell and shrink.

A slat is held along one line across its length at each bearer, by one screw or by two that stand
near enough together for the wood between them; the gap beside it takes up what it gains.  It isn't
glued.  An outer slat that lies too little on the bearers for two screws also has a row of screws
along its length from the apron below it, where wood doesn't move.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Joint
from flatpack.pieces.common.fixings import WOOD_BETWEEN, pockets
from flatpack.pieces.common.leg_frames import Avoid, inner
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import SettingOut
from flatpack.pieces.common.slatted.slat_screws import FROM_EDGE, aside, screws
from flatpack.pieces.common.slatted.spacing import past_bearer

APART = 40.0
"""Least between two screws along an apron, mm (common practice, no source)."""


def top_joints(p: Plan, out: SettingOut) -> Iterator[Joint]:
    """Every slat on every bearer that it crosses, and the outer ones on the aprons."""
    bearers = [("bearer-left", inner("left")), ("bearer-right", inner("right"))]
    bearers += [(f"bearer-middle-{i}", Y) for i in range(1, len(out.middles) + 1)]
    for number in range(1, out.count + 1):
        for key, face in bearers:
            if screws(p, out, number):
                yield pockets(
                    out.stock,
                    key=f"slat-{number}-on-{key}",
                    step="top",
                    through=key,
                    into=f"slat-{number}",
                    outward=Z,
                    pocket_face=face,
                    count=screws(p, out, number),
                    avoid=aside(out, number),
                    glue=False,
                )
    yield from _on_aprons(p, out)


def under_apron(out: SettingOut, where: str) -> int | None:
    """Number of the slat that an apron's middle lies under, well inside; None for a gap."""
    t = out.stock.frames.thickness
    at = out.bearers.low - t / 2.0 if where == "front" else out.bearers.high + t / 2.0
    for number in range(1, out.count + 1):
        slat = out.slat(number)
        if slat.low + FROM_EDGE <= at <= slat.high - FROM_EDGE:
            return number
    return None


def _on_aprons(p: Plan, out: SettingOut) -> Iterator[Joint]:
    """Two screws at the thirds of each stretch between two bearers, where there is room for two."""
    for where, face in (("front", X), ("rear", X.negated())):
        number = under_apron(out, where)
        if number is None or screws(p, out, number) > 1:
            continue
        for bay, (low, high) in enumerate(_bays(out), 1):
            if high - low >= 3.0 * APART:
                yield pockets(
                    out.stock,
                    key=f"slat-{number}-on-apron-{where}-{bay}",
                    step="top",
                    through=f"apron-{where}",
                    into=f"slat-{number}",
                    outward=Z,
                    pocket_face=face,
                    count=2,
                    avoid=_but_for(out, low + (high - low) / 3.0, high - (high - low) / 3.0),
                    glue=False,
                )


def _bays(out: SettingOut) -> Iterator[tuple[float, float]]:
    """From where to where pockets may stand in each stretch of the aprons between two bearers."""
    jig, t = out.stock.jig, out.stock.frames.thickness
    aside = jig.drill / 2.0 + WOOD_BETWEEN
    end = past_bearer(out) + aside
    edges = [out.clear.low + end, *(y + t + aside for y in out.middles)]
    others = [*(y - aside for y in out.middles), out.clear.high - end]
    yield from zip(edges, others, strict=True)


def _but_for(out: SettingOut, first: float, second: float) -> Avoid:
    """Every place along an apron but two."""
    far = out.clear.length
    ends = ((first - far, first), (first, second), (second, second + far))
    return tuple((Vec(0.0, (a + b) / 2.0, 0.0), (b - a) / 2.0) for a, b in ends)
