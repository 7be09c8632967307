"""Wood about each hole: inside the outline, walls, edge and end distance, floors.

|<- end distance ->|              end and edge distance: from the hole's centre, along and
|                  (+)  ---       across the grain, to where the outline is met
|                        | edge   wall: shortest way to the outline, less the radius
'-----------------------'
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from flatpack.checks.bored import Bored, known
from flatpack.checks.limits import Limit, Limits
from flatpack.checks.setting import DRAWN, Setting, alike
from flatpack.finding import Finding, Severity
from flatpack.geometry.outline import is_rectangle
from flatpack.geometry.polygon import crossings, spot
from flatpack.model import Part, is_shaped

SPLITS = "solid wood splits there; "


def check_walls(setting: Setting) -> Iterator[Finding]:
    """Every hole lies in its part with enough wood about it; of like findings the worst is told."""
    kinds: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in _each_hole(setting):
        kinds.setdefault((finding.part, finding.code, finding.severity), []).append(finding)
    for found in kinds.values():
        worst = max(found, key=_shortfall)
        more = "" if len(found) == 1 else f"; {len(found)} such holes, this is the worst"
        yield worst._replace(message=worst.message + more)


def _shortfall(finding: Finding) -> float:
    if finding.limit is None or finding.measured is None:
        return 0.0
    return finding.limit - finding.measured


def _each_hole(setting: Setting) -> Iterator[Finding]:
    for part, keys in setting.distinct:
        for feature in part.features:
            if not known(feature):
                text = f"{feature.callout()}: the checks don't know this kind of work"
                yield Finding("walls", "not done", part.key, text + alike(keys))
        for hole in setting.bored[part.key]:
            where = _origin(setting, part, hole)
            for finding in _of_hole(setting, part, hole, keys):
                remedy = "; ".join(filter(None, (finding.remedy, where)))
                yield finding._replace(remedy=remedy)


def _of_hole(setting: Setting, part: Part, hole: Bored, keys: tuple[str, ...]) -> Iterator[Finding]:
    if not _inside(setting, part, hole):
        yield _say("hole-outside", "fault", part, hole, "runs out of the outline", keys)
    elif hole.kind == "pocket":
        yield from _pocket(setting, part, hole, keys)
    elif hole.kind == "edge":
        yield from _edge_hole(setting, part, hole, keys)
    else:
        yield from _face_hole(setting, part, hole, keys)


def _origin(setting: Setting, part: Part, hole: Bored) -> str:
    """The joint in the parameter file that a hole comes from, with the keys that move it."""
    line = setting.users.get((part.key, hole.number))
    fastener = setting.fasteners.get(line.key) if line is not None else None
    return "" if fastener is None else setting.assembly.origins.get(fastener.joint, "")


def _heights(part: Part, hole: Bored) -> tuple[float, ...]:
    """Heights at which the wood about a hole counts: its mouth, or both of its ends.

    An edge hole starts, and a pocket opens, at one height; between two a slanting cut runs evenly.
    """
    if hole.kind in ("edge", "pocket"):
        return (hole.mouth.z,)
    return (hole.mouth.z, hole.bottom.z)


def _inside(setting: Setting, part: Part, hole: Bored) -> bool:
    around = setting.around(part, _heights(part, hole))
    if hole.kind in ("face", "sink"):
        at = spot(hole.feature.at)
        return around.contains(at) and _wall(setting, part, hole) >= -DRAWN
    if hole.kind == "edge" and is_shaped(part):
        ends = [spot(end[:2]) for end in (hole.mouth, hole.bottom)]
        return all(around.covers(end) for end in ends)
    return bool(around.covers(setting.footprint(part, hole)))


def _wall(setting: Setting, part: Part, hole: Bored) -> float:
    """Shortest way from a hole to the part's boundary, mm."""
    if hole.kind in ("face", "sink"):
        return (
            float(_rim(setting, part, hole).distance(spot(hole.feature.at))) - hole.diameter / 2.0
        )
    return float(_rim(setting, part, hole).distance(setting.footprint(part, hole)))


def _rim(setting: Setting, part: Part, hole: Bored) -> Any:
    """The part's boundary where the hole stands: of the smaller face where it goes through."""
    return setting.rim(part, *_heights(part, hole))


def use(hole: Bored) -> str:
    """What the hole is for, from the fit that sized it: bolt, bar, screw, or other."""
    fit = str(getattr(hole.feature, "fit", ""))
    for word in ("bolt", "pivot", "rod", "screw"):
        if word in fit:
            return {"pivot": "bolt"}.get(word, word)
    return "other"


def _face_hole(
    setting: Setting, part: Part, hole: Bored, keys: tuple[str, ...]
) -> Iterator[Finding]:
    limits = setting.limits
    yield from _floor(limits, part, hole, keys)
    if hole.kind == "sink":
        return
    wall = _wall(setting, part, hole)
    kind = use(hole)
    least = limits.pilot_wall_least if kind == "screw" else limits.wall_least
    if wall < least.value:
        yield _short("hole-wall", "fault", part, hole, "wall to the edge", wall, least, keys)
    elif kind != "screw" and wall < limits.round_end_wanted.value and _at_round_end(part, hole):
        yield _short(
            "round-end-wall", "warning", part, hole, "wall left at the rounded end", wall,
            limits.round_end_wanted, keys,
        )  # fmt: skip
    if kind in ("bolt", "screw"):
        line = setting.users.get((part.key, hole.number))
        d = hole.diameter if line is None else line.diameter
        yield from _distances(setting, part, hole, d, keys)


def _floor(limits: Limits, part: Part, hole: Bored, keys: tuple[str, ...]) -> Iterator[Finding]:
    if not hole.blind or hole.feature.operation == "countersink":
        return
    floor = part.thickness - abs(hole.mouth.z - hole.bottom.z)
    yield from _floor_of(limits, part, hole, floor, keys)


def _floor_of(
    limits: Limits, part: Part, hole: Bored, floor: float, keys: tuple[str, ...]
) -> Iterator[Finding]:
    if floor < limits.floor_least.value:
        yield _short(
            "thin-floor", "fault", part, hole, "wood under it", floor, limits.floor_least, keys
        )
    elif floor < limits.floor_wanted.value:
        yield _short(
            "thin-floor", "warning", part, hole, "wood under it", floor, limits.floor_wanted, keys
        )


def _at_round_end(part: Part, hole: Bored) -> bool:
    """True when the hole stands at the centre of one of the outline's arcs."""
    at = hole.feature.at
    return any(s.bulge > 0.0 and math.dist(s.centre, at) < s.radius / 2.0 for s in part.outline)


def _distances(
    setting: Setting, part: Part, hole: Bored, d: float, keys: tuple[str, ...]
) -> Iterator[Finding]:
    """Edge and end distances from the hole's centre, in diameters of the fastener."""
    limits = setting.limits
    end, edge = _to_end_and_edge(setting, part, hole)
    bolt = use(hole) == "bolt"
    end_limit = limits.bolt_end_d if bolt else limits.screw_end_d
    edge_limit = limits.bolt_edge_d if bolt else limits.screw_edge_d
    severity: Severity = "warning" if bolt else "note"
    if edge < edge_limit.value * d - DRAWN:
        yield _in_diameters(
            "edge-distance", severity, part, hole, "edge", edge, d, edge_limit, keys
        )
    if end < end_limit.value * d - DRAWN:
        yield _in_diameters("end-distance", severity, part, hole, "end", end, d, end_limit, keys)
    elif bolt:
        yield from _loaded_end(limits, part, hole, end, d, keys)


def _loaded_end(
    limits: Limits, part: Part, hole: Bored, end: float, d: float, keys: tuple[str, ...]
) -> Iterator[Finding]:
    """Table 8.4, a3,t: the greater of 7 d and 80 mm where the load pulls towards the end."""
    wanted = max(limits.bolt_loaded_end_d.value * d, limits.bolt_loaded_end.value)
    if end < wanted - DRAWN:
        yield Finding(
            "loaded-end-distance", "note", part.key,
            f"{_where(hole)}: centre to end {end:.1f}; wanted {wanted:.0f} where a load pulls "
            f"towards that end{alike(keys)}",
            round(end, 3), wanted, "mm", limits.bolt_loaded_end_d.source,
        )  # fmt: skip


def _to_end_and_edge(setting: Setting, part: Part, hole: Bored) -> tuple[float, float]:
    """Distances along and across the grain to where the boundary is first met."""
    at = hole.feature.at
    if is_rectangle(part.outline) and not part.openings and not part.planes:
        x0, y0, x1, y1 = part.outline.bounds
        return min(at.x - x0, x1 - at.x), min(at.y - y0, y1 - at.y)
    far = part.length + part.width
    edge = _rim(setting, part, hole)
    along, across = (
        min(
            (d for way in (far, -far)
             for d in crossings(edge, at, (at.x + dx * way, at.y + dy * way))),
            default=0.0,
        )
        for dx, dy in ((1, 0), (0, 1))
    )  # fmt: skip
    return along, across


def _edge_hole(
    setting: Setting, part: Part, hole: Bored, keys: tuple[str, ...]
) -> Iterator[Finding]:
    limits = setting.limits
    off = _rim(setting, part, hole).distance(spot(hole.mouth[:2]))
    if off > limits.in_line.value:
        yield _say("edge-hole-mouth", "fault", part, hole, "doesn't start at the edge", keys)
    ends = (hole.mouth.z, hole.bottom.z)
    wall = min(*ends, *(part.thickness - z for z in ends)) - hole.diameter / 2.0
    if wall < limits.pilot_wall_least.value:
        yield _short(
            "edge-hole-wall", "fault", part, hole, "wall to the face", wall,
            limits.pilot_wall_least, keys,
        )  # fmt: skip


def _pocket(setting: Setting, part: Part, hole: Bored, keys: tuple[str, ...]) -> Iterator[Finding]:
    limits = setting.limits
    feature: Any = hole.feature
    leaves = setting.rim(part, hole.bottom.z)
    if leaves.distance(spot(feature.exit)) > limits.in_line.value:
        yield _say("pocket-exit", "fault", part, hole, "doesn't leave at the edge", keys)
    if feature.shoulder_line >= feature.far:
        yield _say("pocket-shoulder", "fault", part, hole, "has its shoulder past its mouth", keys)
    slope = math.radians(feature.slope)
    deepest = (
        part.thickness / 2.0
        - feature.shoulder * math.sin(slope)
        + feature.diameter / 2.0 * math.cos(slope)
    )
    yield from _floor_of(limits, part, hole, part.thickness - deepest, keys)
    wall = _wall(setting, part, hole)
    if wall < limits.pilot_wall_least.value:
        yield _short(
            "pocket-wall", "fault", part, hole, "wall beside the pocket", wall,
            limits.pilot_wall_least, keys,
        )  # fmt: skip


def _where(hole: Bored) -> str:
    return f"{hole.feature.callout()} at ({hole.feature.at.x:.1f}, {hole.feature.at.y:.1f})"


def _say(
    code: str, severity: Severity, part: Part, hole: Bored, text: str, keys: tuple[str, ...]
) -> Finding:
    return Finding(code, severity, part.key, f"{_where(hole)} {text}{alike(keys)}")


def _short(
    code: str, severity: Severity, part: Part, hole: Bored, what: str,
    measured: float, limit: Limit, keys: tuple[str, ...],
) -> Finding:  # fmt: skip
    text = f"{_where(hole)}: {what} {measured:.1f}, wanted {limit.value:g}{alike(keys)}"
    return Finding(
        code, severity, part.key, text, round(measured, 3), limit.value, "mm", limit.source,
        f"give it {limit.value - measured:.1f} mm more",
    )  # fmt: skip


def _in_diameters(
    code: str, severity: Severity, part: Part, hole: Bored, what: str,
    measured: float, d: float, limit: Limit, keys: tuple[str, ...],
) -> Finding:  # fmt: skip
    wanted = limit.value * d
    text = (
        f"{_where(hole)}: centre to {what} {measured:.1f}, "
        f"wanted {wanted:.1f} ({limit.value:g} d){alike(keys)}"
    )
    return Finding(
        code, severity, part.key, text, round(measured, 3), round(wanted, 3), "mm", limit.source,
        f"move it {wanted - measured:.1f} mm further in" if severity == "warning" else "",
    )  # fmt: skip
