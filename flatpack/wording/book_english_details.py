"""English: the build book's sentences of single parts: teeth, arms, hinges, wheels."""

from __future__ import annotations

from collections.abc import Mapping


def teeth(marks: str, ramp: str, upright: str) -> str:
    """Which way tooth blocks look."""
    return (
        f"Tooth block {marks}: the long ramp runs down towards the {ramp}; the upright face looks "
        f"to the {upright}. The rod will rest against the upright face."
    )


OUTSIDE = "the turning part on the outer side, the bolts' heads outwards, "
INSIDE = "the turning part on the inner side, "
HOLE_AT: Mapping[str, str] = {
    "datum": "the hole near its datum end on the pivot, ",
    "far": "the hole away from its datum end on the pivot, ",
}


def leaf(side: str, name: str, mark: str) -> str:
    """Where one leaf of a hinge lies."""
    return f"on the {side} face of {name} {mark}"


def hinge(leaves: tuple[str, ...], along: str, across: str, thick: str, axis: str) -> str:
    """How a hinge lies, and the sizes that the design takes for it."""
    return (
        f"One leaf lies {leaves[0]}, the other {leaves[1]}. The design takes a hinge whose leaves "
        f"are {along} along the axis, {across} from the axis to the edge and {thick} thick, and "
        f"whose axis lies {axis} out of the face under the leaf: measure yours before you buy "
        "screws; if the axis lies elsewhere, have the design printed again. "
    )


def wheel(across: str, hub: str, bore: str, inner: str) -> str:
    """Sizes that the design takes for a wheel."""
    return (
        f"The design takes wheels {across} across with a hub {hub} wide and a hole of {bore}, and "
        f"puts the hub's inner face {inner} from the axle's end: that must hold the hub, the outer "
        "washer and the cap. Measure yours before you cut the axle, and add what they need more."
    )


GLUED_ENDS = "These ends are glued and stay bare: {}."
STRIP = (
    "too short to saw or drill singly: shape and drill them on the end of a longer strip, clamped, "
    "and cut each off last"
)
BLOCK_LINES = "pencil the lines at which the tooth blocks stand across both, clamped together"
RACK_SIDE = "The rack seen from the side, the rod at each stop"
HINGE_SIDE = "The hinge seen from the side, {panel} {rest}: its leaves and knuckle in black"


def side_alt(title: str, marks: tuple[str, ...]) -> str:
    """What a side view shows."""
    return f"Line picture: {title[0].lower()}{title[1:]}. Marked: {', '.join(marks)}."
