"""Joints of the bearers that carry the slats: to the aprons, and the end ones to the top rails."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.geometry import Vec, X
from flatpack.joinery import FaceScrews
from flatpack.model import Joint, Part
from flatpack.pieces.common.leg_frames import cleat_joints
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import SettingOut
from flatpack.pieces.common.slatted.slat_screws import pockets_at
from flatpack.pieces.common.slatted.spacing import end_heights

Parts = Mapping[str, Part]
SIDES = ("left", "right")
BITE = 10.0
"""Screws into a bearer's end bite this many diameters in its end grain, if sold so long."""


def bearer_joints(p: Plan, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Bearers between the aprons, and the end ones on the top rails.

    Upright end bearers are screwed or bolted to the rails behind them; to the aprons too where
    the top must hold together by itself, or where the rails lean away from them.
    """
    leaning = out.lean.front > 0.0
    if p.loose or leaning:
        beside = 0.0 if leaning else out.stock.undoing.hole_wood
        for name in SIDES:
            yield from _to_aprons(out, parts[f"bearer-{name}"], beside)
    for number in range(1, len(out.middles) + 1):
        yield from _to_aprons(out, parts[f"bearer-middle-{number}"], 0.0)
    if not leaning:
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


def _to_aprons(out: SettingOut, bearer: Part, beside: float) -> Iterator[Joint]:
    """Through the aprons' faces into the ends of a bearer, which hangs on them with its load.

    A driver finds no room between the aprons, and pocket screws carry half as much.
    """
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
