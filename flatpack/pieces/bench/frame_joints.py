"""The bench's joints up to the seat: leg frames, stretchers, cleats and slats."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.geometry import Z
from flatpack.model import Joint, Part
from flatpack.pieces.bench.parameters import Bench
from flatpack.pieces.bench.setting_out import SettingOut
from flatpack.pieces.common.fixings import pockets
from flatpack.pieces.common.leg_frames import (
    cleat_joints,
    inner,
    named_frames,
    rail_joints,
    stretcher_joints,
)

Parts = Mapping[str, Part]


def leg_frame_joints(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Leg frames, and the stretchers between them."""
    for name, _ in named_frames(out.frames):
        yield from rail_joints(out.stock, name, ("seat-rail", "low-rail"))
    yield from stretcher_joints(out.stock, out.frames, parts, loose=is_loose(p))


def is_loose(p: Bench) -> bool:
    """Whether seat and stretchers are bolted so that they come apart."""
    return p.construction == "knock-down"


def seat_joints(p: Bench, out: SettingOut) -> Iterator[Joint]:
    """Seat slats on the cleats."""
    for i in range(1, out.seat.count + 1):
        for name, _ in named_frames(out.frames):
            yield pockets(
                out.stock,
                key=f"slat-{i}-on-{name}",
                step="seat",
                through=f"cleat-{name}",
                into=f"slat-{i}",
                outward=Z,
                pocket_face=inner(name),
                count=p.seat.screws,
                glue=not is_loose(p),
            )


def seat_cleat_joints(p: Bench, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Cleats on the seat rails: glued and screwed from inside, or bolted from outside."""
    for name, _ in named_frames(out.frames):
        cleat, rail = parts[f"cleat-{name}"], parts[f"seat-rail-{name}"]
        yield from cleat_joints(out.stock, cleat, rail, name, "cleats", loose=is_loose(p))
