"""Keys of a cushion box that can't go together: found before anything is built."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from flatpack.mechanism.notches import notch_width
from flatpack.parameters import Conflict
from flatpack.pieces.common.boarded.conflicts import conflicts as of_the_box
from flatpack.pieces.common.notch_forms import notch_form
from flatpack.pieces.common.propping import LAND, PropSetting, run_of
from flatpack.pieces.cushion_box.lid_joints import ROW_EDGE, rack_row
from flatpack.pieces.cushion_box.lid_parts import rail_ends
from flatpack.pieces.cushion_box.parameters import CushionBox
from flatpack.pieces.cushion_box.prop import fold_limit, held, rack_room, set_prop
from flatpack.pieces.cushion_box.setting_out import SAFE_GAP, SettingOut, set_out
from flatpack.pieces.cushion_box.stock import Stock
from flatpack.pieces.family import Workings, mm

LEAST_HELD = 30.0
"""Least that a lid board lies on a batten, mm: room for a pocket screw (common practice)."""
LEAST_FREE = 40.0
"""Least from the racks down to the bottom, mm, so that something goes in (common practice)."""
LEAST_BATTEN = 150.0
"""Shortest batten under a lid, mm (common practice, no source)."""
SCREW_WOOD = 6.0
"""Least wood round a rack's screws in its web, mm (common practice, no source)."""


def conflicts(p: CushionBox, stock: Stock) -> Iterator[Conflict]:
    """What doesn't go together, first by size, then by what has to fit inside."""
    before = list(_first(p))
    yield from before
    if before:
        return
    out = set_out(p, stock, Workings())
    found = [*of_the_box(out.box), *_across(p, out), *_lid(p, out), *_arms(p, out)]
    yield from found
    if not found:
        yield from _rack(p, out)


def _first(p: CushionBox) -> Iterator[Conflict]:
    if any(b <= a for a, b in pairwise(p.lid.angles)):
        yield Conflict(
            "lid.angles",
            list(p.lid.angles),
            f"each larger than the one before: {sorted(set(p.lid.angles))}",
            "the angles are out of order",
        )
    if p.size.depth > p.size.length:
        yield Conflict(
            "size.depth",
            p.size.depth,
            f"at most {mm(p.size.length)}, the length: the lid is hinged along the longer side",
            "the box is deeper than it is long",
        )


def _across(p: CushionBox, out: SettingOut) -> Iterator[Conflict]:
    free = p.size.length - 2.0 * out.lanes.free
    if free < LEAST_FREE:
        yield Conflict(
            "size.length",
            p.size.length,
            f"at least {mm(2.0 * out.lanes.free + LEAST_FREE)}: end board, rack, arm, batten and "
            f"nut take {mm(out.lanes.free)} on each side",
            "too short for the lanes of the arms",
        )
    leaf = out.stock.hinge.leaf_length
    outer = p.size.length * p.hinge.inset
    step = (p.size.length - 2.0 * outer) / (p.hinge.count - 1)
    least = rail_ends(p, out)[0] + leaf / 2.0 + LAND
    if outer < least or step < leaf + LAND:
        yield Conflict(
            "hinge.inset",
            p.hinge.inset,
            f"at least {least / p.size.length:.3f}, {mm(least)} from the ends, with {mm(LAND)} "
            f"between leaves {mm(leaf)} long",
            "the hinges don't fit along the rail",
        )
    leaves = out.stock.hinge.leaf_width - out.stock.hinge.knuckle_diameter / 2.0
    if leaves > out.rail_width:
        yield Conflict(
            "hinge.rail_width",
            p.hinge.rail_width,
            f"at least {mm(leaves)}, to carry the leaf of {out.stock.hinge.name}",
            "the rail is narrower than the hinge's leaf",
        )


def _lid(p: CushionBox, out: SettingOut) -> Iterator[Conflict]:
    if out.under_lid <= SAFE_GAP:
        yield Conflict(
            "hinge.hinge",
            p.hinge.hinge,
            f"a hinge, or boards.posts, that leaves more than {mm(SAFE_GAP)} under the closed lid, "
            f"not {mm(out.under_lid)}",
            "the gap under the closed lid catches fingers",
        )
    lid = out.lid
    if lid.end - lid.start < LEAST_BATTEN:
        yield Conflict(
            "size.depth",
            p.size.depth,
            f"at least {mm(p.size.depth + LEAST_BATTEN - (lid.end - lid.start))}: battens of "
            f"{mm(LEAST_BATTEN)} between rail and front posts",
            "the lid's battens come out too short",
        )
        return
    short = [(high - low, i) for i, (low, high) in enumerate(held(out), 1)]
    least, number = min(short)
    if least < LEAST_HELD:
        yield Conflict(
            "lid.board_width",
            p.lid.board_width,
            f"a width that lets every board lie on {mm(LEAST_HELD)} of the battens; board "
            f"{number} lies on {mm(max(least, 0.0))}",
            "a lid board hardly reaches its battens",
        )


def _arms(p: CushionBox, out: SettingOut) -> Iterator[Conflict]:
    if p.arms.width > out.lid.batten:
        yield Conflict(
            "arms.width",
            p.arms.width,
            f"at most {mm(out.lid.batten)}, the batten's width, so that no end meets the lid",
            "the arms are wider than the battens",
        )
    limit = fold_limit(p, out)
    if p.arms.pivot is not None and p.arms.pivot >= limit:
        yield Conflict(
            "arms.pivot",
            p.arms.pivot,
            f"less than {mm(limit)}, where the folded rod must stop",
            "the pivot lies beyond the room for the folded arm",
        )


def _rack(p: CushionBox, out: SettingOut) -> Iterator[Conflict]:
    prop = set_prop(p, out, Workings())
    form = notch_form(out.stock.notch, out.stock.rod.diameter)
    low, high = rack_room(out)
    first, last = prop.datums[-1].x - form.base - run_of(form), prop.datums[0].x
    if not prop.contour or first < low or last > high:
        yield Conflict(
            "lid.angles",
            list(p.lid.angles),
            f"fewer or others: notches {mm(notch_width(form))} wide fit between {mm(low)} and "
            f"{mm(high)} from the hinge axis, these reach from {mm(first)} to {mm(last)}",
            "the notches don't fit on the rack",
        )
        return
    if last + prop.prop.rod / 4.0 > prop.folded.x:
        yield Conflict(
            "lid.angles",
            list(p.lid.angles),
            "a higher lowest angle, so that its notch ends before the folded rod",
            "the first notch lies where the rod folds away",
        )
    yield from _heights(p, out, prop)


def _heights(p: CushionBox, out: SettingOut, prop: PropSetting) -> Iterator[Conflict]:
    free = out.axis.z + prop.bottom - out.box.floor
    if free < LEAST_FREE:
        yield Conflict(
            "size.height",
            p.size.height,
            f"at least {mm(p.size.height + LEAST_FREE - free)}: lid, batten, rod and rack, and "
            f"{mm(LEAST_FREE)} above the bottom",
            "the racks leave no room above the bottom",
        )
        return
    _, height = rack_row(out, prop)
    web = height - out.axis.z - prop.bottom
    if not SCREW_WOOD <= web <= prop.floor - prop.bottom - SCREW_WOOD:
        yield Conflict(
            "sides.board_width",
            p.sides.board_width,
            f"a width that has no joint beside the rack's web, {mm(out.axis.z + prop.bottom)} to "
            f"{mm(out.axis.z + prop.floor)} above ground, with {mm(ROW_EDGE)} of wood to spare",
            "the rack's screws would meet a gap between end boards",
        )
