"""A piece on crossed legs: it folds, its seat holds it open, it stands, and what pinches.

The room of its parts is judged in 3D folded flat and at stations on the way, beside the closed
forms, which hold for the whole way.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, sin

from flatpack.checks.limits import PRACTICE
from flatpack.checks.setting import Setting
from flatpack.checks.space import check_space
from flatpack.finding import Finding
from flatpack.mechanism.scissor import (
    Scissor,
    bar_gap,
    hold,
    pinches,
    pull,
    rail_gap,
    scissor_of,
    standing,
    tip_reach,
)
from flatpack.model import Folding, folded

CLEARANCE = 1.0
"""Between parts that pass each other while it folds, mm (common practice, no source)."""
INSIDE = 60.0
"""From the seat's edge to where a person's weight stands at worst, mm: loading point of EN 1022
(stability of seating), from memory."""
PERSON = 1100.0
"""Weight judged, N: a user of 110 kg, scope of EN 1022."""
STATIONS = (0.85, 0.6, 0.35, 0.15, 0.0)
"""Where on the way the room is judged in 3D, in shares of the open angle."""
TRAPS = (
    "EN 581-1, risk gap of 7 to 18 mm during movement, as described by a test institute; "
    "its 2017 edition accepts adjustment under the user's own control"
)


def check_folding(setting: Setting) -> Iterator[Finding]:
    """Everything about folding; nothing for a piece that doesn't."""
    f = setting.assembly.folding
    if f is None:
        return
    s = scissor_of(f)
    yield from _folds(f, s)
    yield from _holds(f, s)
    yield from _stands(f, s)
    yield from _fingers(s)
    yield from _room(setting, f)


def _folds(f: Folding, s: Scissor) -> Iterator[Finding]:
    """The rear bar passes the short legs' tops; the low rail leaves them room when open."""
    for gap, what, key in (
        (bar_gap(s, 0.0), "the rear top bar meets the inner legs' tops", "step"),
        (rail_gap(s, f.angle), "the low rail meets the inner legs when open", "rail"),
    ):
        if gap < CLEARANCE:
            yield Finding(
                "folds-not", "fault" if gap < 0.0 else "warning", "legs",
                f"{what}: {gap:.1f} between them, wanted {CLEARANCE:g}",
                round(gap, 2), CLEARANCE, "mm", PRACTICE,
                f"change {dict(f.keys).get(key, key)} so that it gains {CLEARANCE - gap:.1f} mm",
            )  # fmt: skip


def _shares(f: Folding, s: Scissor) -> tuple[float, float]:
    """Where the weight stands at worst, at either edge, in shares from front to rear bar."""
    first = -f.short * sin(radians(s.legs.lean))
    return (f.front + INSIDE - first) / f.apart, (f.rear - INSIDE - first) / f.apart


def _holds(f: Folding, s: Scissor) -> Iterator[Finding]:
    """The pull between the bars stays in the slots, and no load lifts the seat off a bar."""
    worst = min(hold(s, pull(s.legs, PERSON, share)) for share in (0.25, 0.5, 0.75))
    if worst < 0.0:
        yield Finding(
            "stop-not-held", "fault", "seat",
            f"the bars' pull leaves the slots by {-worst:.1f}°: they are too shallow to hold the "
            "legs open",
            round(worst, 2), 0.0, "degrees", "statics of a rigid body",
            f"deeper slots: change {dict(f.keys).get('slot', 'slot')}",
        )  # fmt: skip
    for edge, share in zip(("front", "rear"), _shares(f, s), strict=True):
        load = pull(s.legs, PERSON, share)
        least = min(load.front, load.rear)
        if least < 0.0:
            yield Finding(
                "seat-lifts", "warning", "seat",
                f"a person {INSIDE:g} from the {edge} edge lifts the seat off the other bar with "
                f"{-least:.0f} N",
                round(least, 1), 0.0, "N", "EN 1022 (stability of seating), loading point from "
                "memory",
                f"bars nearer the edges: change {dict(f.keys).get('apart', 'apart')}",
                _angles(f, -1.0),
            )  # fmt: skip


def _angles(f: Folding, way: float) -> tuple[tuple[str, float | tuple[float, ...]], ...]:
    """Wider or lesser angles of the legs to try, the nearest first."""
    key = dict(f.keys).get("angle")
    return () if key is None else tuple((key, f.angle + way * by) for by in (1.0, 2.0, 4.0, 8.0))


def _stands(f: Folding, s: Scissor) -> Iterator[Finding]:
    """The weight stands between the feet, wherever on the seat it is."""
    for edge, reach in (("front", -f.front), ("rear", f.rear)):
        spare = tip_reach(s, reach, INSIDE)
        if spare < 0.0:
            middle = tip_reach(s, reach, reach / 2.0) < 0.0
            yield Finding(
                "spread-narrow", "fault" if middle else "warning", "legs",
                f"a person {INSIDE:g} from the {edge} edge tips it: the weight stands "
                f"{-spare:.0f} mm outside the feet, {standing(s):.0f} over both",
                round(spare, 1), 0.0, "mm", "EN 1022 (stability of seating), loading point from "
                "memory",
                f"spread the legs further: change {dict(f.keys).get('angle', 'angle')}",
                _angles(f, 1.0),
            )  # fmt: skip


def _fingers(s: Scissor) -> Iterator[Finding]:
    """Gaps that close on fingers, and the legs themselves, which shear all the way."""
    yield Finding(
        "finger-trap", "warning", "outer legs / inner legs",
        "the legs pass each other like scissors from open to folded flat: hold them by their "
        "outer faces",
        None, None, "mm", TRAPS,
    )  # fmt: skip
    for one in pinches(s):
        yield Finding(
            "finger-trap", "warning", f"{one.first} / {one.second}",
            f"the gap closes through 7 to 18 mm between {one.start:.0f}° and {one.end:.0f}°: keep "
            "fingers away while the legs move",
            None, None, "mm", TRAPS,
        )  # fmt: skip


def _room(setting: Setting, f: Folding) -> Iterator[Finding]:
    """No two parts share room on the way, nor folded flat with the seat stowed."""
    for share in STATIONS:
        angle = f.angle * share
        pose = Setting(assembly=folded(setting.assembly, angle), limits=setting.limits)
        where = "folded flat" if share == 0.0 else f"with the legs {angle:.0f}° apart"
        for found in check_space(pose):
            yield found._replace(message=f"{where}: {found.message}")
