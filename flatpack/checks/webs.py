"""Wood between two holes of one part, in depth too: holes apart, pockets clear of bolts."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from flatpack.checks.bored import Bored
from flatpack.checks.convex import gap
from flatpack.checks.footprint import room
from flatpack.checks.setting import Setting, alike
from flatpack.checks.walls import use
from flatpack.finding import Finding, Severity
from flatpack.model import Part

SAME_AXIS = 0.01
UPRIGHT = ("face", "sink", "slot")


def check_webs(setting: Setting) -> Iterator[Finding]:
    """Holes that don't belong together leave a web; bolts keep their distance."""
    for part, keys in setting.distinct:
        yield from _doubled(part, keys)
        holes = setting.bored[part.key]
        for a, b in _near(setting, part, setting.limits.web_wanted.value):
            if not _belong_together(a, b):
                yield from _web(setting, part, a, b, keys)
        yield from _bolts_apart(setting, part, holes, keys)


def _doubled(part: Part, keys: tuple[str, ...]) -> Iterator[Finding]:
    seen: set[object] = set()
    for feature in part.features:
        if feature.key() in seen:
            text = f"{feature.callout()} is worked twice at the same place{alike(keys)}"
            yield Finding("hole-doubled", "fault", part.key, text)
        seen.add(feature.key())


def _near(setting: Setting, part: Part, within: float) -> Iterator[tuple[Bored, Bored]]:
    holes = setting.bored[part.key]
    if len(holes) < 2:
        return
    around = np.array([setting.footprint(part, hole).bounds for hole in holes])
    low, high = around[:, :2] - within / 2.0, around[:, 2:] + within / 2.0
    meet = (low[:, None] <= high[None]).all(axis=2) & (low[None] <= high[:, None]).all(axis=2)
    for i, j in np.argwhere(np.triu(meet, 1)).tolist():
        yield holes[i], holes[j]


def _belong_together(a: Bored, b: Bored) -> bool:
    """True for a hole with its counterbore or countersink, and for a barrel nut on its bolt."""
    if a.kind in UPRIGHT and b.kind in UPRIGHT:
        return "sink" in (a.kind, b.kind) and math.dist(a.feature.at, b.feature.at) < SAME_AXIS
    fits = {str(getattr(hole.feature, "fit", "")) for hole in (a, b)}
    return fits == {"bolt in wood", "barrel nut in wood"} and _axes_cross(a, b)


def _axes_cross(a: Bored, b: Bored) -> bool:
    along, other = a.bottom.minus(a.mouth), b.bottom.minus(b.mouth)
    normal = along.cross(other)
    return abs(b.mouth.minus(a.mouth).dot(normal)) <= SAME_AXIS * normal.length


def web(setting: Setting, part: Part, a: Bored, b: Bored) -> float:
    """Wood between two holes, mm; negative when they run into each other."""
    if a.kind in UPRIGHT and b.kind in UPRIGHT:
        apart = float(setting.footprint(part, a).distance(setting.footprint(part, b)))
        above = max(min(b.mouth.z, b.bottom.z) - max(a.mouth.z, a.bottom.z),
                    min(a.mouth.z, a.bottom.z) - max(b.mouth.z, b.bottom.z), 0.0)  # fmt: skip
        return math.hypot(apart, above) if apart > 0.0 or above > 0.0 else -1.0
    return gap(room(part, a), room(part, b))


def _web(
    setting: Setting, part: Part, a: Bored, b: Bored, keys: tuple[str, ...]
) -> Iterator[Finding]:
    least, wanted = setting.limits.web_least, setting.limits.web_wanted
    measured = web(setting, part, a, b)
    if measured >= wanted.value:
        return
    limit, severity = (least, "fault") if measured < least.value else (wanted, "warning")
    told: Severity = "fault" if severity == "fault" else "warning"
    names = f"{_named(a)} and {_named(b)}"
    text = (
        f"{names} run into each other" if measured <= 0.0
        else f"{names}: {measured:.1f} of wood between them, wanted {limit.value:g}"
    )  # fmt: skip
    yield Finding(
        "pocket-fouls" if "pocket" in (a.kind, b.kind) else "thin-web", told, part.key,
        text + alike(keys), round(max(measured, 0.0), 3), limit.value, "mm", limit.source,
        f"move one of them {limit.value - max(measured, 0.0):.1f} mm or more",
    )  # fmt: skip


def _named(hole: Bored) -> str:
    return f"{hole.feature.callout()} at ({hole.feature.at.x:.1f}, {hole.feature.at.y:.1f})"


def _bolts_apart(
    setting: Setting, part: Part, holes: tuple[Bored, ...], keys: tuple[str, ...]
) -> Iterator[Finding]:
    limit = setting.limits.bolt_apart_d
    bolts = [hole for hole in holes if hole.kind == "face" and use(hole) == "bolt"]
    for i, a in enumerate(bolts):
        for b in bolts[i + 1 :]:
            apart = math.dist(a.feature.at, b.feature.at)
            wanted = limit.value * max(_across(setting, part, hole) for hole in (a, b))
            if SAME_AXIS < apart < wanted:
                yield Finding(
                    "bolts-apart", "warning", part.key,
                    f"{_named(a)} and {_named(b)}: centres {apart:.1f} apart, "
                    f"wanted {wanted:.1f} ({limit.value:g} d){alike(keys)}",
                    round(apart, 3), round(wanted, 3), "mm", limit.source,
                    f"set them {wanted - apart:.1f} mm further apart",
                )  # fmt: skip


def _across(setting: Setting, part: Part, hole: Bored) -> float:
    """Diameter of the bolt in a hole; of the hole where no bolt is on its axis."""
    line = setting.users.get((part.key, hole.number))
    return hole.diameter if line is None else line.diameter
