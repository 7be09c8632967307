"""Parts across as beams on the sides, and how they bend."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Vec, Y
from flatpack.model import Part
from flatpack.strength.beams import BentBeam, Patch
from flatpack.strength.layout import reach
from flatpack.strength.loading import Area, Slats
from flatpack.strength.rules.sections import Section, rectangle
from flatpack.strength.setting import Setting
from flatpack.strength.supports import Support

Plane = Literal["flat", "edge"]


class VecPatch(NamedTuple):
    """A load spread from `low` to `high` along a part, N in the piece's axes."""

    low: float
    high: float
    force: Vec


@frozen
class Bent:
    """A part across under one case: bending each way that is loaded, and forces on its bearers."""

    part: Part
    planes: tuple[tuple[Plane, Section, BentBeam], ...]
    borne: tuple[tuple[Support, Vec], ...]


def bend_part(
    setting: Setting, part: Part, stands: Sequence[Support], loads: Iterable[VecPatch]
) -> Bent | None:
    """A part bent flat and on edge; None where its material's values aren't known."""
    row = setting.stuff(part).row
    if row is None or not stands:
        return None
    given = tuple(loads)
    planes: list[tuple[Plane, Section, BentBeam]] = []
    borne = [Vec(0.0, 0.0, 0.0)] * len(stands)
    for plane, axis, width, depth in (
        ("flat", part.frame.z, part.width, part.thickness),
        ("edge", part.frame.y, part.thickness, part.width),
    ):
        patches = tuple(
            Patch(p.low, p.high, -p.force.dot(axis)) for p in given if abs(p.force.dot(axis)) > 1e-9
        )
        if not patches:
            continue
        section = rectangle(width, depth)
        values = setting.stuff(part).bent(row, depth, plane == "flat")
        beam = setting.beam(
            part.length,
            values.stiffness * section.second,
            values.shear_stiffness * section.shear_area,
            tuple(s.place for s in stands),
            patches,
        )
        planes.append(("flat" if plane == "flat" else "edge", section, beam))
        borne = [v.plus(axis, -r) for v, r in zip(borne, beam.reactions, strict=True)]
    return Bent(part=part, planes=tuple(planes), borne=tuple(zip(stands, borne, strict=True)))


def on_slats(slats: Slats, areas: Iterable[Area]) -> dict[str, tuple[VecPatch, ...]]:
    """Loads on each slat by its key."""
    found: dict[str, list[VecPatch]] = {}
    for area in areas:
        for part, share in slats.shares(area):
            left, right = reach(part, Y)
            a = min(max(area.left, left), right - 1.0)
            b = max(min(area.right, right), a + 1.0)
            flip = part.frame.x.y < 0.0
            low, high = (right - b, right - a) if flip else (a - left, b - left)
            force = Vec(*(share * f for f in area.force))
            found.setdefault(part.key, []).append(VecPatch(low, high, force))
    return {key: tuple(patches) for key, patches in found.items()}
