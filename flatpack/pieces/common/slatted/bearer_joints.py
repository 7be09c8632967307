"""Joints of the bearers that carry the slats: to the aprons, and the end ones to the top rails."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.geometry import Vec, X, Y
from flatpack.joinery import FaceScrews
from flatpack.joinery.pocket_screws import MARGIN, POCKETS_APART
from flatpack.model import Joint, Part
from flatpack.pieces.common.fixings import pockets
from flatpack.pieces.common.leg_frames import cleat_joints, inner
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import SettingOut
from flatpack.pieces.common.slatted.slat_screws import pockets_at
from flatpack.pieces.common.slatted.spacing import end_heights, most_of, taken

Parts = Mapping[str, Part]
SIDES = ("left", "right")
ROOM_FOR_DRIVER = 340.0
"""Least room between two parts for a long bit and the driver behind it, mm: 150 of bit and 120 of
driver at a slope, behind a pocket that ends 68 from the end (common practice, no source)."""
BITE = 10.0
"""Screws into a bearer's end bite this many diameters in its end grain, if sold so long."""


def bearer_joints(p: Plan, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Bearers between the aprons, and the end ones on the top rails.

    Upright end bearers are screwed or bolted to the rails behind them; to the aprons too where
    the top must hold together by itself, or where the rails lean away from them.
    """
    free = p.loose or out.lean.front > 0.0
    beside = out.stock.undoing.hole_wood
    # Pockets in an end bearer's outer face are out of reach once its leg frame stands there.
    join = _by_pockets if out.bearers.length >= ROOM_FOR_DRIVER and p.loose else _by_screws
    if free:
        for name in SIDES:
            yield from join(out, parts[f"bearer-{name}"], inner(name).negated(), beside)
    join = _by_pockets if out.bearers.length >= ROOM_FOR_DRIVER else _by_screws
    for number in range(1, len(out.middles) + 1):
        yield from join(out, parts[f"bearer-middle-{number}"], Y.negated(), 0.0)
    if out.lean.front == 0.0:
        for name in SIDES:
            yield from _on_rail(p, out, parts, name)


def inwards(where: str) -> Vec:
    """The way an apron's inner face looks."""
    return X if where == "front" else X.negated()


def _on_rail(p: Plan, out: SettingOut, parts: Parts, name: str) -> Iterator[Joint]:
    yield from cleat_joints(
        out.stock,
        parts[f"bearer-{name}"],
        parts[f"top-rail-{name}"],
        name,
        "legs" if p.loose else "bearers",
        loose=p.loose,
        use="top",
        pockets_at=pockets_at(p, out),
    )


def _by_pockets(out: SettingOut, bearer: Part, face: Vec, beside: float) -> Iterator[Joint]:
    """In the face away from the slats' pockets."""
    hole, neck = out.stock.jig.drill / 2.0, out.stock.pocket_screw.diameter / 2.0
    spots = taken(out, hole, neck, beside)
    low, apart = out.under - out.widths.apron, out.stock.jig.drill + POCKETS_APART
    count = most_of(3, low + MARGIN, out.under - MARGIN, spots, apart)
    for where in ("front", "rear"):
        yield pockets(
            out.stock,
            key=f"{bearer.key}-to-{where}-apron",
            step="bearers",
            through=bearer.key,
            into=f"apron-{where}",
            outward=inwards(where).negated(),
            pocket_face=face,
            count=count,
            avoid=tuple((Vec(0.0, 0.0, (a + b) / 2.0), (b - a) / 2.0) for a, b in spots),
        )


def _by_screws(out: SettingOut, bearer: Part, _: Vec, beside: float) -> Iterator[Joint]:
    """Through the apron's face, where there is no room between the aprons to drive from inside."""
    screw = out.stock.wood_screw
    middle = bearer.frame.place(0.0, 0.0, bearer.thickness / 2.0)
    heights = end_heights(out, screw, beside)
    for where in ("front", "rear"):
        yield FaceScrews(
            key=f"{bearer.key}-to-{where}-apron",
            step="bearers",
            through=f"apron-{where}",
            into=bearer.key,
            places=tuple(Vec(middle.x, middle.y, z) for z in heights),
            direction=inwards(where),
            screw=screw,
            tip_cover=out.stock.tip_cover,
            most_bite=BITE * screw.diameter,
            glue=True,
        )
