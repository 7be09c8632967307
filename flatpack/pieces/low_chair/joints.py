"""A low chair's joints from seat to whole, and the steps in the order of making.

Seat, back and arms are each made on the bench; eight bolts and four screws then join them.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, Y
from flatpack.joinery import BoltThrough
from flatpack.joinery.pocket_screws import MARGIN
from flatpack.model import Joint, Step
from flatpack.pieces.common.fixings import WOOD_BETWEEN, pocket_reach, pockets
from flatpack.pieces.low_chair.back_joints import arm_joints, arm_to_post, back_joints
from flatpack.pieces.low_chair.bolting import bolt_depths, leg_places, post_places, washer
from flatpack.pieces.low_chair.parameters import LowChair
from flatpack.pieces.low_chair.setting_out import SettingOut

LEAST_FOR_TWO = 30.0
"""A slat narrower than this gets one screw on each rail, mm (common practice, no source)."""

STEPS = (
    Step("apron", "Apron between the rails", "", ("Between the rails",)),
    Step(
        "seat",
        "Seat slats on rails and apron",
        "",
        ("Seat slats cover", "Gap between seat slats"),
        ("between seat slats",),
    ),
    Step("back frame", "Cross rails on the back posts"),
    Step(
        "back",
        "Back slats on the cross rails, from the middle outwards",
        "",
        ("Back slat ", "Gap between back slats, lower ends"),
        ("between back slats",),
    ),
    Step("arm tops", "Arms on the front legs"),
    Step("posts", "Back bolted into the seat", "", ("Back leans",)),
    Step("arms", "Legs bolted to the rails, arms to the posts", "", ("Rails' foot", "Arm's top")),
)


def inner(hand: str) -> Vec:
    """The way the inner faces of a side's parts look."""
    return Y if hand == "left" else Y.negated()


def joints(p: LowChair, out: SettingOut) -> Iterator[Joint]:
    """Every joint, in the order of making."""
    for hand in ("left", "right"):
        yield _apron(out, hand)
    yield from _seat(out)
    yield from back_joints(p, out)
    yield from arm_joints(p, out)
    for hand in ("left", "right"):
        yield from _bolts(p, out, hand, ("rail", "post"), "posts", post_places(out))
    for hand in ("left", "right"):
        yield from _bolts(p, out, hand, ("leg-front", "rail"), "arms", leg_places(out))
        yield arm_to_post(p, out, hand, inner(hand))


def _bolts(
    p: LowChair,
    out: SettingOut,
    hand: str,
    through: tuple[str, str],
    step: str,
    places: tuple[Vec, ...],
) -> Iterator[Joint]:
    start = 0.0 if hand == "left" else p.size.width
    for number, place in enumerate(places, 1):
        yield BoltThrough(
            key=f"{through[0]}-to-{through[1]}-{hand}-{number}",
            step=step,
            through=tuple(f"{key}-{hand}" for key in through),
            place=Vec(place.x, start, place.z),
            direction=inner(hand),
            bolt=out.stock.bolt,
            nut=out.stock.nut,
            washer=out.stock.washer,
            use="post to rail" if step == "posts" else "front leg to rail",
        )


def _apron(out: SettingOut, hand: str) -> Joint:
    return pockets(
        out.stock,
        key=f"apron-to-{hand}",
        step="apron",
        through="apron",
        into=f"rail-{hand}",
        outward=inner(hand).negated(),
        pocket_face=out.lines.along,
        count=2,
    )


def _seat(out: SettingOut) -> Iterator[Joint]:
    """Slats from pockets in the rails' inner faces; the front one from the apron too."""
    kept = tuple(_kept_free(out))
    for number in range(1 if _front_on_rails(out) else 2, out.seat.count + 1):
        for hand in ("left", "right"):
            yield pockets(
                out.stock,
                key=f"slat-{number}-on-{hand}",
                step="seat",
                through=f"rail-{hand}",
                into=f"slat-{number}",
                outward=out.lines.normal,
                pocket_face=inner(hand),
                count=1 if number == 1 or out.widths.seat_slat < LEAST_FOR_TWO else 2,
                avoid=kept,
            )
    yield pockets(
        out.stock,
        key="slat-1-on-apron",
        step="seat",
        through="apron",
        into="slat-1",
        outward=out.lines.normal,
        pocket_face=out.lines.along,
        count=3,
    )


def _front_on_rails(out: SettingOut) -> bool:
    """Whether the front slat reaches far enough past the apron for a screw on each rail."""
    half = out.stock.jig.drill / 2.0 + WOOD_BETWEEN
    return out.seat.front_end - MARGIN >= out.stock.frames.thickness + half


def _kept_free(out: SettingOut) -> Iterator[tuple[Vec, float]]:
    """Places that the pockets keep clear of along the rail, each with its half width."""
    half = out.stock.jig.drill / 2.0 + WOOD_BETWEEN
    apron = out.stock.frames.thickness / 2.0
    yield out.lines.on_rail(apron, 0.0), apron + half
    reach = pocket_reach(out.stock) + WOOD_BETWEEN
    for depth, leg, post in zip(bolt_depths(out), leg_places(out), post_places(out), strict=True):
        if depth - washer(out) < reach:
            yield leg, washer(out) + half
            yield post, out.stock.bolt.diameter / 2.0 + half
