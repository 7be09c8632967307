"""What lifts, a back or a lid: stops reached and held, everything moves, and what may pinch."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.checks.limits import PRACTICE
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.mechanism.hinge_joint import largest_angle
from flatpack.mechanism.stops import Passed, Stop
from flatpack.mechanism.study import Study

ANGLE = 0.5
"""Degrees by which a stop may miss the angle wanted (the design's own aim)."""
HAND_ROOM = 60.0
"""Room round the rod for a hand that lifts it, mm (common practice, no source)."""
TRAPS = (
    "EN 581-1, risk gap of 7 to 18 mm during movement, as described by a test institute; "
    "its 2017 edition accepts adjustment under the user's own control"
)


def check_stops(setting: Setting) -> Iterator[Finding]:
    """Every angle wanted has its stop, reached, leaning enough and near the angle."""
    made = setting.study
    if made is None:
        return
    keys = dict(made.motion.keys)
    for passed in made.found.passed:
        yield _missed(made, passed, keys)
    wanted = sorted(made.motion.wanted)
    if len(made.found.stops) == len(wanted):
        for number, (stop, angle) in enumerate(zip(made.found.stops, wanted, strict=True), 1):
            yield from _off_angle(made, number, stop, angle, keys)
    elif not made.found.passed:
        yield Finding(
            "stops-missing", "fault", "rack",
            f"{len(wanted)} angles are wanted but the rack has {len(made.found.stops)} stops",
            float(len(made.found.stops)), float(len(wanted)), "stops",
        )  # fmt: skip
    if made.found.stops:
        yield from _lean(made, made.found.stops[-1], keys)


def _missed(made: Study, passed: Passed, keys: dict[str, str]) -> Finding:
    top = max(made.motion.wanted)
    return Finding(
        "stop-missed", "fault", f"notch {len(made.rack.seats) + 1 - passed.seat}",
        f"{passed.reason}, by {passed.amount:.1f}: no stop comes of this notch",
        round(passed.amount, 2), 0.0,
        tries=_arm_tries(made, top, keys),
    )  # fmt: skip


def _arm_tries(
    made: Study, top: float, keys: dict[str, str]
) -> tuple[tuple[str, float | tuple[float, ...]], ...]:
    """A longer arm, a nearer pivot, a lower top angle: each as the geometry asks."""
    if not made.rack.seats:
        return ()
    from flatpack.mechanism.prop import pivot_at, upright

    low = min(s.low.y for s in made.rack.seats)
    lean = math.cos(math.radians(made.motion.least_lean))
    arm = math.ceil((pivot_at(made.prop, top).y - low) / lean)
    turn = math.radians(top)
    reach = made.prop.arm * lean + low - made.prop.pivot.y * math.cos(turn)
    tries: list[tuple[str, float | tuple[float, ...]]] = []
    if "arm" in keys:
        tries.append((keys["arm"], float(arm)))
    if "pivot_x" in keys:
        tries.append((keys["pivot_x"], float(math.floor(reach / math.sin(turn)))))
    highest = upright(made.prop, low + made.prop.arm * (lean - 1.0))
    if "angles" in keys and highest is not None:
        lower = tuple(min(a, math.floor(highest)) for a in made.motion.wanted)
        tries.append((keys["angles"], lower))
    return tuple(tries)


def _off_angle(
    made: Study, number: int, stop: Stop, angle: float, keys: dict[str, str]
) -> Iterator[Finding]:
    off = stop.angle - angle
    if abs(off) > ANGLE:
        from flatpack.mechanism.prop import pivot_at

        wanted = sorted(made.motion.wanted)
        arms = [
            math.dist(pivot_at(made.prop, a), s.rod)
            for a, s in zip(wanted, made.found.stops, strict=True)
        ]
        arm, mean = arms[number - 1], sum(arms) / len(arms)
        yield Finding(
            "stop-angle", "warning", f"notch {number}",
            f"the {made.motion.panel} comes to {stop.angle:.1f}°, {abs(off):.1f}° "
            f"{'over' if off > 0.0 else 'under'} the {angle:g}° wanted",
            round(stop.angle, 2), angle, "degrees",
            remedy=f"an arm of {arm:.1f} from hole to hole would bring this stop to {angle:g}°",
            tries=tuple((keys["arm"], round(a, 1)) for a in (mean, arm) if "arm" in keys),
        )  # fmt: skip


def _lean(made: Study, top: Stop, keys: dict[str, str]) -> Iterator[Finding]:
    least = made.motion.least_lean
    if top.lean < least - 0.05:
        yield Finding(
            "arm-upright", "warning", "arms",
            f"at the highest stop the arms lean {top.lean:.1f}° from upright, wanted {least:g}",
            round(top.lean, 2), least, "degrees", PRACTICE,
            tries=_arm_tries(made, top.angle, keys),
        )  # fmt: skip


def check_hold(setting: Setting) -> Iterator[Finding]:
    """Each stop holds the rod between the faces it touches, as drawn and as made."""
    made = setting.study
    if made is None:
        return
    for number, (held, spread, knock) in enumerate(
        zip(made.holds, made.spreads, made.knocks, strict=True), 1
    ):
        part = f"notch {number}"
        if not held.held:
            yield Finding(
                "not-held", "fault", part,
                f"the thrust leaves the notch by {-held.margin:.1f}°; friction of "
                f"{held.friction:.2f} would be needed to hold the {made.motion.panel} at "
                f"{held.angle:.1f}°",
                round(held.margin, 2), 0.0, "degrees",
                remedy="an upright or undercut stop face, or a longer arm",
            )  # fmt: skip
            continue
        if not spread.held:
            yield Finding(
                "not-held-as-made", "warning", part,
                f"with every measure {made.motion.tolerance:g} mm off at worst, the thrust may "
                f"leave the notch (margin {spread.margin:.1f}°)",
                round(spread.margin, 2), 0.0, "degrees",
            )  # fmt: skip
        if not knock.captured:
            yield Finding(
                "knocked-out", "warning", part,
                f"a knock of {knock.size:g} mm frees the rod; the {made.motion.panel} drops "
                f"{knock.drop:.0f}°",
                knock.size, None, "mm", PRACTICE, "deeper notches",
            )  # fmt: skip


def check_hinge(setting: Setting) -> Iterator[Finding]:
    """The hinge itself opens far enough for the whole travel."""
    made = setting.study
    if made is None or made.path is None:
        return
    if made.path.over > made.hinge_limit:
        yield Finding(
            "hinge-range", "fault", "hinges",
            f"the hinge stops at {made.hinge_limit:.0f}° of lift, the {made.motion.panel} needs "
            f"{made.path.over:.1f}° to pass its last tooth",
            round(made.path.over, 2), made.hinge_limit, "degrees",
            remedy="a hinge that opens further past flat",
        )  # fmt: skip
    met = math.inf if made.joint is None else largest_angle(made.joint)
    if met < made.path.over:
        yield Finding(
            "hinge-gap", "fault", "hinge joint",
            f"the slats at the hinge meet at {met:.1f}°, the {made.motion.panel} needs "
            f"{made.path.over:.1f}° to pass its last tooth",
            round(met, 2), round(made.path.over, 2), "degrees",
            remedy=_gap_words(made),
            tries=_gap_tries(made),
        )  # fmt: skip


def _gap_tries(made: Study) -> tuple[tuple[str, float | tuple[float, ...]], ...]:
    key = dict(made.motion.keys).get("gap")
    return () if key is None else ((key, _gap_needed(made)),)


def _gap_needed(made: Study) -> float:
    """Least whole mm of gap with 1 mm to spare; the axis stays as far from the back slat."""
    from flatpack.frozen import replace

    assert made.path is not None
    assert made.joint is not None
    off = made.joint.gap - made.joint.axis_from_fixed
    gap = float(math.ceil(made.joint.gap))
    while gap < 200.0:
        tried = replace(made.joint, gap=gap - 1.0, axis_from_fixed=max(gap - 1.0 - off, 0.0))
        if largest_angle(tried) >= made.path.over:
            break
        gap += 1.0
    return gap


def _gap_words(made: Study) -> str:
    """What a wider gap, a moved axis and rounded arrises each would need."""
    from flatpack.mechanism.hinge_joint import joint_remedies

    assert made.path is not None
    assert made.joint is not None
    said = [
        f"{cure.cure}: {cure.value:.1f}"
        for cure in joint_remedies(made.path.over, made.joint)
        if cure.enough
    ]
    return "; or ".join(said)


def check_release(setting: Setting) -> Iterator[Finding]:
    """A person can let it down: the rod comes free, with room for a hand."""
    made = setting.study
    if made is None:
        return
    for number, one in enumerate(made.releases, 1):
        if one.clears is None:
            yield Finding(
                "no-release", "fault", f"notch {number}",
                f"the rod can't be lifted out of the stop at {one.degrees:.0f}°",
                remedy="a stop face that doesn't lean over the rod so far",
            )  # fmt: skip
    for number, room in enumerate(made.rooms, 1):
        if room.room < HAND_ROOM:
            yield Finding(
                "hand-room", "warning", f"notch {number}",
                f"only {room.room:.0f} mm round the rod for a hand, next to {room.nearest}",
                round(room.room, 1), HAND_ROOM, "mm", PRACTICE,
            )  # fmt: skip
    seen: dict[tuple[str, str], tuple[float, float]] = {}
    for trap in made.traps:
        if trap.rising:
            low, high = seen.get((trap.first, trap.second), (math.inf, -math.inf))
            angles = (trap.start, trap.end)
            seen[trap.first, trap.second] = (min(low, *angles), max(high, *angles))
    for (first, second), (start, end) in sorted(seen.items()):
        yield Finding(
            "finger-trap", "warning", f"{first} / {second}",
            f"the gap closes through 7 to 18 mm between {start:.0f}° and {end:.0f}°: keep fingers "
            f"away while the {made.motion.panel} moves",
            None, None, "mm", TRAPS,
        )  # fmt: skip
