"""Drills and tools that the features and fasteners call for."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.holes import size_of
from flatpack.drawings.lists import made
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.notch_bores import is_rod, seat, to_drill
from flatpack.drawings.operations import distinct_features
from flatpack.drawings.page import Table
from flatpack.drawings.settings import Settings
from flatpack.model import Assembly, Feature, Joint, Part
from flatpack.wording import english as words
from flatpack.wording import english_notches as notches

Found = tuple[PartGroup, ...]
_UPRIGHT = ("bolt", "pivot", "rod", "barrel")
"""Fits whose holes must run square through the board."""


def drill_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """Each drill and diameter once, with what it is for and how many holes it makes."""
    uses: dict[tuple[str, float], dict[str, None]] = {}
    holes: dict[tuple[str, float], int] = {}
    for group in found:
        for feature in _drilled(group):
            kind, size = _drill(group.part, feature), size_of(feature)
            if kind is None or size is None:
                continue
            key = (kind, round(size, 3))
            of_hole = str(getattr(feature, "fit", "")) or words.OPERATIONS[feature.operation]
            use = notches.BORE_USE if is_rod(feature) else of_hole
            uses.setdefault(key, {})[use] = None
            holes[key] = holes.get(key, 0) + group.count
    rows = tuple((kind, size, "; ".join(uses[kind, size]), holes[kind, size])
                 for kind, size in sorted(uses))  # fmt: skip
    return made("drills", words.DRILLS_HEADER, rows)


def _drilled(group: PartGroup) -> Iterator[Feature]:
    return (to_drill(group.part, feature) for feature in distinct_features(group))


def _drill(part: Part, feature: Feature) -> str | None:
    """What a feature is drilled with; a notch only where its seat is round."""
    bored = is_rod(feature) and seat(part, feature) is not None
    return notches.BORE_DRILL if bored else words.DRILL_KINDS.get(feature.operation)


def tool_list(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """Tools needed, in the order of use."""
    rows = tuple(_tools(assembly, found))
    return made("tools", words.TOOLS_HEADER, rows)


def _tools(assembly: Assembly, found: Found) -> Iterator[tuple[str, str]]:
    needed = _needed(assembly, found)
    for key, (tool, use) in words.TOOLS.items():
        if key == "spanner":
            yield from ((tool.format(size), use) for size in _sizes(assembly, "nut"))
        elif key == "key":
            yield from ((tool.format(size), use) for size in _knock_down(assembly))
        elif key in needed:
            yield tool, use


def _needed(assembly: Assembly, found: Found) -> set[str]:
    features = [f for g in found for f in g.part.features]
    kinds = {f.operation for f in features}
    fits = {str(getattr(f, "fit", "")) for f in features}
    drives = {f.kind for f in assembly.fasteners}
    segments = (s for g in found for o in (g.part.outline, *g.part.openings) for s in o)
    curved = any(s.bulge for s in segments)
    asked = {
        "saw": True,
        "measure": True,
        "eyes": True,
        "bevel": "bevel" in kinds,
        "bar-saw": bool(assembly.bars),
        "drill": bool(kinds - {"bevel"} or drives),
        "jig": "pocket-hole" in kinds,
        "sink": "countersink" in kinds,
        "bore": "counterbore" in kinds,
        "stop": any(f.depth is not None for f in features),
        "upright": any(word in fit for fit in fits for word in _UPRIGHT),
        "curve": curved or "thin-line" in kinds or any(g.part.openings for g in found),
        "round": "arris" in kinds or any(g.part.arris for g in found),
        "driver": "pocket screw" in drives,
        "clamps": bool(drives) or any(not _by_shape(assembly, joint) for joint in assembly.joints),
        "mallet": "coach bolt" in drives,
        "block": bool(assembly.fits),
    }
    return {key for key, wanted in asked.items() if wanted}


def _by_shape(assembly: Assembly, joint: Joint) -> bool:
    """True for a joint that holds by its shape, without glue."""
    fitted = any(fit.joint == joint.key for fit in assembly.fits)
    return fitted and not getattr(joint, "glue", False)


def _sizes(assembly: Assembly, word: str) -> tuple[str, ...]:
    """Threads of nuts that a spanner turns; a barrel nut is held by its slot."""
    found = {
        h.size
        for h in assembly.hardware
        if word in h.item.lower() and "barrel" not in h.item.lower()
    }
    return tuple(sorted(found))


def _knock_down(assembly: Assembly) -> tuple[str, ...]:
    found = {f.item for f in assembly.fasteners if f.kind in ("barrel nut bolt", "insert bolt")}
    return tuple(sorted(found))
