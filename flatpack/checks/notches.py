"""Notches: the rod rests in each, touching, and the notches of both racks lie in one line."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry import Vec
from flatpack.geometry.polygon import spot
from flatpack.model import Feature, Part

FACING = 1e-9
SLACK = 0.05
"""Parts that share no more of their thickness than this lie beside each other, mm."""


def check_notches(setting: Setting) -> Iterator[Finding]:
    """The wood is where the notch features say that the rod rests, on every rack alike."""
    for part in setting:
        beside = [other for other in setting if _same_lane(part, other)]
        for notch in _notches(part):
            yield from _seated(setting, part, beside, notch)
    yield from _in_line(setting)


def _same_lane(part: Part, other: Part) -> bool:
    """True for the part and what lies in its thickness, e.g. tooth blocks on their bearer."""
    if part.group != other.group or abs(part.frame.z.dot(other.frame.z)) < 1.0 - FACING:
        return False
    height = part.frame.local(other.frame.place(0.0, 0.0, other.thickness / 2.0)).z
    return abs(height - part.thickness / 2.0) < (part.thickness + other.thickness) / 2.0 - SLACK


def _notches(part: Part) -> list[Any]:
    return [f for f in part.features if _is_notch(f)]


def _is_notch(feature: Feature) -> bool:
    return feature.operation == "thin-line" and hasattr(feature, "number")


def _seated(setting: Setting, part: Part, beside: list[Part], notch: Any) -> Iterator[Finding]:
    limit, radius = setting.limits.seated, notch.diameter / 2.0
    place = part.frame.place(*notch.at)
    off = min(_clear(setting, other, place) for other in beside) - radius
    if abs(off) > limit.value:
        how = f"runs {-off:.2f} into the wood" if off < 0.0 else f"stands {off:.2f} clear of it"
        yield Finding(
            "notch-off", "fault", part.key,
            f"{notch.callout()}: the rod seated there {how}",
            round(off, 3), limit.value, "mm", limit.source, f"move the notch {abs(off):.2f} mm",
        )  # fmt: skip


def _clear(setting: Setting, part: Part, place: Vec) -> float:
    """Distance of a place from a part's outline, seen square to its face; negative inside."""
    at = spot(part.frame.local(place)[:2])
    away = float(setting.edge(part).distance(at))
    return -away if setting.face(part).contains(at) else away


def _in_line(setting: Setting) -> Iterator[Finding]:
    """Each rod position has its notch at one place, seen along the rod, in every rack.

    Racks that carry the same rods have the same name.
    """
    seats: dict[tuple[str, int], list[tuple[Part, Vec]]] = {}
    for part in setting:
        for notch in _notches(part):
            key = part.name, notch.number
            seats.setdefault(key, []).append((part, part.frame.place(*notch.at)))
    limit = setting.limits.in_line
    for (_, number), places in sorted(seats.items()):
        first, here = places[0]
        for part, place in places[1:]:
            between = place.minus(here)
            off = between.plus(first.frame.z, -between.dot(first.frame.z)).length
            if off > limit.value:
                yield Finding(
                    "notches-out-of-line", "fault", f"{first.key} / {part.key}",
                    f"notch {number} of {part.key} stands {off:.2f} out of line with that of "
                    f"{first.key}: the rod would lie askew",
                    round(off, 3), limit.value, "mm", limit.source,
                    f"move one of them {off:.2f} mm",
                )  # fmt: skip
