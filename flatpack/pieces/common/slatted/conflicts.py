"""Keys of a slatted top on two leg frames that can't go together, each with what would do."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.parameters import Conflict
from flatpack.pieces.common.fixings import CLEAR_OF_POCKETS, WOOD_BETWEEN, pocket_reach
from flatpack.pieces.common.leg_frames import BOLT_SHARES
from flatpack.pieces.common.slatted.plan import Plan, stock_for
from flatpack.pieces.common.slatted.setting_out import SettingOut, set_out
from flatpack.pieces.common.slatted.slat_screws import FROM_EDGE, screws
from flatpack.pieces.common.slatted.spacing import bolt_heights, past_bearer, rail_bite
from flatpack.pieces.common.slatted.top_joints import under_apron
from flatpack.pieces.family import Workings, fixings_fit, mm, narrow_enough, wide_enough
from flatpack.profiles import Profiles

BELOW_POCKET = 3.0
"""Least wood below the slats' pockets in aprons and bearers, mm (common practice, no source)."""
ROOM_FOR_DRIVER = 340.0
"""Least length of a stretcher, mm, for a long bit and the driver behind it at its end: 150 of bit
and 120 of driver at a slope, behind a pocket that ends 68 from the end (common practice)."""
BETWEEN_ENDS = 30.0
"""Least between the end bearers, and between what is bored into the two ends of an apron, mm."""
BETWEEN_BEARERS = 250.0
"""Least between two bearers, mm: a driver with its bit and a screw (common practice)."""
LEAST_WALL = 3.5
"""Least wood from a bolt's hole to an edge, mm (common practice, no source)."""
UNDER_RAIL = 20.0
"""Least from a top rail down to the low rail, mm."""


def conflicts(p: Plan, profiles: Profiles) -> Iterator[Conflict]:
    """Every one found."""
    out = set_out(p, stock_for(p.boards, p.fixings, profiles), Workings())
    yield from _slats(p, out)
    yield from _across(p, out)
    yield from _along(p, out)
    yield from _bearers(p, out)
    yield from _legs(p, out)
    yield from _rails(p, out)
    yield from _held(p, out)
    yield from fixings_fit(p.fixings, profiles, _threads(p))


def _threads(p: Plan) -> tuple[tuple[str, str], ...]:
    """Keys of the bolt and of what it screws into; inserts are only there if it comes apart."""
    nuts = (("knock_down_bolt", "barrel_nut"),)
    return (*nuts, ("knock_down_bolt", "insert")) if p.loose else nuts


def _slats(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    if out.gap < 0.0:
        width = out.widths.slat
        yield Conflict(
            "top.count" if p.top.count else "top.slat_width",
            p.top.count or p.top.slat_width,
            f"at most {int(p.sizes.depth / width)} slats of {mm(width)} in {mm(p.sizes.depth)}",
            "more slats than fit",
        )


def _across(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    """Legs and aprons across the slats: room for a rail with its bolts between the legs."""
    least = 2.0 * (pocket_reach(out.stock) + CLEAR_OF_POCKETS) + 40.0
    if out.rails.length < least:
        most = (p.sizes.depth - least) / 2.0 - out.lean.wide(out.widths.leg)
        yield Conflict(
            "legs.inset_sides",
            p.legs.inset_sides,
            f"at most {mm(most)}, or narrower legs: the rails between the legs need {mm(least)}"
            if most >= 0.0
            else f"legs at most {mm((p.sizes.depth - least) / 2.0)} wide, as the rails between "
            f"them need {mm(least)}",
            "the legs leave no room for rails between them",
        )
    t = out.stock.frames.thickness
    room = leg_at(out, out.under - out.widths.apron)
    if p.rails.setback + t > room:
        yield Conflict(
            "rails.setback",
            p.rails.setback,
            f"at most {mm(room - t)}: aprons {mm(t)} thick on legs {mm(room)} wide there"
            if room >= t
            else f"legs.width at least {mm(t + out.widths.leg - room)}",
            "the aprons end beside the legs",
        )


def leg_at(out: SettingOut, z: float) -> float:
    """From a leg's outer edge at its top to its inner one at a height, level."""
    return out.lean.wide(out.widths.leg) - out.lean.out_x(z)


def _along(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    """Room between the leg frames: for both ends of an apron, and for a driver."""
    least = 2.0 * past_bearer(out) + BETWEEN_ENDS
    if not p.loose and p.rails.low:
        least = max(least, ROOM_FOR_DRIVER)
    elif not p.loose and not out.lean.front:
        least = max(least, BETWEEN_BEARERS + 2.0 * out.stock.frames.thickness)
    if out.clear.length < least:
        most = p.legs.inset_ends - (least - out.clear.length) / 2.0
        yield Conflict(
            "legs.inset_ends",
            p.legs.inset_ends,
            (
                f"at most {mm(most)}"
                if most >= 0.0
                else f"{p.sizes.keys[0]} {mm(-2.0 * most)} more, and legs.inset_ends = 0"
            )
            + f": the leg frames stand at least {mm(least)} apart",
            "there is no room between the leg frames to drive the screws of bearers and stretcher"
            if least > 2.0 * past_bearer(out) + BETWEEN_ENDS
            else "there is no room between the leg frames for the ends of the aprons",
        )


def _bearers(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    """Bearers too near to another for a driver between them."""
    t = out.stock.frames.thickness
    between = out.ends[1] - out.ends[0]
    free = between / (len(out.middles) + 1) - t
    if out.middles and free < BETWEEN_BEARERS:
        bays = max(int(between / (BETWEEN_BEARERS + t)), 1)
        yield Conflict(
            "rails.longest_span",
            p.rails.longest_span,
            f"at least {math.ceil((between - t) / bays - t)}",
            f"only {mm(free)} would be left between two bearers, too little for a driver",
        )


def _legs(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    """Screws from the rails into the edge of a leg end before the bolts through its face."""
    hole = out.stock.undoing.hole_wood
    at = p.rails.setback + out.stock.frames.thickness / 2.0
    least = at + hole / 2.0 + WOOD_BETWEEN + rail_bite(out)
    missing = least - leg_at(out, bolt_heights(out)[0])
    if missing > 1e-9:
        yield Conflict(
            "legs.width",
            p.legs.width,
            f"at least {mm(wide_enough(out.stock.frames, out.widths.leg + missing))}, or "
            f"rails.setback smaller: "
            f"the aprons' bolts stand {mm(at)} in from the legs' outer edges, the rails' screws "
            f"bite {mm(rail_bite(out))} from the inner ones",
            "the rails' screws meet the aprons' bolts in the legs",
        )


def _rails(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    least = pocket_reach(out.stock) + BELOW_POCKET
    if out.widths.apron < least:
        yield Conflict(
            "rails.apron",
            p.rails.apron,
            f"at least {mm(wide_enough(out.stock.frames, least))}, or a thinner board for frames",
            f"the slats' pockets in the bearers reach {mm(pocket_reach(out.stock))} down",
        )
    free = out.under - out.widths.apron - UNDER_RAIL
    if free < UNDER_RAIL:
        yield Conflict(
            "rails.apron",
            p.rails.apron,
            f"at most {mm(narrow_enough(out.stock.frames, out.under - 2.0 * UNDER_RAIL))}, "
            f"{mm(UNDER_RAIL)} above the ground",
            "aprons and rails reach the ground",
        )
        return
    tallest = max(out.widths.low_rail, (out.widths.low_rail + out.widths.stretcher) / 2.0)
    if p.rails.low and p.rails.low_rail_height + tallest > free:
        yield Conflict(
            "rails.low_rail_height",
            p.rails.low_rail_height,
            f"at most {mm(free - tallest)}, {mm(UNDER_RAIL)} under the top rail"
            if free - tallest >= 0.0
            else f"low rails and stretcher at most {mm(free)} wide, or rails.low = false",
            "the low rail meets the top rail",
        )
    yield from _stretcher(p, out)


def _stretcher(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    """A stretcher wider than the low rail: above the ground, and its bolts within the rail."""
    rail = out.widths.low_rail
    most = rail + 2.0 * p.rails.low_rail_height
    if p.loose:
        wall = out.stock.undoing.hole_wood / 2.0 + LEAST_WALL
        most = min(most, (rail / 2.0 - wall) / (0.5 - BOLT_SHARES[0]))
    if p.rails.low and out.widths.stretcher > most:
        yield Conflict(
            "rails.stretcher",
            p.rails.stretcher,
            f"at most {mm(narrow_enough(out.stock.frames, most))}, on low rails {mm(rail)} wide",
            "the stretcher is too wide for the low rails",
        )


def _held(p: Plan, out: SettingOut) -> Iterator[Conflict]:
    """Slats that lie beside the bearers and aprons and so have nothing to be screwed to."""
    on_aprons = {under_apron(out, where) for where in ("front", "rear")}
    for number in range(1, out.count + 1):
        if not screws(p, out, number) and number not in on_aprons:
            most = out.widths.slat - out.stock.frames.thickness - p.rails.setback - 2.0 * FROM_EDGE
            yield Conflict(
                "legs.inset_sides",
                p.legs.inset_sides,
                f"at most {mm(most)}, so that slat {number} reaches the bearers"
                if most >= 0.0
                else "slats wider, or rails.setback smaller",
                f"slat {number} lies on nothing that it could be screwed to",
            )
            return
