"""The capping rail screwed down into the upper edges of the boards below it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry import Vec, Z
from flatpack.joinery.axis import spread
from flatpack.model import Joint
from flatpack.pieces.common.boarded.screwing import clear_by, screws
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.setting_out import SettingOut

FROM_POST = 18.0
"""From a corner post to the nearest screw of the cap, mm: clear of the screws into the post."""

MORE = 5
"""Numbers of bays tried for one that keeps clear of the battens."""


def cap_joints(p: Planter, out: SettingOut) -> Iterator[Joint]:
    """Four rails, each on the topmost board of its side."""
    box = out.box
    t, z, top = box.timber.sides.thickness, box.levels.high, len(box.rows)
    ys = _along(p, out, t + box.corner.y, p.size.length, box.battens)
    for side, x in (("front", t / 2.0), ("rear", p.size.depth - t / 2.0)):
        places = tuple(Vec(x, y, z) for y in ys)
        yield _rail(out, f"cap-{side}", f"{side}-board-{top}", places)
    butt = out.cap_width - p.cap.overhang if p.cap.corner == "butt" else 0.0
    xs = _along(p, out, max(t + box.corner.x, butt), p.size.depth, ())
    for side, y in (("left", t / 2.0), ("right", p.size.length - t / 2.0)):
        places = tuple(Vec(x, y, z) for x in xs)
        yield _rail(out, f"cap-{side}", f"{side}-board-{top}", places)


def _rail(out: SettingOut, key: str, into: str, places: tuple[Vec, ...]) -> Joint:
    return screws(
        out.box,
        key=f"{key}-on-{into}",
        step="cap",
        through=key,
        into=into,
        places=places,
        direction=Z.negated(),
    )


def _along(
    p: Planter, out: SettingOut, inset: float, size: float, battens: tuple[float, ...]
) -> tuple[float, ...]:
    """Places of the screws along a side, evenly, the outer ones beside the corners.

    One more where one would meet a batten's screws, so that the row reads the same from both ends.
    """
    low, high = inset + FROM_POST, size - inset - FROM_POST
    if high <= low:
        return spread(low, high, 1)
    room = clear_by(out.box) + out.box.timber.screw.diameter
    least = max(math.ceil((high - low) / p.cap.screws_apart), 1)
    rows = [tuple(low + (high - low) * i / n for i in range(n + 1)) for n in _bays(least)]
    clear = (row for row in rows if all(abs(y - b) >= room for y in row for b in battens))
    return next(clear, rows[0])


def _bays(least: int) -> range:
    return range(least, least + MORE)
