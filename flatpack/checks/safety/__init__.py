"""Safety of the finished piece and of making it: what can be judged from the design, told plainly.

Each check is a function of `Asked`; `SAFETY` names them all.  They give warnings and notes, never
faults: whether a piece may be let out or sold is for its maker and the local rules to settle.
Gaps of moving parts are judged by the study of the moving back (`finger-trap`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType

from flatpack.checks.safety.arrises import check_arrises
from flatpack.checks.safety.asked import Asked
from flatpack.checks.safety.cautions import check_cautions
from flatpack.checks.safety.gaps import check_gaps
from flatpack.checks.safety.holes import check_holes
from flatpack.checks.safety.lifting import check_lifting
from flatpack.checks.safety.seasons import check_seasons
from flatpack.checks.safety.standing import check_standing
from flatpack.finding import Finding, in_order

SAFETY: Mapping[str, Callable[[Asked], Iterable[Finding]]] = MappingProxyType(
    {
        "gaps": check_gaps,
        "holes": check_holes,
        "arrises": check_arrises,
        "standing": check_standing,
        "lifting": check_lifting,
        "seasons": check_seasons,
        "cautions": check_cautions,
    }
)
"""Every check of safety."""


def findings(asked: Asked, only: Iterable[str] = SAFETY) -> tuple[Finding, ...]:
    """All findings of the checks named (all of them unless told), worst first.

    Of loose parts nothing is known but that they are to be made: only cautions are told.
    """
    names = [name for name in only if not asked.assembly.loose or name == "cautions"]
    return in_order([finding for name in names for finding in SAFETY[name](asked)])


__all__ = ["SAFETY", "Asked", "findings"]
