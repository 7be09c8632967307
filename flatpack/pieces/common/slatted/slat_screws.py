"""How many screws hold a slat at a bearer, and where they stand across it."""

from __future__ import annotations

from flatpack.geometry import Vec
from flatpack.joinery.axis import spread
from flatpack.joinery.pocket_screws import POCKETS_APART
from flatpack.pieces.common.leg_frames import Avoid
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import Reach, SettingOut
from flatpack.pieces.common.slatted.spacing import apart_at_most

FROM_EDGE = 10.0
"""Least from a slat's edge to the line of screws in an apron below it, mm (common practice)."""
FROM_END = 12.0
"""Least from a bearer's end or slat's edge to a pocket, mm, as far as there is room."""
DEEP = 120.0
"""Aprons deeper than this hide the thick end of the driver beside them, mm: its bit is 150 long
and stands at a slope in the pocket."""
BESIDE_DEEP_APRON = 24.0
"""From a deep apron to the nearest pocket, mm: half a driver and a little."""


def over_bearers(out: SettingOut, number: int) -> Reach:
    """The stretch of a slat on the bearers, less what a driver can't reach beside deep aprons."""
    slat, off = out.slat(number), BESIDE_DEEP_APRON if out.widths.apron > DEEP else 0.0
    return Reach(max(slat.low, out.bearers.low + off), min(slat.high, out.bearers.high - off))


def screws(p: Plan, out: SettingOut, number: int) -> int:
    """How many screws a slat gets at a bearer: as many as wanted, fewer where it is narrow."""
    room = over_bearers(out, number).length
    apart = out.stock.jig.drill + POCKETS_APART
    most = p.top.screws
    # PocketScrews keep a quarter of a narrow stretch free at either end.
    while most > 1 and room - 2.0 * min(FROM_END, room / 4.0) < (most - 1) * apart:
        most -= 1
    return most if room >= 2.0 * FROM_EDGE else 0


def aside(out: SettingOut, number: int) -> Avoid:
    """What the screws of a slat avoid: places too near aprons, or too far from another."""
    slat = out.slat(number)
    low, high = over_bearers(out, number)
    rest = max((high - low - apart_at_most(out.stock.slats)) / 2.0, 0.0)
    ends = ((min(slat.low, low), low + rest), (high - rest, max(slat.high, high)))
    return tuple((Vec((a + b) / 2.0, 0.0, 0.0), (b - a) / 2.0) for a, b in ends if b > a)


def pockets_at(p: Plan, out: SettingOut) -> tuple[float, ...]:
    """X of all slats' pockets in a bearer, as they are placed when nothing is in their way."""
    found: list[float] = []
    for number in range(1, out.count + 1):
        low, high = over_bearers(out, number)
        most = max((high - low - apart_at_most(out.stock.slats)) / 2.0, 0.0)
        for x in spread(low, high, max(screws(p, out, number), 1)):
            found.append(min(max(x, low + most), high - most))
    return tuple(found)
