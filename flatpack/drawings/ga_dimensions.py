"""What is dimensioned on the general arrangement, as places in the piece."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping

from flatpack.drawings.figures import mm
from flatpack.drawings.ga_measure import Measure, Room, between, reach_of, room_of
from flatpack.drawings.ga_setting_out import (
    boards_across,
    brace_inset,
    cross_boards,
    hinge_gap,
    leg_spacing,
    legs_of,
    rail_heights,
    slats_of,
)
from flatpack.drawings.projection import LENGTHWISE, Body, Views
from flatpack.geometry import Vec, X
from flatpack.model import Assembly
from flatpack.wording import english as words

_METAL = 20.0
"""Wheels and heads are dimensioned over all where they add more than this to the wood, mm."""
_LEVEL, _SEAT = 0.999, 0.9
"""Cosines of the slope within which a board lies flat, and is a slat to sit on."""
_STEP = 30.0
"""Heights nearer to one another than this are shown once, mm."""


def measures(assembly: Assembly, found: tuple[Body, ...], views: Views) -> tuple[Measure, ...]:
    """Every dimension of one pose."""
    whole = room_of(found)
    by_key = {b.key: b for b in found}
    wood = room_of(by_key[key] for key in assembly.parts)
    slats = slats_of(assembly, by_key)
    moving = [by_key[p.key] for p in assembly.parts.values() if p.group == "back"]
    legs = legs_of(assembly, by_key)
    spacing = tuple(leg_spacing(by_key, legs, views))
    boards = boards_across(assembly, by_key, wood)
    start = wood.low.x if views == LENGTHWISE else _first(by_key[p.key] for p in legs)
    return (
        *spacing,
        *_overall(whole, wood, views, {m.view.name for m in spacing}),
        *_heights(whole, _tops(assembly, by_key), views),
        *rail_heights(assembly, by_key, whole, views),
        *_axles(assembly, whole, views),
        *_back(moving, views),
        *_pitch(slats, wood, views),
        *hinge_gap(slats, moving, views),
        *brace_inset(slats, moving, views),
        *cross_boards(boards, start, views),
    )


def _first(legs: Iterable[Body]) -> float:
    """Where the foremost leg begins, mm from the front."""
    return min((reach_of(leg, 0)[0] for leg in legs), default=0.0)


def _tops(assembly: Assembly, by_key: Mapping[str, Body]) -> tuple[float, ...]:
    """Heights of seats and arm rests: of what lies flat, or nearly, and moves with nothing."""
    wedges = {fit.part for fit in assembly.fits if fit.slope}
    fixed = (p for p in assembly.parts.values() if p.group == "frame" and p.key not in wedges)
    flat, sloping = [], []
    for part in fixed:
        if part.frame.z.z > _LEVEL:
            flat.append(reach_of(by_key[part.key], 2)[1])
        elif part.frame.z.z > _SEAT and abs(part.frame.x.y) > _LEVEL:
            sloping.append(reach_of(by_key[part.key], 2)[1])
    # Of a seat that falls to the rear its front edge counts.
    heights = sorted({round(high, 1) for high in (*flat, *sorted(sloping)[-1:])})
    # Where nothing lies flat there is no pair: the shorter row counts.
    return tuple(h for h, after in zip(heights, (*heights[1:], math.inf), strict=False)
                 if after - h > _STEP)  # fmt: skip


def _overall(whole: Room, wood: Room, views: Views, taken: set[str]) -> Iterator[Measure]:
    """Length and width below the two upright views, over the wood and over wheels."""
    for view in (views.main, views.end):
        axis = 0 if abs(view.right.x) > 0.5 else 1
        row = 2 if view.name in taken else 1
        for room in (wood, whole):
            a, b = _ends(room, axis)
            if room is wood or b.minus(a).length > _span(wood, axis) + _METAL:
                yield between(view, a, b, "below", "", row)
                row += 1


def _ends(room: Room, axis: int) -> tuple[Vec, Vec]:
    """Two places as far apart as the room is along an axis."""
    low = room.low
    return low, (Vec(room.high.x, low.y, low.z) if axis == 0 else Vec(low.x, room.high.y, low.z))


def _span(room: Room, axis: int) -> float:
    return room.high[axis] - room.low[axis]


def _heights(whole: Room, tops: tuple[float, ...], views: Views) -> Iterator[Measure]:
    low = whole.low
    heights = [*(t for t in tops if t < whole.high.z - 0.5), whole.high.z]
    for row, height in enumerate(heights, 1):
        yield between(views.main, low, Vec(low.x, low.y, height), "left", "", row)


def _axles(assembly: Assembly, whole: Room, views: Views) -> Iterator[Measure]:
    for bar in assembly.bars.values():
        if "axle" in bar.name.lower():
            at = bar.frame.origin
            ground = Vec(at.x, at.y, whole.low.z)
            yield between(views.main, ground, Vec(at.x, at.y, at.z), "right")


def _back(back: list[Body], views: Views) -> Iterator[Measure]:
    """Length of the moving back along its braces, over the ends of what belongs to it."""
    along = next((b.frame.x for b in back if abs(b.frame.x.y) < 1e-9), None)
    if along is None:
        return
    along = along if along.x > 0.0 else along.negated()
    out = Vec(-along.z, 0.0, along.x)
    corners = [c for b in back for c in b.corners]
    runs, rises = [c.dot(along) for c in corners], [c.dot(out) for c in corners]
    top = Vec(0.0, corners[0].y, 0.0).plus(out, max(rises))
    view = next(v for v in views if abs(v.toward.y) > 0.5)
    yield between(view, top.plus(along, min(runs)), top.plus(along, max(runs)), "along")


def _pitch(slats: list[Body], wood: Room, views: Views) -> Iterator[Measure]:
    """Pitch of the fixed slats, said as width and gap."""
    if len(slats) < 2:
        return
    axis = 1 if abs(slats[0].frame.x.x) > 0.5 else 0
    (low, high), (following, _) = sorted(reach_of(b, axis) for b in slats)[:2]
    if following < high:
        return
    text = words.pitch(mm(following - low), mm(high - low), mm(following - high))
    low_end, next_end = (wood.low._replace(**{"xy"[axis]: v}) for v in (low, following))
    runs = abs(views.plan.right.dot(X)) > 0.5
    yield between(views.plan, low_end, next_end, "below" if runs == (axis == 0) else "right", text)
