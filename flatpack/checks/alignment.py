"""Fasteners and bars run true through every part they pass; no hole is left without a use.

Worked out afresh from each part's own holes, turned into the piece's axes, and never from the
joint that asked for them, so that one hole moved in one part shows.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.axes import Line
from flatpack.checks.bored import Bored
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.model import Part

NEAR = 20.0
"""A hole no further than this from an axis is taken for the one that was meant, mm."""
OPEN = "open"
"""Fit of holes that are meant to take nothing: to drain, to pass a cord."""
SELF_BORING = ("pocket screw",)
"""Kinds whose last part has no hole: the screw cuts its own."""


def check_alignment(setting: Setting) -> Iterator[Finding]:
    """Each part that an axis passes has its hole there, wide enough and from the right side."""
    for line, keys in setting.lines:
        for key in keys:
            if not _bores_itself(setting, line, keys, key):
                yield from _one(setting, line, key, last=key == keys[-1])
    for f in setting.assembly.fasteners:
        strays = [k for k in f.passes if k not in setting.assembly.parts]
        for key in strays:
            text = f"{f.item} passes {key}, which the piece doesn't have"
            yield Finding("passes-nothing", "fault", f.key, text)


def _bores_itself(setting: Setting, line: Line, keys: tuple[str, ...], key: str) -> bool:
    fastener = setting.fasteners.get(line.key)
    return fastener is not None and fastener.kind in SELF_BORING and key == keys[-1]


def _one(setting: Setting, line: Line, key: str, *, last: bool) -> Iterator[Finding]:
    part, limit = setting.assembly.parts[key], setting.limits.in_line
    holes = zip(setting.offsets[line.key, key], setting.bored[key], strict=True)
    by_distance = sorted((off, h.number, h) for off, h in holes if h.kind != "sink")
    if by_distance and by_distance[0][0] <= limit.value:
        true = [hole for off, _, hole in by_distance if off <= limit.value]
        yield from _fit(setting, line, part, true, last=last)
        return
    free = [row for row in by_distance if (key, row[1]) not in setting.users]
    if free and free[0][0] <= NEAR:
        off, _, hole = free[0]
        yield Finding(
            "hole-off-axis", "fault", key,
            f"{hole.feature.callout()} stands {off:.2f} off the axis of {line.key}",
            round(off, 3), limit.value, "mm", limit.source, f"move the hole {off:.2f} mm",
        )  # fmt: skip
    else:
        yield Finding("hole-missing", "fault", key, f"no hole for {line.key}, which passes here")


def _fit(
    setting: Setting, line: Line, part: Part, holes: list[Bored], *, last: bool
) -> Iterator[Finding]:
    fastener = setting.fasteners.get(line.key)
    widest = max(hole.diameter for hole in holes)
    must_pass = fastener is None or "screw" not in fastener.kind or not last
    pocket = any(hole.kind == "pocket" for hole in holes)
    if must_pass and not pocket and widest < line.diameter:
        yield Finding(
            "hole-too-small", "fault", part.key,
            f"{line.key} is {line.diameter:g} across, its hole {widest:g}",
            widest, line.diameter,
        )  # fmt: skip
    blind = [hole for hole in holes if hole.blind]
    if len(blind) == len(holes) and fastener is not None:
        yield from _blind(line, part, blind, last=last)


def _blind(line: Line, part: Part, holes: list[Bored], *, last: bool) -> Iterator[Finding]:
    """A blind hole serves only the last part, from the side that the fastener comes from.

    A rail with a bolt in each end has two on one axis; one of them must face the bolt.
    """
    facing = [
        h for h in holes if part.frame.turn(h.bottom.minus(h.mouth)).dot(line.direction) >= 0.0
    ]
    hole = (facing or holes)[0]
    if not facing:
        text = f"{hole.feature.callout()} for {line.key} is worked from the wrong side"
        yield Finding("hole-wrong-side", "fault", part.key, text)
    elif not last and hole.kind == "face":
        text = f"{hole.feature.callout()} ends inside, but {line.key} goes on through"
        yield Finding("hole-stops-short", "fault", part.key, text)


def check_orphans(setting: Setting) -> Iterator[Finding]:
    """Every hole has a fastener or bar on its axis; a barrel nut's hole crosses its bolt.

    Holes that are meant to stay open have none.
    """
    for key, part in setting.assembly.parts.items():
        for hole in setting.bored[key]:
            free = getattr(hole.feature, "fit", "") == OPEN or _holds_nut(setting, part, hole)
            if (key, hole.number) not in setting.users and not free:
                at = hole.feature.at
                yield Finding(
                    "hole-unused", "fault", key,
                    f"{hole.feature.callout()} at ({at.x:.1f}, {at.y:.1f}) takes no fastener",
                )  # fmt: skip


def _holds_nut(setting: Setting, part: Part, hole: Bored) -> bool:
    if "barrel nut" not in str(getattr(hole.feature, "fit", "")):
        return False
    way = part.frame.turn(hole.bottom.minus(hole.mouth)).unit()
    mouth = part.frame.place(*hole.mouth)
    for f in setting.assembly.fasteners:
        if f.kind == "barrel nut bolt" and part.key in f.passes:
            normal = f.direction.cross(way)
            apart = abs(mouth.minus(f.start).dot(normal.unit())) if normal.length > 1e-9 else 1e9
            if apart <= setting.limits.in_line.value:
                return True
    return False
