"""Joints without hardware, made from their keys: halvings, tenons, wedged tenons."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flatpack.joinery import (
    Halving,
    TenonThrough,
    ThroughTenon,
    Wedged,
    WedgedTenon,
    wedge_part,
    wedge_size,
)
from flatpack.model import Assembly, Joint, Part
from flatpack.pieces.composed.directions import OTHER_HAND, WAYS
from flatpack.pieces.composed.joint_makers import Bench, Where, places


def halvings(bench: Bench, p: Any, where: Where, pairs: list[tuple[Part, Part]]) -> Iterator[Joint]:
    """A halving wherever two boards cross; each that is named must cross one of the others.

    Raises:
        StuckError: one crosses none.
    """
    left = {part.key: part for pair in pairs for part in pair}
    found = []
    for upper, lower in pairs:
        joint = Halving(
            key=bench.name(upper.key, lower.key), step=where[1], lower=lower.key, upper=upper.key,
            direction=WAYS[p.slides], fitting=bench.fitting, share=p.share,
        )  # fmt: skip
        if _crosses(joint, upper, lower):
            found.append(joint)
            left.pop(upper.key, None)
            left.pop(lower.key, None)
    for key in left:
        bench.layout.faults.note(
            where[0], key, "boards that stand upright to each other and cross",
            f"{key} crosses none of the others the way that they slide",
        )  # fmt: skip
    yield from found


def _crosses(joint: Halving, upper: Part, lower: Part) -> bool:
    """Whether both boards stand on the line in which they cross, one in the other's room."""
    whole = Assembly(family="", name="", parts={p.key: p for p in (upper, lower)})
    try:
        return bool(joint.machine(whole).recesses)
    except ValueError:
        return False


def tenons(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Tenons on the first part."""
    key = where[0]
    yield ThroughTenon(
        key=bench.name(pair.one.key, pair.other.key),
        step=where[1],
        part=pair.one.key,
        into=pair.other.key,
        places=places(bench, p, where, pair),
        direction=pair.met.normal,
        width=bench.layout.length(p.tenon, f"{key}.tenon"),
        fitting=bench.fitting,
        grip=p.hold,
        shy=bench.layout.length(p.shy, f"{key}.shy"),
    )


def wedged_tenons(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Wedged tenons, each with its wedge as a part of its own.

    Raises:
        StuckError: the wedge would be driven along the tenon, or into the first part's edge.
    """
    one, other, met = pair
    drive = WAYS[OTHER_HAND.get(p.drive, p.drive) if one.hand == "right" else p.drive]
    if abs(abs(drive.dot(one.frame.z)) - 1.0) > 1e-6:
        raise bench.layout.faults.stop(
            f"{where[0]}.drive", p.drive, f"a way through the faces of {one.key}",
            "a wedge is driven through the tenon's faces",
        )  # fmt: skip
    lengths = {k: bench.layout.length(getattr(p, k), f"{where[0]}.{k}")
               for k in ("tenon", "wedge", "relish")}  # fmt: skip
    fit = bench.fitting
    for place in places(bench, p, where, pair):
        key = bench.name(one.key, other.key)
        made = WedgedTenon(
            key=key, step=where[1], wedge_step=p.wedge_step or where[1], part=one.key,
            into=other.key, place=place, out=met.normal, drive=drive, width=lengths["tenon"],
            relish=lengths["relish"], thickness=one.thickness, fitting=fit,
            size=wedge_size(lengths["wedge"], p.taper, one.thickness, fit.tolerance),
            slides=one.key if p.moves == "through" else other.key,
        )  # fmt: skip
        wedge = f"{key}-wedge-piece"
        bench.wedges[wedge] = wedge_part(wedge, made, one, other)
        yield TenonThrough(made=made)
        yield Wedged(made=made, wedge=wedge)
