"""Bolts: the nut sits on thread, the tail comes through, the bored tail has room.

head |<---------- grip ---------->| nut | tail       thread must begin before the nut does:
     |======================######|#####|###         length - thread <= grip
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.model import Fastener, Solid

CLOSE = 1e-6


def check_bolts(setting: Setting) -> Iterator[Finding]:
    """Grip, thread reach and tail of every bolt."""
    for f in setting.assembly.fasteners:
        if "bolt" not in f.kind:
            continue
        yield from _across(setting, f)
        joint = setting.joints.get(f.joint)
        bolt = getattr(joint, "bolt", None)
        if bolt is None:
            yield Finding("bolt", "not done", f.key, f"{f.item}: its thread's length isn't known")
            continue
        nut = next((s for s in f.solids if s.name.endswith(" nut")), None)
        if nut is not None:
            yield from _nut(setting, f, bolt, nut)
        else:
            yield from _into_wood(setting, f, joint, bolt)


def _across(setting: Setting, f: Fastener) -> Iterator[Finding]:
    """A barrel nut lies across its bolt: its thread is cut square to the barrel."""
    part = setting.assembly.parts.get(f.passes[-1]) if f.passes else None
    if f.kind != "barrel nut bolt" or part is None:
        return
    limit = setting.limits.nut_askew
    off = math.degrees(math.asin(min(abs(part.frame.z.dot(f.direction)), 1.0)))
    if off > limit.value:
        yield Finding(
            "nut-askew", "fault", f.key,
            f"the bolt runs {off:.1f} degrees off square to its barrel nut in {part.key}: it won't "
            "find the thread",
            round(off, 2), limit.value, limit.unit, limit.source,
            "screws or a bolt right through where an end is sawn at a slant",
        )  # fmt: skip


def _nut(setting: Setting, f: Fastener, bolt: Any, nut: Solid) -> Iterator[Finding]:
    from_head = nut.frame.origin.minus(f.start).dot(f.direction)
    grip = from_head + nut.low
    tail = f.length - (from_head + nut.high)
    wanted = setting.limits.tail_pitches.value * bolt.pitch
    if tail < wanted - CLOSE:
        yield _short(
            f, "bolt-too-short", f"shows {tail:.1f} beyond the nut, wanted {wanted:.1f}", tail,
            wanted, f"take a bolt at least {f.length + wanted - tail:.0f} mm long",
        )  # fmt: skip
    plain = f.length - bolt.thread_length(f.length)
    if plain > grip + CLOSE:
        yield _short(
            f, "thread-too-short",
            f"has {plain:.1f} without thread, but the nut starts at {grip:.1f}", grip, plain,
            f"take a bolt with more thread, or washers {plain - grip:.1f} mm thick",
        )  # fmt: skip


def _into_wood(setting: Setting, f: Fastener, joint: Any, bolt: Any) -> Iterator[Finding]:
    """A bolt into a barrel nut or an insert: enough turns held, and room past the tip."""
    reach = f.length - _through(setting, f)
    held = _held(joint, reach)
    if held is None:
        yield Finding("bolt", "not done", f.key, f"{f.item}: what its thread holds isn't known")
    elif held < bolt.diameter - CLOSE:
        yield _short(
            f, "thread-held", f"is held by {max(held, 0.0):.1f} of thread, wanted one diameter",
            held, bolt.diameter, f"take a bolt {bolt.diameter - held:.1f} mm longer",
        )  # fmt: skip
    plain = f.length - bolt.thread_length(f.length)
    start = f.length - (held or 0.0)
    if held is not None and plain > start + CLOSE:
        yield _short(f, "thread-too-short", f"has thread only from {plain:.1f}", start, plain, "")
    room = _bored_for(setting, f)
    if room is not None and room < reach - CLOSE:
        yield _short(
            f, "bolt-bottoms", f"runs {reach:.1f} into a hole {room:.1f} deep", room, reach,
            f"bore {reach - room:.1f} mm deeper, or take a shorter bolt",
        )  # fmt: skip


def _through(setting: Setting, f: Fastener) -> float:
    """Wood between the head and the last part, along the axis: where that part begins."""
    start = _depths(setting, f, f.passes[-1])
    return start[0] if start is not None else 0.0


def _depths(setting: Setting, f: Fastener, key: str) -> tuple[float, float] | None:
    """Where along the bolt the hole in a part begins and ends, from the head."""
    part = setting.assembly.parts.get(key)
    if part is None:
        return None
    for hole in setting.bored[key]:
        line = setting.users.get((key, hole.number))
        if line is not None and line.key == f.key and hole.kind != "sink":
            ends = (part.frame.place(*p).minus(f.start) for p in (hole.mouth, hole.bottom))
            low, high = sorted(v.dot(f.direction) for v in ends)
            return low, high
    return None


def _bored_for(setting: Setting, f: Fastener) -> float | None:
    depths = _depths(setting, f, f.passes[-1])
    return None if depths is None else depths[1] - depths[0]


def _held(joint: Any, reach: float) -> float | None:
    """Length of thread held: in the barrel nut about its axis, or in the insert."""
    if hasattr(joint, "nut") and hasattr(joint, "depth"):
        body = joint.nut.body_diameter
        return float(min(reach - (joint.depth - body / 2.0), body))
    if hasattr(joint, "insert"):
        return float(min(reach, joint.insert.length))
    return None


def _short(
    f: Fastener, code: str, text: str, measured: float, limit: float, remedy: str
) -> Finding:
    return Finding(
        code, "fault", f.key, f"{f.item} {f.size} {text}", round(measured, 3), round(limit, 3),
        "mm", "geometry", remedy,
    )  # fmt: skip
