"""Joints of a prop: its arms' pivots, and the rod in the arms."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, Y
from flatpack.joinery import BarInHoles, BoltThrough
from flatpack.model import Joint
from flatpack.pieces.common.lanes import Pivot
from flatpack.pieces.common.propping import PropSetting


def prop_joints(prop: PropSetting, axis: Vec, carrier: str, pivot: Pivot) -> Iterator[Joint]:
    """Arms on what carries them, named `carrier` and its hand; `axis` lies on the hinge axis."""
    place = Vec(axis.x + prop.prop.pivot.x, 0.0, axis.z + prop.prop.pivot.y)
    for hand, way in (("left", Y), ("right", Y.negated())):
        yield BoltThrough(
            key=f"pivot-{hand}",
            step="arms",
            through=(f"arm-{hand}", f"{carrier}-{hand}"),
            place=place,
            direction=way,
            bolt=pivot.bolt,
            nut=pivot.nut,
            washer=pivot.washer,
            turning=(f"{carrier}-{hand}",),
            between=True,
            use="arm's pivot",
            group="back",
        )
    yield BarInHoles(
        key="rod-in-arms",
        step="arms",
        bar="rod",
        holders=("arm-left", "arm-right"),
        fit="fixed",
        use="prop rod",
    )
