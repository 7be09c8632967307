"""Where a low chair's bolts stand: below pockets, clear of the apron, well inside the edges."""

from __future__ import annotations

from flatpack.geometry import Vec
from flatpack.pieces.common.fixings import EDGE_IN_BOLTS, END_IN_BOLTS, WOOD_BETWEEN, pocket_reach
from flatpack.pieces.low_chair.setting_out import SettingOut

BOLT_SHARES = (0.3, 0.72)
"""Where the two bolts of a leg or post stand below the rail's upper edge, in shares of its width,
where it has no room for both under the pockets."""
SOCKET = 4.0
"""Beside a nut for the socket that turns it, mm (common practice, no source)."""


def bolt_depths(out: SettingOut) -> tuple[float, float]:
    """Both bolts below the rail's upper edge."""
    d, width = out.stock.bolt.diameter, out.widths.rail
    low = pocket_reach(out.stock) + washer(out) + WOOD_BETWEEN
    high = min(max(low + END_IN_BOLTS * d, BOLT_SHARES[1] * width), width - EDGE_IN_BOLTS * d)
    if high - low >= END_IN_BOLTS * d - 1e-9:
        return low, high
    return BOLT_SHARES[0] * width, BOLT_SHARES[1] * width


def washer(out: SettingOut) -> float:
    """Radius of what lies under a nut."""
    return max(out.stock.washer.outer, out.stock.nut.across_corners) / 2.0


def leg_places(out: SettingOut) -> tuple[Vec, ...]:
    """Bolts of the left leg: in its middle, or behind the apron where that is in the way; y = 0."""
    made = []
    for depth in bolt_depths(out):
        x = out.widths.leg / 2.0
        if depth < out.widths.apron + washer(out):
            beside = out.stock.frames.thickness + washer(out) + SOCKET
            x = max(x, out.lines.on_rail(beside, -depth).x)
        along = (x - out.lines.corner.x - out.lines.normal.x * -depth) / out.lines.along.x
        made.append(out.lines.on_rail(along, -depth))
    return tuple(made)


def post_middle_line(out: SettingOut) -> float:
    """How far the posts' middle line lies behind the back slats' front."""
    return out.stock.slats.thickness + out.stock.frames.thickness + out.widths.post / 2.0


def post_bolts(out: SettingOut) -> tuple[float, float]:
    """V of the bolts on the posts' middle line."""
    lines = out.lines
    start = lines.on_back(0.0, post_middle_line(out))
    high = start.minus(lines.corner).dot(lines.normal)
    fall = lines.up.dot(lines.normal)
    first, last = (-(high + depth) / fall for depth in bolt_depths(out))
    return first, last


def post_places(out: SettingOut) -> tuple[Vec, ...]:
    """Bolts of the left post; y = 0."""
    return tuple(out.lines.on_back(v, post_middle_line(out)) for v in post_bolts(out))
