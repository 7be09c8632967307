"""Screws straight through one part's face into another: clearance hole, countersink, pilot."""

from __future__ import annotations

import math

from flatpack.features import Countersink
from flatpack.frozen import frozen, replace
from flatpack.geometry import Point, Vec
from flatpack.joinery.axis import SQUARE, bore, span
from flatpack.joinery.pocket_screws import CHUCK, edge_distance
from flatpack.model import (
    Assembly,
    Driver,
    Fastener,
    Feature,
    Hardware,
    Machining,
    Part,
    cylinder,
)
from flatpack.profiles import Screw


@frozen
class FaceScrews:
    """Countersunk screws at `places` in the piece, running `direction`, into another part.

    Each place need only lie on the screw's axis.  `most_bite` keeps a screw into a deep edge from
    being longer than it needs, mm in the far part.
    """

    key: str
    step: str
    through: str
    into: str
    places: tuple[Vec, ...]
    direction: Vec
    screw: Screw
    tip_cover: float = 3.0
    hard: bool = False
    glue: bool = False
    group: str = "frame"
    most_bite: float | None = None

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return (self.through, self.into)

    def words(self) -> str:
        """How it is made."""
        glued = "glue and " if self.glue else ""
        return f"{glued}{len(self.places)} countersunk screws through the face"

    def machine(self, assembly: Assembly) -> Machining:
        """Clearance hole and countersink in `through`, pilot in `into`, and the screws."""
        features: list[tuple[str, Feature]] = []
        screws = []
        for number, place in enumerate(self.places, 1):
            more, screw = self._one(assembly, place, number)
            features += more
            screws.append(screw)
        return Machining(tuple(features), tuple(screws), ((self.through, self.into),))

    def _one(
        self, assembly: Assembly, place: Vec, number: int
    ) -> tuple[list[tuple[str, Feature]], Fastener]:
        part, mate = assembly.parts[self.through], assembly.parts[self.into]
        enter, leave = span(part, place, self.direction)
        first, last = span(mate, place, self.direction)
        length = self._length(leave - enter, min(last - first, self._to_face(mate, place, first)))
        bite = length - (leave - enter)
        features = self._holes(part, mate, place, min(bite, last - first))
        head = place.plus(self.direction, enter)
        screw = self._screw(part, mate, head, length, number)
        tip = edge_distance(mate, head.plus(self.direction, length))
        return features, replace(screw, bite=bite, tip_cover=last - first - bite, tip_end=tip)

    def _holes(self, part: Part, mate: Part, place: Vec, depth: float) -> list[tuple[str, Feature]]:
        """Clearance and countersink in the first part, pilot in the second."""
        pilot = self.screw.pilot_hard if self.hard else self.screw.pilot_soft
        clear = bore(
            part,
            place,
            self.direction,
            diameter=self.screw.clearance,
            depth=None,
            fit="screw clearance in wood",
            purpose=f"{self.screw.name}, into {mate.title.lower()}",
        )
        sink = Countersink(
            at=Point(clear.at.x, clear.at.y),
            diameter=self.screw.head_diameter,
            face="back" if part.frame.z.dot(self.direction) > 0.0 else "show",
            purpose=f"head of {self.screw.name}",
        )
        hold = bore(
            mate,
            place,
            self.direction,
            diameter=pilot,
            depth=depth,
            fit="screw pilot in wood",
            purpose=f"{self.screw.name}, from {part.title.lower()}",
        )
        return [(part.key, clear), (part.key, sink), (mate.key, hold)]

    def _screw(self, part: Part, mate: Part, head: Vec, length: float, number: int) -> Fastener:
        name, size = f"{self.key}/{number}", f"{self.screw.diameter:g} x {length:g}"
        back = self.direction.negated()
        return Fastener(
            key=name,
            kind="wood screw",
            item=self.screw.name,
            size=size,
            start=head,
            direction=self.direction,
            length=length,
            diameter=self.screw.diameter,
            passes=(part.key, mate.key),
            inside=(part.key, mate.key),
            solids=(cylinder(name, head, self.direction, self.screw.diameter / 2.0, length),),
            drivers=(
                Driver(head, back, 5.0, 60.0),
                Driver(head.plus(back, 60.0), back, *CHUCK),
            ),
            hardware=(Hardware(self.screw.name, size, 1, f"{part.name} to {mate.name}"),),
            step=self.step,
            group="back" if self.group == "back" else "frame",
            joint=self.key,
        )

    def _to_face(self, mate: Part, place: Vec, first: float) -> float:
        """Depth of a screw that slants in the mate until its side is too near to a face, mm."""
        rise = mate.frame.z.dot(self.direction)
        if not SQUARE < abs(rise) < 1.0 - SQUARE:
            return math.inf
        height = mate.frame.local(place.plus(self.direction, first)).z
        wood = mate.thickness - height if rise > 0.0 else height
        return (wood - self.tip_cover - self.screw.diameter / 2.0) / abs(rise) + self.tip_cover

    def _length(self, through: float, depth: float) -> float:
        most = depth - self.tip_cover
        most = most if self.most_bite is None else min(most, self.most_bite)
        fitting = [n for n in self.screw.lengths if n - through <= most + 1e-9]
        return max(fitting, default=min(self.screw.lengths))
