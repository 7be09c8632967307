"""Joints of the leg frames, and of the aprons, bearers and stretcher between them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.geometry import Vec
from flatpack.joinery import BarrelNutBolt
from flatpack.model import Joint, Part
from flatpack.pieces.common.leg_frames import rail_joints, stretcher_joints
from flatpack.pieces.common.slatted.bearer_joints import bearer_joints, inwards
from flatpack.pieces.common.slatted.parts import INNER_EDGE
from flatpack.pieces.common.slatted.plan import Plan
from flatpack.pieces.common.slatted.setting_out import SettingOut
from flatpack.pieces.common.slatted.spacing import across_end, bolt_heights, nut_depth, side_by_side
from flatpack.pieces.common.splay import edge_of

Parts = Mapping[str, Part]
SIDES = ("left", "right")


def frame_joints(p: Plan, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Rails between the legs, then what joins the two frames, and the stretcher."""
    rails = ("top-rail", "low-rail") if p.rails.low else ("top-rail",)
    for name in SIDES:
        yield from rail_joints(
            out.stock,
            name,
            rails,
            ways=_to_legs(parts, name),
            inside=out.lean.inwards(name),
            avoid=lambda rail, way: across_end(out, parts[rail], way),
            count=lambda rail: side_by_side(out, parts[rail]),
        )
    for where in ("front", "rear"):
        for name in SIDES:
            yield from _apron_bolts(out, parts, where, name, "legs" if p.loose else "aprons")
    yield from bearer_joints(p, out, parts)
    if p.rails.low:
        ways = tuple(out.lean.inwards(name).negated() for name in SIDES)
        yield from stretcher_joints(
            out.stock,
            out.frames,
            parts,
            loose=p.loose,
            ways=(ways[0], ways[1]),
            avoid=lambda part, way: across_end(out, parts[part], way),
        )


def _to_legs(parts: Parts, name: str) -> tuple[Vec, Vec]:
    """The ways from a frame's rails square into its legs, front and rear."""
    front, rear = (
        edge_of(parts[f"leg-{where}-{name}"], INNER_EDGE).out.negated()
        for where in ("front", "rear")
    )
    return front, rear


def _apron_bolts(
    out: SettingOut, parts: Parts, where: str, name: str, step: str
) -> Iterator[Joint]:
    """Bolts through a leg into barrel nuts in the apron's end, past the end bearer's end.

    Whoever leans on the top racks these corners most; pocket screws in end grain don't last there.
    """
    apron, kit = parts[f"apron-{where}"], out.stock
    middle = apron.frame.place(0.0, 0.0, apron.thickness / 2.0)
    for number, z in enumerate(bolt_heights(out), 1):
        off = out.lean.out_y(z)
        y = out.clear.low - off if name == "left" else out.clear.high + off
        yield BarrelNutBolt(
            key=f"apron-{where}-to-{name}-leg-bolt-{number}",
            step=step,
            through=f"leg-{where}-{name}",
            into=apron.key,
            place=Vec(middle.x, y, z),
            direction=out.lean.inwards(name),
            nut_face=inwards(where),
            depth=nut_depth(out),
            bolt=kit.undoing,
            nut=kit.barrel_nut,
            use="leg frame to apron",
        )
