"""Checks of a piece in the pose given, one subject a file; a check yields findings, never raises.

A check is a function of a `Setting` (the piece and its limits); `CHECKS` names them all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType

from flatpack.checks.alignment import check_alignment, check_orphans
from flatpack.checks.boarding import check_boarding
from flatpack.checks.bolts import check_bolts
from flatpack.checks.comfort import check_comfort
from flatpack.checks.drivers import check_drivers
from flatpack.checks.folding import check_folding
from flatpack.checks.going_home import check_fits
from flatpack.checks.hands import check_hands, marks_coincide
from flatpack.checks.limits import Limit, Limits
from flatpack.checks.mates import check_mates
from flatpack.checks.moving import check_hinge, check_hold, check_release, check_stops
from flatpack.checks.notches import check_notches
from flatpack.checks.outlines import check_boards, check_outlines
from flatpack.checks.remarks import check_remarks
from flatpack.checks.rolling import check_rolling
from flatpack.checks.screws import check_screws
from flatpack.checks.setting import Setting
from flatpack.checks.shop import check_shop
from flatpack.checks.slants import check_slants
from flatpack.checks.slats import check_slats
from flatpack.checks.sliding import check_assembling, check_locked
from flatpack.checks.space import check_space
from flatpack.checks.travel import check_travel
from flatpack.checks.walls import check_walls
from flatpack.checks.webs import check_webs
from flatpack.finding import Finding, in_order
from flatpack.mechanism.study import Study
from flatpack.model import Assembly
from flatpack.profiles import Workshop

CHECKS: Mapping[str, Callable[[Setting], Iterable[Finding]]] = MappingProxyType(
    {
        "outlines": check_outlines,
        "boards": check_boards,
        "slants": check_slants,
        "walls": check_walls,
        "webs": check_webs,
        "screws": check_screws,
        "bolts": check_bolts,
        "alignment": check_alignment,
        "orphans": check_orphans,
        "notches": check_notches,
        "mates": check_mates,
        "fits": check_fits,
        "assembling": check_assembling,
        "locked": check_locked,
        "hands": check_hands,
        "slats": check_slats,
        "boarding": check_boarding,
        "rolling": check_rolling,
        "comfort": check_comfort,
        "space": check_space,
        "drivers": check_drivers,
        "stops": check_stops,
        "hold": check_hold,
        "hinge": check_hinge,
        "travel": check_travel,
        "release": check_release,
        "folding": check_folding,
        "remarks": check_remarks,
    }
)
"""Every check that a piece in one pose is put through."""

PART_CHECKS = ("outlines", "boards", "walls", "webs", "remarks")
"""Those that judge a part by itself, and remarks: the only ones for loose parts."""

POSE_CHECKS = ("space",)
"""Those whose answer may change when a piece moves."""


def run(
    assembly: Assembly,
    limits: Limits | None = None,
    only: Iterable[str] = CHECKS,
    study: Study | None = None,
) -> tuple[Finding, ...]:
    """All findings of the checks named (all of them unless told), worst first."""
    setting = Setting(assembly, limits or Limits(), study)
    names = [name for name in only if not assembly.loose or name in PART_CHECKS]
    return in_order([finding for name in names for finding in CHECKS[name](setting)])


def for_shop(assembly: Assembly, shop: Workshop) -> tuple[Finding, ...]:
    """What the machine of the shop that cuts the piece can't do; nothing for a bench."""
    return tuple(check_shop(Setting(assembly, Limits()), shop))


__all__ = [
    "CHECKS", "POSE_CHECKS", "Limit", "Limits", "Setting", "for_shop", "marks_coincide", "run",
]  # fmt: skip
