"""Dimensions that a maker sets the piece out by: legs, cross boards, hinge gap, braces."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise

from flatpack.drawings.ga_measure import (
    Measure,
    Room,
    Where,
    along,
    crosswise,
    reach_of,
    room_of,
)
from flatpack.drawings.projection import LENGTHWISE, Body, Views
from flatpack.model import Assembly, Part
from flatpack.wording import english as words

_NEAR = 1.0
"""What lies nearer to an end than this needs no dimension from it, mm."""
_APART = 10.0
"""Places of like parts nearer to one another than this are dimensioned once, mm."""

_RAIL = 0.3
"""What is shorter than this share of the piece is no rail."""


def leg_spacing(by_key: Mapping[str, Body], legs: list[Part], views: Views) -> Iterator[Measure]:
    """From each leg to the same side of the next, below the upright views.

    From before to after the piece always; across it too where that is the longer way.
    """
    for view in (views.main, views.end):
        axis = 0 if abs(view.right.x) > 0.5 else 1
        if axis == 1 and view is views.end:
            continue
        places = sorted({round(reach_of(by_key[leg.key], axis)[0], 1) for leg in legs})
        for ends in pairwise(_apart(places)):
            yield along(view, axis, ends, "below")


def _apart(places: list[float]) -> list[float]:
    """The places, without those that hardly differ from the one before."""
    before = (-math.inf, *places)
    return [p for p, last in zip(places, before, strict=False) if p > last + _APART]


def legs_of(assembly: Assembly, by_key: Mapping[str, Body]) -> list[Part]:
    """Upright boards that end near the ground: in the lowest quarter of the seat's height."""
    frame = [p for p in assembly.parts.values() if p.group == "frame"]
    flat = [p for p in frame if p.frame.z.z > 0.999]
    low = min((reach_of(by_key[p.key], 2)[1] for p in flat), default=0.0) / 4.0
    upright = (p for p in frame if abs(p.frame.x.z) > 0.999)
    return [p for p in upright if reach_of(by_key[p.key], 2)[0] < low]


def rail_heights(
    assembly: Assembly, by_key: Mapping[str, Body], whole: Room, views: Views
) -> Iterator[Measure]:
    """From the ground to the undersides of rails from before to after, beside the end view."""
    ground, least = whole.low.z, _RAIL * (whole.high.x - whole.low.x)
    rails = (
        by_key[p.key]
        for p in assembly.parts.values()
        if p.group == "frame" and abs(p.frame.x.x) > 0.999 and abs(p.frame.z.y) > 0.999
        if p.length > least
    )
    lows = sorted({round(reach_of(rail, 2)[0], 1) for rail in rails})
    for row, low in enumerate((p for p in _apart(lows) if p > ground + _APART), 1):
        yield along(views.end, 2, (ground, low), "right", "", row)


def lies_flat(moving: list[Body], slats: list[Body]) -> bool:
    """True when the back lies level with the fixed slats."""
    if not moving or not slats:
        return False
    level = reach_of(slats[0], 2)[1]
    return all(reach_of(b, 2)[1] < level + _NEAR for b in moving)


def hinge_gap(slats: list[Body], moving: list[Body], views: Views) -> Iterator[Measure]:
    """Gap from the last fixed slat to the first of the back, with the back flat."""
    backs = [b for b in moving if crosswise(b)]
    if backs and views == LENGTHWISE and lies_flat(moving, slats):
        ends = max(reach_of(s, 0)[1] for s in slats), min(reach_of(b, 0)[0] for b in backs)
        if ends[1] > ends[0]:
            yield along(views.plan, 0, ends, "below", words.AT_THE_HINGE)


def brace_inset(slats: list[Body], moving: list[Body], views: Views) -> Iterator[Measure]:
    """From the slats' ends to the braces' outer faces, with the back flat."""
    across = [reach_of(b, 1)[0] for b in moving if crosswise(b)]
    braces = [reach_of(b, 1)[0] for b in moving if not crosswise(b)]
    if across and braces and views == LENGTHWISE and lies_flat(moving, slats):
        yield along(views.plan, 1, (min(across), min(braces)), "right", words.TO_BRACE)


def cross_boards(boards: list[tuple[str, Body]], start: float, views: Views) -> Iterator[Measure]:
    """From `start` to the near faces of boards across the piece, nearest first."""
    names: dict[float, str] = {}
    for name, body in boards:
        names.setdefault(round(reach_of(body, 0)[0], 1), name)
    lengthwise = views == LENGTHWISE
    where: Where = "below" if lengthwise else "left"
    places = sorted((p for p in names if p > start + _NEAR), reverse=not lengthwise)
    for row, place in enumerate(places, 2 if lengthwise else 1):
        text = words.to_board(names[place])
        yield along(views.plan, 0, (start, place), where, text, row)


def boards_across(
    assembly: Assembly, by_key: Mapping[str, Body], wood: Room
) -> list[tuple[str, Body]]:
    """Names and bodies of upright boards across the frame that end at neither of its ends."""
    found = []
    for part in assembly.parts.values():
        body = by_key[part.key]
        if part.group == "frame" and crosswise(body) and abs(part.frame.z.x) > 0.999:
            low, high = reach_of(body, 0)
            inner = low > wood.low.x + _NEAR and high < wood.high.x - _NEAR
            if inner and part.length > (wood.high.y - wood.low.y) / 4.0:
                found.append((part.name, body))
    return found


def unseen(assembly: Assembly, by_key: Mapping[str, Body], views: Views) -> Iterator[Body]:
    """What plan dimensions run to though slats cover it: boards across, and braces lying flat.

    Boards on edge that joints without fasteners hold under a top are shown too.
    """
    wood = room_of(by_key[key] for key in assembly.parts)
    boards = [body for _, body in boards_across(assembly, by_key, wood)]
    fitted = dict.fromkeys(key for fit in assembly.fits for key in (fit.part, fit.onto))
    on_edge = (by_key[k] for k in fitted if abs(assembly.parts[k].frame.z.z) < _RAIL)
    yield from dict.fromkeys((*boards, *on_edge))
    moving = [by_key[p.key] for p in assembly.parts.values() if p.group == "back"]
    if lies_flat(moving, slats_of(assembly, by_key)):
        yield from (b for b in moving if not crosswise(b))


def slats_of(assembly: Assembly, by_key: Mapping[str, Body]) -> list[Body]:
    """Slats of the seat or deck: fixed, lying flat, and alike in name to the first of them."""
    found = [
        p
        for p in assembly.parts.values()
        if "slat" in p.name and p.group == "frame" and abs(p.frame.z.z) > 0.999
    ]
    return [by_key[p.key] for p in found if p.name == found[0].name]
