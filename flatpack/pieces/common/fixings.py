"""Screws and bolts as leg frames, seats and tops use them: distances, pockets, what they share."""

from __future__ import annotations

import math
from typing import Protocol

from flatpack.joinery import PocketScrews
from flatpack.profiles import BarrelNut, Board, FurnitureBolt, Insert, PocketJig, Screw

EDGE_IN_BOLTS = 3.0
"""Edge distance of a bolt in its diameters: a4,c of Eurocode 5 table 8.4 (3 d)."""
END_IN_BOLTS = 4.0
"""End distance of a bolt in its diameters where no load pulls that way: a3,c of the same (4 d)."""
WOOD_BETWEEN = 4.0
"""From a screw's countersink or a bolt to the pocket beside it, mm (common practice, no source)."""
CLEAR_OF_POCKETS = 14.0
"""From the pockets in a rail's ends to the next hole, mm (common practice, no source)."""


class PocketKit(Protocol):
    """What a family's stock has to hold for its pocket screws."""

    @property
    def frames(self) -> Board:
        """Board of legs, rails and what carries the slats."""

    @property
    def jig(self) -> PocketJig:
        """Pocket-hole jig."""

    @property
    def pocket_screw(self) -> Screw:
        """Screw for pockets."""

    @property
    def tip_cover(self) -> float:
        """Wood left over a screw's tip, mm."""


class Kit(PocketKit, Protocol):
    """What a family's stock has to hold for its joints to be made here."""

    @property
    def wood_screw(self) -> Screw:
        """Countersunk screw."""

    @property
    def undoing(self) -> FurnitureBolt:
        """Bolt that undoes."""

    @property
    def barrel_nut(self) -> BarrelNut:
        """Nut that lies across."""

    @property
    def insert(self) -> Insert:
        """Threaded insert."""


def pockets(kit: PocketKit, **given: object) -> PocketScrews:
    """Pocket screws with the kit's jig, screw and tip cover."""
    return PocketScrews(
        jig=kit.jig,
        screw=kit.pocket_screw,
        tip_cover=kit.tip_cover,
        **given,  # type: ignore[arg-type]  # keywords are PocketScrews' own
    )


def pocket_reach(kit: PocketKit) -> float:
    """How far in from an edge the pockets of the frames' board reach, mm."""
    slope = math.radians(kit.jig.angle)
    half = kit.frames.thickness / 2.0
    return half / math.tan(slope) + kit.jig.drill / 2.0 / math.sin(slope)
