"""Everything that moves passes everything else, over the whole travel of a back or lid."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.checks.limits import PRACTICE
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.mechanism.changes import changes
from flatpack.mechanism.study import Study
from flatpack.mechanism.sweep import Clash, Clearance

MOST_CHANGES = 3
"""Clashes for which changes are worked out; each costs tens of milliseconds."""
AS_MADE = {"rod": 3.0, "arm": 3.0}
"""Tolerances that add up between two bodies by what carries one of them: hinge, pivot and arm or
notch; two (hinge and the part's own) for all others."""


def check_travel(setting: Setting) -> Iterator[Finding]:
    """No clash on the way up, over, out and down; the wanted clearance kept, also as made."""
    made = setting.study
    if made is None:
        return
    if made.path is None:
        yield Finding(
            "travel-unknown", "not done", made.motion.panel,
            f"the travel can't be followed: the {made.motion.panel} has no stop that can be "
            "reached",
        )  # fmt: skip
        return
    worked_out = 0
    for one in made.swept:
        if isinstance(one, Clash):
            yield _clash(made, one, told=worked_out < MOST_CHANGES)
            worked_out += 1
        elif not one.enough:
            yield _close(one)
        else:
            yield from _as_made(made, one)


def _clash(made: Study, clash: Clash, *, told: bool) -> Finding:
    return Finding(
        "clash", "fault", f"{clash.first} / {clash.second}",
        f"{clash.second} runs {clash.depth:.1f} into {clash.first} while {clash.phase}, first at "
        f"{clash.starts:.1f}°, deepest at {clash.degrees:.1f}°",
        round(clash.depth, 2), 0.0,
        remedy=_changed(made, clash) if told else "",
        tries=_tries(made, clash),
    )  # fmt: skip


def _close(near: Clearance) -> Finding:
    return Finding(
        "clearance", "warning", f"{near.first} / {near.second}",
        f"{near.second} passes {near.first} with {near.least:.2f}, wanted {near.wanted:g}, at "
        f"{near.degrees:.1f}° while {near.phase}",
        round(near.least, 2), near.wanted, "mm", PRACTICE,
    )  # fmt: skip


def _as_made(made: Study, near: Clearance) -> Iterator[Finding]:
    if near.touching or near.beyond:
        return
    carriers = {b.carrier for b in made.bodies if b.name in (near.first, near.second)}
    share = max(AS_MADE.get(str(c), 2.0) for c in carriers)
    off = share * made.motion.tolerance
    if near.least < off:
        yield Finding(
            "clearance-as-made", "note", f"{near.first} / {near.second}",
            f"{near.least:.1f} between them at {near.degrees:.0f}°; with every measure "
            f"{made.motion.tolerance:g} off at worst they may touch: try them before gluing",
            round(near.least, 2), off, "mm",
        )  # fmt: skip


def _changed(made: Study, clash: Clash) -> str:
    assert made.path is not None
    found = changes(clash, made.bodies, made.path, made.motion.clearance)
    return "; or ".join(
        f"{change.body}: {change.how} {'' if change.side is None else change.side} "
        f"{change.by:.1f}".replace("  ", " ")
        for change in found[:3]
    )


def _tries(made: Study, clash: Clash) -> tuple[tuple[str, float | tuple[float, ...]], ...]:
    """Parameters that move the two bodies apart, by the depth and the clearance wanted."""
    keys = dict(made.motion.keys)
    by = math.ceil(clash.depth + made.motion.clearance)
    names = f"{clash.first} {clash.second}"
    tries: list[tuple[str, float | tuple[float, ...]]] = []
    if "back-slat" in names and "gap" in keys and made.joint is not None:
        tries += [(keys["gap"], math.ceil(made.joint.gap) + k) for k in range(by, by + 8, 2)]
    width = {b.name: b.outlines[0].bounds for b in made.bodies}
    for part, key in (("brace", "brace"), ("arm", "arm_width")):
        for name in (clash.first, clash.second):
            if name.startswith(part) and key in keys:
                low, high = width[name][1], width[name][3]
                tries.append((keys[key], math.floor(high - low - by * (2 if part == "arm" else 1))))
    return tuple(tries)
