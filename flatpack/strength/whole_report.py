"""Checks of a piece that is looked at as one frame in space."""

from __future__ import annotations

from collections.abc import Sequence

from flatpack.geometry import Vec
from flatpack.strength import member_checks, whole_joints, whole_members, whole_stability
from flatpack.strength.frames import UnstableError
from flatpack.strength.gathered import Gathered
from flatpack.strength.records import EC5, Check
from flatpack.strength.setting import Setting
from flatpack.strength.use_cases import Use, own_weight
from flatpack.strength.uses import uses
from flatpack.strength.whole import Whole, whole
from flatpack.strength.whole_solving import solved

NOTES = (
    "The piece is one frame in space: parts are beams along their longer side, fasteners are as "
    "stiff as EC5's K_ser along and across; a joint that is pried open is held by its fastener and "
    "the far edge of its faces.",
    "Feet are held up by the ground and share a push alike; what only lies on something is let go "
    "where it would have to pull.",
    "A load on a rectangle is shared by the boards under it by area, not by their stiffness.",
)


def gathered(setting: Setting) -> Gathered | None:
    """All checks; None where what the loads are for wasn't found."""
    cases = uses(setting)
    if not cases:
        return None
    found = Gathered(notes=NOTES)
    found.cases += dict.fromkeys(use.loading.case for use in cases)
    parts = setting.assembly.parts.values()
    found.checks += (member_checks.unknown(setting, p) for p in parts if not _known(setting, p.key))
    found.checks += whole_stability.checks_of(setting, cases)
    own = own_weight(setting, setting.loads.gamma_dead)
    places: dict[str, list[Vec]] = {}
    for push in (*own, *(p for use in cases for p in use.pushes)):
        places.setdefault(push.part, []).append(push.place)
    frame = whole(setting, places)
    if frame is None:
        found.checks += _every(setting, "nothing of it stands, or a material has no values")
        return found
    _judged(setting, frame, cases, found)
    return found


def _judged(setting: Setting, frame: Whole, cases: Sequence[Use], found: Gathered) -> None:
    found.checks += (_loose(key) for key in frame.loose)
    try:
        states = solved(frame, cases, own_weight(setting, setting.loads.gamma_dead))
    except UnstableError:
        found.checks += _every(setting, "as modelled, something of it moves without strain")
        return
    checks, drawn = whole_members.checks_of(setting, frame, states)
    found.checks += checks
    found.diagrams += drawn
    found.checks += whole_joints.checks_of(setting, states)


def _known(setting: Setting, key: str) -> bool:
    return setting.stuff(setting.part(key)).row is not None


def _loose(key: str) -> Check:
    why = "no joint or face ties it to what stands on the ground"
    return Check(key, "part", "loads", "every case", None, "", "5.4", EC5, why)


def _every(setting: Setting, why: str) -> list[Check]:
    return [
        Check(key, "part", "frame", "every case", None, "", "5.4", EC5, why)
        for key in setting.assembly.parts
    ]
