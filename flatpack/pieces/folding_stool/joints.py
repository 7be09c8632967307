"""A folding stool's joints, and the steps in the order of making."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, Y, Z
from flatpack.joinery import BarInHoles, BoltThrough, FaceScrews
from flatpack.model import Joint, Part, Step
from flatpack.pieces.folding_stool.parameters import FoldingStool
from flatpack.pieces.folding_stool.parts import slat_places
from flatpack.pieces.folding_stool.setting_out import SettingOut, slat_width

BITE_IN_SCREWS = 8.0
"""Most bite of a screw into an edge, in its diameters: longer gains little (common practice)."""
UNDER_SLOT = 6.0
"""From a screw's tip to the slot below it, mm (common practice, no source)."""
TWO_SCREWS = 44.0
"""A slat this wide gets two screws on each batten, mm (common practice, no source)."""
FOLDS = (
    "Try the movement before the glue sets: the legs must turn freely and come to lie in line. "
    "Keep fingers away from between the legs, the bars and the low rail while they close."
)
TO_FOLD = (
    "To open: spread the legs and hook the slots over the bars, the deeper one to the front. "
    "To fold: lift the seat off, close the legs, and lay the seat on them."
)
STEPS = (
    Step("inner legs", "Front and low bar between the inner legs"),
    Step("pivot", "Outer legs on the pivot bolts", "", ("Pivot above", "Outer legs, pivot")),
    Step("outer legs", "Rear bar and low rail across the outer legs", FOLDS, ("Rear top bar's",)),
    Step(
        "seat",
        "Seat slats on the battens",
        TO_FOLD,
        ("Top bars apart", "Gap between seat slats"),
        ("between seat slats",),
    ),
)


def joints(p: FoldingStool, out: SettingOut, parts: dict[str, Part]) -> Iterator[Joint]:
    """Every joint, in the order of making."""
    for bar, legs, step in (
        ("bar-front", "inner", "inner legs"),
        ("bar-low", "inner", "inner legs"),
        ("bar-rear", "outer", "outer legs"),
    ):
        yield BarInHoles(
            key=f"{bar}-in-legs",
            step=step,
            bar=bar,
            holders=(f"leg-{legs}-left", f"leg-{legs}-right"),
            use="between the legs",
        )
    for hand in ("left", "right"):
        yield _pivot(p, out, hand)
        yield _rail(p, out, parts, hand)
    for number, front in enumerate(slat_places(p, out), 1):
        for hand in ("left", "right"):
            yield _slat(p, out, number, front, hand)


def _pivot(p: FoldingStool, out: SettingOut, hand: str) -> Joint:
    """Head inside, so that little stands into the battens' lane; the outer leg turns."""
    y = out.lanes.batten if hand == "left" else p.size.width - out.lanes.batten
    return BoltThrough(
        key=f"pivot-{hand}",
        step="pivot",
        through=(f"leg-inner-{hand}", f"leg-outer-{hand}"),
        place=Vec(out.pivot.x, y, out.pivot.z),
        direction=Y.negated() if hand == "left" else Y,
        bolt=out.stock.bolt,
        nut=out.stock.nut,
        washer=out.stock.washer,
        turning=(f"leg-outer-{hand}",),
        between=True,
        use="pivot of the legs",
    )


def _rail(p: FoldingStool, out: SettingOut, parts: dict[str, Part], hand: str) -> Joint:
    frame, t = parts["low-rail"].frame, out.stock.frames.thickness
    y = t / 2.0 if hand == "right" else p.size.width - t / 2.0
    return FaceScrews(
        key=f"low-rail-on-{hand}",
        step="outer legs",
        through="low-rail",
        into=f"leg-outer-{hand}",
        places=tuple(frame.place(y, out.widths.rail * share) for share in (0.27, 0.73)),
        direction=frame.z.negated(),
        screw=out.stock.wood_screw,
        most_bite=BITE_IN_SCREWS * out.stock.wood_screw.diameter,
    )


def _slat(p: FoldingStool, out: SettingOut, number: int, front: float, hand: str) -> Joint:
    """Screws from above, in the middle of the batten's thickness, no deeper than over a slot."""
    middle = out.lanes.batten + out.stock.frames.thickness / 2.0
    y = middle if hand == "left" else p.size.width - middle
    width = slat_width(p, out)
    shares = (0.28, 0.72) if width >= TWO_SCREWS else (0.5,)
    return FaceScrews(
        key=f"slat-{number}-on-{hand}",
        step="seat",
        through=f"slat-{number}",
        into=f"batten-{hand}",
        places=tuple(Vec(front + width * share, y, p.size.height) for share in shares),
        direction=Z.negated(),
        screw=out.stock.wood_screw,
        most_bite=p.seat.over_slot - UNDER_SLOT,
    )
