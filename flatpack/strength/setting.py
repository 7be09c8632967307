"""What all checks of one piece share: its parts, links, materials and loads."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cached_property

from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part
from flatpack.profiles import LoadSet, Profiles
from flatpack.strength.beams import BentBeam, Patch, bend
from flatpack.strength.layout import Link, links, mass, middle
from flatpack.strength.rules.design import final_deflection
from flatpack.strength.stuff import Stuff, stuff_of

GRAVITY = 9.81
"""m/s2."""


@frozen(kw_only=False)
class Setting:
    """The piece with its back flat, its profiles, loads, and the grades that its maker knows."""

    assembly: Assembly
    profiles: Profiles
    loads: LoadSet
    grades: Mapping[str, str]

    @cached_property
    def links(self) -> tuple[Link, ...]:
        """Pairs of parts held together."""
        return links(self.assembly)

    @cached_property
    def _stuff(self) -> dict[tuple[str, float], Stuff]:
        return {}

    @cached_property
    def memo(self) -> dict[object, object]:
        """What was worked out already, under keys of those who did."""
        return {}

    @cached_property
    def _beams(self) -> dict[object, BentBeam]:
        return {}

    def part(self, key: str) -> Part:
        """A part."""
        return self.assembly.parts[key]

    def stuff(self, part: Part) -> Stuff:
        """What a part is made of."""
        # One board may have been measured at two thicknesses.
        key = part.board.key, part.thickness
        found = self._stuff.get(key)
        if found is None:
            found = self._stuff[key] = stuff_of(part.board, self.profiles, self.grades)
        return found

    def beam(
        self, length: float, ei: float, ga: float, supports: tuple[float, ...],
        loads: tuple[Patch, ...],
    ) -> BentBeam:  # fmt: skip
        """A bent beam; like ones are worked out once."""
        key = length, ei, ga, supports, loads
        found = self._beams.get(key)
        if found is None:
            found = self._beams[key] = bend(length, ei, ga, supports, loads)
        return found

    def crept(self, part: Part, sag: float, factor: float, lasting: float | None = None) -> float:
        """Final deflection, mm, of one under a load times `factor`, of which a share lasts."""
        share = self.loads.lasting_share if lasting is None else lasting
        k_def = self.stuff(part).k_def(self.loads.service_class)
        return final_deflection(sag / factor, k_def, share)

    @property
    def person(self) -> float:
        """Weight of one person, N."""
        return self.loads.person * GRAVITY

    @cached_property
    def weight(self) -> tuple[float, Vec]:
        """Weight of the whole piece, N, and where it acts: parts and bars, no hardware."""
        masses = [(mass(p), middle(p)) for p in self.assembly.parts.values()]
        for bar in self.assembly.bars.values():
            area = math.pi * bar.stock.diameter**2 / 4.0
            kg = area * bar.length * bar.stock.density * 1e-9
            masses.append((kg, bar.frame.place(0.0, 0.0, bar.length / 2.0)))
        whole = sum(kg for kg, _ in masses)
        at = Vec(*(sum(kg * v[i] for kg, v in masses) / whole for i in range(3)))
        return whole * GRAVITY, at
