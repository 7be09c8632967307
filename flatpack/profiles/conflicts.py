"""What doesn't go together within one profile; `CHECKS` has a row for each kind that can go wrong.

Whoever writes a profile of their own learns here, with file and line, what would otherwise show
as a puzzling part or as a screw that is never long enough.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import pairwise
from types import MappingProxyType
from typing import Any

from flatpack.parameters import Conflict
from flatpack.profiles.boards import Board
from flatpack.profiles.finishing import Finish
from flatpack.profiles.fittings import BarrelNut, Hinge, Insert, Washer
from flatpack.profiles.rolling import Rod, Wheel
from flatpack.profiles.shaping import PocketJig
from flatpack.profiles.stock import Stock
from flatpack.profiles.strength_data import Material
from flatpack.profiles.workshop import Workshop

Check = Callable[[Any], Iterator[Conflict]]


def _below(made: Any, *names: str) -> Iterator[Conflict]:
    """Each named value must be smaller than the next."""
    for low, high in pairwise(names):
        if getattr(made, low) >= getattr(made, high):
            limit = f"less than `{high}`, which is {getattr(made, high):g}"
            yield Conflict(low, getattr(made, low), limit, "too large")


def _ascending(made: Any, name: str) -> Iterator[Conflict]:
    values = getattr(made, name)
    for i, (low, high) in enumerate(pairwise(values), 1):
        if high <= low:
            yield Conflict(f"{name}[{i}]", high, "rising values, none twice", "out of order")


def _board(board: Board) -> Iterator[Conflict]:
    needed = ("sheets",) if board.kind == "sheet" else ("widths", "lengths")
    for name in needed:
        if not getattr(board, name):
            yield Conflict(
                name, None, "one size or more", f"missing: a {board.kind} board needs it"
            )
    yield from _ascending(board, "widths")
    yield from _ascending(board, "lengths")


def _screw(screw: Any) -> Iterator[Conflict]:
    yield from _ascending(screw, "lengths")
    yield from _below(screw, "diameter", "head_diameter")
    yield from _below(screw, "pilot_soft", "diameter", "clearance")


def _bolt(bolt: Any) -> Iterator[Conflict]:
    yield from _ascending(bolt, "lengths")
    yield from _below(bolt, "pitch", "diameter", "head_diameter")
    if bolt.hole_wood < bolt.diameter:
        yield Conflict("hole_wood", bolt.hole_wood, f"{bolt.diameter:g} or more", "bolt won't pass")


def _washer(washer: Washer) -> Iterator[Conflict]:
    yield from _below(washer, "diameter", "inner", "outer")


def _barrel_nut(nut: BarrelNut) -> Iterator[Conflict]:
    yield from _below(nut, "diameter", "body_diameter")
    yield from _below(nut, "cross_offset", "body_length")


def _insert(insert: Insert) -> Iterator[Conflict]:
    yield from _below(insert, "diameter", "hole_soft", "outer")
    yield from _below(insert, "flange_height", "length")


def _hinge(hinge: Hinge) -> Iterator[Conflict]:
    for i, (from_axis, along) in enumerate(hinge.holes):
        if not 0.0 < from_axis < hinge.leaf_width or abs(along) >= hinge.leaf_length / 2.0:
            half = hinge.leaf_length / 2.0
            limit = f"0 to {hinge.leaf_width:g} from the axis, {-half:g} to {half:g} along it"
            yield Conflict(f"holes[{i}]", f"[{from_axis:g}, {along:g}]", limit, "off the leaf")


def _rod(rod: Rod) -> Iterator[Conflict]:
    yield from _ascending(rod, "lengths")


def _wheel(wheel: Wheel) -> Iterator[Conflict]:
    yield from _below(wheel, "axle", "bore", "diameter")


def _finish(finish: Finish) -> Iterator[Conflict]:
    yield from _below(finish, "coverage_least", "coverage_most")


def _pocket_jig(jig: PocketJig) -> Iterator[Conflict]:
    yield from _below(jig, "pilot", "drill")
    yield from _below(jig, "thinnest", "thickest")


def _workshop(shop: Workshop) -> Iterator[Conflict]:
    yield from _ascending(shop, "cutters")
    seen: set[str] = set()
    for i, style in enumerate(shop.layers):
        if style.layer in seen:
            yield Conflict(f"layers[{i}].layer", style.layer, "each layer once", "named twice")
        seen.add(style.layer)
    for low, high in (("press", "push"), ("push", "slide")):
        if getattr(shop.fits, low) >= getattr(shop.fits, high):
            limit = f"less than `fits.{high}`, which is {getattr(shop.fits, high):g}"
            yield Conflict(f"fits.{low}", getattr(shop.fits, low), limit, "too loose")


def _stock(stock: Stock) -> Iterator[Conflict]:
    for i, tin in enumerate(stock.tins):
        if (tin.glue is None) == (tin.finish is None):
            yield Conflict(f"tins[{i}]", None, "either `glue` or `finish`", "one of the two")
    for i, row in enumerate(stock.boards):
        for start, end in row.defects:
            if end <= start:
                value = f"[{start:g}, {end:g}]"
                yield Conflict(
                    f"boards[{i}].defects", value, "[start, end]", "ends before it starts"
                )


def _material(material: Material) -> Iterator[Conflict]:
    if material.kind == "steel":
        for name in ("tensile", "proof"):
            if getattr(material, name) is None:
                yield Conflict(name, None, "N/mm2", "missing: steel needs it")
        return
    if not material.rows:
        yield Conflict("rows", None, "one row or more", "missing: no strengths are given")
    for name, entries in (("k_mod_dry", 5), ("k_mod_wet", 5), ("k_def", 3)):
        if len(getattr(material, name)) != entries:
            given = list(getattr(material, name))
            yield Conflict(name, given, f"{entries} numbers", "wrong number of entries")


#: Kind of profile -> what its values must agree on.
CHECKS: Mapping[str, Check] = MappingProxyType(
    {
        "boards": _board,
        "screws": _screw,
        "coach-bolts": _bolt,
        "hex-bolts": _bolt,
        "furniture-bolts": _bolt,
        "washers": _washer,
        "barrel-nuts": _barrel_nut,
        "inserts": _insert,
        "hinges": _hinge,
        "rods": _rod,
        "wheels": _wheel,
        "finishes": _finish,
        "pocket-jigs": _pocket_jig,
        "workshops": _workshop,
        "stock": _stock,
        "materials": _material,
    }
)
