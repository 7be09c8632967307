"""Faces that a joint draws together must touch: in one plane, turned to each other, in common.

Each part has two faces and, for every straight piece of its outline, an edge or end; slanting
cuts take off what lies beyond them and each have a flat of their own.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

import numpy as np

from flatpack.checks.convex import axes_of
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry import Frame, Plane, Vec
from flatpack.geometry.polygon import FAR, behind, clipped, mapped, region
from flatpack.model import Part

FACING = 1e-6
"""Normals this close to opposite face each other."""
LEAST_AREA = 1.0
"""Common area below which two faces only meet at a line, mm2."""


class Flat(NamedTuple):
    """One flat side of a part: a frame whose z looks out of it, and its shape in x and y."""

    frame: Frame
    shape: Any


def flats(part: Part, face: Any) -> Iterator[Flat]:
    """Show face, back face, every straight edge or end, and every slanting cut."""
    cuts = part.planes
    if not cuts:
        yield from _square(part, face)
        return
    sawn = tuple(cut.placed(part.frame) for cut in cuts)
    for flat in (*_square(part, face), *(_slanting(part, cut, face) for cut in cuts)):
        shape = flat.shape
        for plane in sawn:
            shape = _less(flat.frame, shape, plane)
        if shape.area >= LEAST_AREA:
            yield Flat(flat.frame, shape)


def _slanting(part: Part, cut: Plane, face: Any) -> Flat:
    """A slanting cut right across the part, in a frame on it whose y rises up the slope.

    A step along y shows on the face as `up`'s share in it, so the face's shape is drawn out by
    its inverse and cut at the heights of both faces.
    """
    level = Vec(-cut.out.y, cut.out.x, 0.0).unit()
    up = cut.out.cross(level)
    drawn = np.array(((level.x, level.y), (up.x, up.y)))
    drawn[1] /= max(up.x * up.x + up.y * up.y, FACING)
    shape = mapped(face, drawn, -drawn @ np.array(cut.at[:2]))
    heights = (-cut.at.z / up.z, (part.thickness - cut.at.z) / up.z)
    f = part.frame
    return Flat(
        Frame(f.place(*cut.at), f.turn(level), f.turn(up), f.turn(cut.out)),
        clipped(shape, (-FAR, heights[0], FAR, heights[1])),
    )


def _less(frame: Frame, shape: Any, plane: Plane) -> Any:
    """A flat's shape behind a plane of the piece; all of it where it lies in the plane."""
    u, v = frame.x.dot(plane.out), frame.y.dot(plane.out)
    size = float(np.hypot(u, v))
    if size < FACING:
        return shape
    off = -plane.beyond(frame.origin) / size
    u, v = u / size, v / size
    return behind(shape, (u * off, v * off), (u, v))


def _square(part: Part, face: Any) -> Iterator[Flat]:
    """Both faces and every straight edge or end, as they stand before a slanting cut."""
    f, t = part.frame, part.thickness
    yield Flat(Frame(f.place(0.0, 0.0, t), f.x, f.y, f.z), face)
    yield Flat(Frame(f.origin, f.x, f.y, f.z.negated()), face)
    for (x0, y0), (x1, y1), bulge in part.outline:
        if bulge == 0.0:
            run = float(np.hypot(x1 - x0, y1 - y0))
            along = f.turn(Vec((x1 - x0) / run, (y1 - y0) / run, 0.0))
            out = f.turn(Vec((y1 - y0) / run, (x0 - x1) / run, 0.0))
            shape = region(((0.0, 0.0), (run, 0.0), (run, t), (0.0, t)))
            yield Flat(Frame(f.place(x0, y0), along, f.z, out), shape)


def check_mates(setting: Setting) -> Iterator[Finding]:
    """Every pair of mates has a pair of faces that touch."""
    sides: dict[str, tuple[Flat, ...]] = {}
    parts = setting.assembly.parts
    for a, b in dict.fromkeys(setting.assembly.mates):
        if a not in parts or b not in parts:
            text = "only faces of parts can be compared"
            yield Finding("mates", "not done", f"{a} / {b}", text)
            continue
        for key in (a, b):
            if key not in sides:
                sides[key] = tuple(flats(parts[key], setting.face(parts[key])))
        gap = nearest(sides[a], sides[b])
        if gap is None or abs(gap) > setting.limits.touching.value:
            yield _apart(setting, a, b, gap)


def nearest(some: tuple[Flat, ...], others: tuple[Flat, ...]) -> float | None:
    """Least gap between two faces that look at each other and overlap, mm; None if there are none.

    Negative where they run into each other.
    """
    facing = [
        (a.frame.z.dot(b.frame.origin.minus(a.frame.origin)), a, b)
        for a in some
        for b in others
        if a.frame.z.dot(b.frame.z) < FACING - 1.0
    ]
    facing.sort(key=lambda row: abs(row[0]))
    return next((gap for gap, a, b in facing if in_common(a, b) >= LEAST_AREA), None)


def in_common(a: Flat, b: Flat) -> float:
    """Area that two faces that look at each other share, mm2."""
    turn = axes_of(a.frame)[:2] @ axes_of(b.frame)[:2].T
    shift = np.array(a.frame.local(b.frame.origin)[:2])
    return float(a.shape.intersection(mapped(b.shape, turn, shift)).area)


def _apart(setting: Setting, a: str, b: str, gap: float | None) -> Finding:
    limit = setting.limits.touching
    how = (
        "have no faces that look at each other" if gap is None
        else f"should touch but stand {gap:.2f} apart" if gap > 0.0
        else f"should touch but run {-gap:.2f} into each other"
    )  # fmt: skip
    return Finding(
        "mates-apart", "fault", f"{a} / {b}", f"{a} and {b} {how}",
        None if gap is None else round(gap, 3), limit.value, "mm", limit.source,
        "" if gap is None else f"move one of them {abs(gap):.2f} mm",
    )  # fmt: skip
