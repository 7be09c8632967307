"""Where screws and bolts stand across the grain, so that wood may move and they miss another.

A solid board swells and shrinks across its grain, what it is fixed to doesn't: two fixings side by
side across the grain strain the wood between them by their distance x its movement over the year.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from flatpack.geometry import Vec, cosine_sine
from flatpack.joinery.axis import kept_clear, spread
from flatpack.joinery.pocket_screws import MARGIN, POCKETS_APART
from flatpack.model import Part
from flatpack.pieces.common.fixings import END_IN_BOLTS, pocket_reach
from flatpack.pieces.common.leg_frames import NUT_DEPTH, Avoid, end_towards
from flatpack.pieces.common.slatted.setting_out import NUT_PAST_BEARER, SettingOut
from flatpack.profiles import Board, Screw

OVER_THE_YEAR = 12.0
"""Change of a board's moisture from dry summer to wet autumn, % (common practice, no source)."""
MOVES = 1.4
"""Movement between two fixings that wood and holes take, mm (common practice, no source)."""
WEB = 5.5
"""Wood between two holes that pass one another, mm: a good 4 however roundly it is measured."""

FROM_EDGE = 10.0
"""Least from the middle of a pocket to an edge that it runs towards, mm (common practice)."""
STRAY = 0.5
"""Pockets that run this little towards an edge count as square to the end, mm."""
EDGE_IN_SCREWS = 3.0
"""Edge distance of a screw in its diameters: Eurocode 5 table 8.2, predrilled (3 d)."""
SCREWS_APART = 3.0
"""Distance of two screws across the grain in diameters: table 8.2, predrilled (a2, 3 d)."""


Stretch = tuple[float, float]


def apart_at_most(board: Board) -> float:
    """How far two fixings may stand apart across the board's grain, mm."""
    return MOVES / (board.movement * OVER_THE_YEAR) if board.movement > 0.0 else math.inf


def across_end(out: SettingOut, part: Part, way: Vec) -> Avoid:
    """What pocket screws out of a part's end along `way` avoid.

    The stretches at both corners of the end, beyond the movement that the part's board allows, and
    so far in that pockets square to an end off square don't run out at an edge.
    """
    end = end_towards(part, way)
    rest = max((end.length - apart_at_most(part.board)) / 2.0, 0.0)
    # The part lies left of its outline's segments: inwards is (-uy, ux).
    drift = end.direction(0.0)[0] * pocket_reach(out.stock)
    found = []
    for at in end[:2]:
        towards = -drift if at.y == min(end.start.y, end.end.y) else drift
        off = max(rest, towards + FROM_EDGE if towards > STRAY else 0.0)
        found.append((part.frame.place(*at, part.thickness / 2.0), off))
    return tuple(found)


def side_by_side(out: SettingOut, part: Part) -> int:
    """How many pocket screws find room across either end of a rail: two or three."""
    ways = (part.frame.x, part.frame.x.negated())
    room = min(
        end_towards(part, way).length
        - sum(max(off, MARGIN) for _, off in across_end(out, part, way))
        for way in ways
    )
    return 3 if room >= 2.0 * (out.stock.jig.drill + POCKETS_APART) - 1e-9 else 2


def rail_bite(out: SettingOut) -> float:
    """How far the top rail's screws reach into the edge of a leg, mm.

    As pocket screws choose their length: the longest that keeps its tip cover, beside too.
    """
    kit, t = out.stock, out.stock.frames.thickness
    slope, shoulder = math.radians(kit.jig.angle), kit.jig.shoulder(t)
    bites = [
        (n - shoulder) * math.cos(slope)
        for n in kit.pocket_screw.lengths
        if (n - shoulder) * math.cos(slope) <= out.widths.leg - kit.tip_cover
        and (n - shoulder) * math.sin(slope) <= t / 2.0 - kit.tip_cover
    ]
    shortest = min(kit.pocket_screw.lengths) - shoulder
    return max(bites, default=shortest * math.cos(slope))


def bolt_heights(out: SettingOut) -> tuple[float, float]:
    """Heights of the two bolts from a leg into an apron's end."""
    middle = out.under - out.widths.apron / 2.0
    # Square to a leg that leans they run up in it, towards an end that may be off square.
    off = out.stock.frames.thickness * out.lean.slope_y
    edge = (END_IN_BOLTS * out.stock.undoing.diameter + off) / cosine_sine(out.lean.mitre)[0]
    room = out.widths.apron - 2.0 * edge
    half = min(max(room, 0.0), apart_at_most(out.stock.frames)) / 2.0
    return middle - half, middle + half


def nut_depth(out: SettingOut) -> float:
    """From an apron's end to its barrel nuts, past the end of a bearer that hides the face."""
    if out.ends[0] > out.clear.low:
        return NUT_DEPTH
    nut = out.stock.barrel_nut.body_diameter
    return out.stock.frames.thickness + nut / 2.0 + NUT_PAST_BEARER


def past_bearer(out: SettingOut) -> float:
    """From an apron's end to the far side of its barrel nuts' holes and of the end bearer."""
    nut = nut_depth(out) + out.stock.barrel_nut.body_diameter / 2.0
    return max(nut, out.ends[0] - out.clear.low + out.stock.frames.thickness)


def below_slat_pockets(out: SettingOut, radius: float) -> float:
    """From a bearer's upper edge down to holes in its ends that pass under the slats' pockets, mm.

    Those slope from the middle of the edge towards one face: at a depth v below the edge they
    stand v tan(slope) off the middle of the thickness, where the end's holes run.
    """
    jig = out.stock.jig
    return (jig.drill / 2.0 + radius + WEB) / math.tan(math.radians(jig.angle))


def taken(out: SettingOut, hole: float, neck: float, beside: float) -> tuple[Stretch, ...]:
    """Stretches of height in which a bearer's end can't have a screw.

    Under the slats' pockets, and about the holes of diameter `beside` in the apron's end, if it
    isn't 0.  `hole` is the radius of the screw's hole in the bearer, `neck` in the apron, mm.
    """
    room = beside / 2.0 + neck + WEB
    ends = [(z - room, z + room) for z in bolt_heights(out)] if beside else []
    return (*ends, (out.under - below_slat_pockets(out, hole), out.under))


def most_of(wanted: int, low: float, high: float, blocked: Sequence[Stretch], apart: float) -> int:
    """How many of the places wanted find room; at least one."""
    for count in range(wanted, 1, -1):
        if kept_clear(spread(low, high, count), low, high, blocked, apart, None):
            return count
    return 1


def end_heights(out: SettingOut, screw: Screw, beside: float) -> tuple[float, ...]:
    """Heights of up to three screws through an apron into a bearer's end."""
    low = out.under - out.widths.apron + EDGE_IN_SCREWS * screw.diameter
    high = max(out.under - below_slat_pockets(out, screw.pilot_soft / 2.0), low)
    blocked = taken(out, screw.pilot_soft / 2.0, screw.clearance / 2.0, beside)
    apart = SCREWS_APART * screw.diameter
    count = most_of(3, low, high, blocked, apart)
    return kept_clear(spread(low, high, count), low, high, blocked, apart)
