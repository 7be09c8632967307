"""Screws: what they bite, wood left over the tip, and how near the tip comes to an edge or end.

A screw at a slope of a to the part it bites in gains cos a of depth for each millimetre of length,
and drifts sin a aside; so the remedy for a lack of m is m / cos a of length.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.checks.limits import Limit
from flatpack.checks.setting import Setting
from flatpack.finding import Finding, Severity
from flatpack.geometry import Vec
from flatpack.model import Fastener, Part, is_shaped, passage, sides


def check_screws(setting: Setting) -> Iterator[Finding]:
    """Bite, tip cover and tip's distance from the nearest edge or end, for every screw."""
    for f in setting.assembly.fasteners:
        if "screw" in f.kind:
            yield from _one(setting, f)
    yield from _jigs(setting)


def _jigs(setting: Setting) -> Iterator[Finding]:
    """The pocket-hole jig takes boards of this thickness."""
    told: set[tuple[str, float]] = set()
    for f in setting.assembly.fasteners:
        jig = getattr(setting.joints.get(f.joint), "jig", None)
        part = setting.assembly.parts.get(f.passes[0]) if f.passes else None
        if jig is None or part is None or (jig.name, part.thickness) in told:
            continue
        told.add((jig.name, part.thickness))
        if not jig.thinnest <= part.thickness <= jig.thickest:
            limit = jig.thinnest if part.thickness < jig.thinnest else jig.thickest
            yield Finding(
                "pocket-jig", "fault", part.key,
                f"{jig.name} takes boards from {jig.thinnest:g} to {jig.thickest:g}; "
                f"this one is {part.thickness:g}",
                part.thickness, limit, "mm", "the jig's profile", "choose another board or joint",
            )  # fmt: skip


def _one(setting: Setting, f: Fastener) -> Iterator[Finding]:
    limits = setting.limits
    part = setting.assembly.parts.get(f.passes[-1]) if f.passes else None
    if part is None:
        text = "bite and the place of its tip aren't known"
        yield Finding("screw", "not done", f.key, text)
        return
    bite, cover, aside = tip(f, part)
    grain = _slope(f, part)
    longer, shorter = "take a screw {:.1f} mm longer", "take a screw {:.1f} mm shorter"
    yield from _measure(
        f, "bite", f"bites {bite:.1f} in {part.key}", bite,
        limits.bite_least, limits.bite_wanted, grain, longer,
    )  # fmt: skip
    yield from _measure(
        f, "tip-cover", f"leaves {cover:.1f} of wood over its tip in {part.key}",
        cover, limits.tip_cover_least, limits.tip_cover_wanted, grain, shorter,
    )  # fmt: skip
    splits = " (solid wood splits there)" if part.board.solid else ""
    yield from _measure(
        f, "tip-end", f"ends {aside:.1f} from an edge or end of {part.key}{splits}",
        aside, limits.tip_end_least, limits.tip_end_wanted, 1.0,
        "move it {:.1f} mm further in, or take a shorter screw",
    )  # fmt: skip


def tip(f: Fastener, part: Part) -> tuple[float, float, float]:
    """Depth of the screw in a part, wood over its tip, and distance to the nearest edge or end, mm.

    A face counts as wood over the tip, also where a sloping screw drifts towards one.  Worked out
    from where the screw is and how long, not from what its joint says; the part counts as the box
    of its outline.
    """
    at = part.frame.local(f.start.plus(f.direction, f.length))
    way = part.frame.local_direction(f.direction)
    if is_shaped(part):
        return _in_shaped(part, at, way)
    x0, y0, x1, y1 = part.outline.bounds
    sides = ((x0, x1), (y0, y1), (0.0, part.thickness))
    main = max(range(3), key=lambda i: abs(way[i]))
    low, high = sides[main]
    behind, ahead = (at[main] - low, high - at[main])
    bite, cover = (behind, ahead) if way[main] > 0.0 else (ahead, behind)
    aside = [min(at[i] - sides[i][0], sides[i][1] - at[i]) for i in range(3)]
    if main != 2:
        cover = min(cover, aside[2])
    return bite, cover, min(aside[i] for i in (0, 1) if i != main)


def _in_shaped(part: Part, at: Vec, way: Vec) -> tuple[float, float, float]:
    """The same by the part's true edges: depths square to the planes that its way passes."""
    found = passage(part, at, way)
    within = [(plane, -plane.beyond(at)) for plane in sides(part)]
    ends = (found.entered, found.left)
    faces = min((depth for plane, depth in within[:2] if plane not in ends), default=math.inf)
    aside = min((depth for plane, depth in within[2:] if plane not in ends), default=math.inf)
    return -found.entered.beyond(at), min(-found.left.beyond(at), faces), aside


def _measure(
    f: Fastener, code: str, text: str, measured: float, least: Limit, wanted: Limit,
    gain: float, remedy: str,
) -> Iterator[Finding]:  # fmt: skip
    if measured >= wanted.value - 1e-9:
        return
    severity: Severity = "fault" if measured < least.value - 1e-9 else "warning"
    limit = least if severity == "fault" else wanted
    yield Finding(
        code, severity, f.key, f"{f.item} {f.size} {text}, wanted {limit.value:g}",
        round(measured, 3), limit.value, "mm", limit.source,
        remedy.format((limit.value - measured) / gain),
    )  # fmt: skip


def _slope(f: Fastener, part: Part) -> float:
    """Depth gained for each millimetre of length: cosine of the slope to its nearest axis."""
    return max(abs(n) for n in part.frame.local_direction(f.direction))
