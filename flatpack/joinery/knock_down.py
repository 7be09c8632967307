"""Joints that come apart: a bolt into a barrel nut, or into a threaded insert.

Barrel nut: the bolt runs through one part's face into another's end; the nut lies across it.

    |  through  |      into                 nut's centre lies `depth` from the end
    |==========[|===========( )===          bolt length = through + depth + half the nut's body,
    | head      | end       nut             rounded down to a length that is sold
"""

from __future__ import annotations

from flatpack.features import Hole
from flatpack.frozen import frozen
from flatpack.geometry import Point, Vec
from flatpack.joinery.axis import bore, span
from flatpack.model import Assembly, Driver, Fastener, Hardware, Machining, cylinder
from flatpack.profiles import BarrelNut, FurnitureBolt, Insert

TAIL = 12.0
"""Room bored past the bolt's tip, mm, so that it never bottoms (common practice, no source)."""


@frozen
class BarrelNutBolt:
    """A furniture bolt on the axis `place`, `direction` through `through` into `into`'s end.

    `nut_face` is the direction that the face looks from which the barrel nut is put in.
    """

    key: str
    step: str
    through: str
    into: str
    place: Vec
    direction: Vec
    nut_face: Vec
    depth: float
    bolt: FurnitureBolt
    nut: BarrelNut
    use: str = ""

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return (self.through, self.into)

    def words(self) -> str:
        """How it is made."""
        return f"{self.bolt.name} into a {self.nut.name.lower()}; comes apart"

    def length(self, through: float) -> float:
        """Longest sold length that ends within the nut's far side plus the bored tail."""
        room = through + self.depth + self.nut.body_diameter / 2.0 + TAIL - 2.0
        return max((n for n in self.bolt.lengths if n <= room), default=min(self.bolt.lengths))

    def machine(self, assembly: Assembly) -> Machining:
        """Hole through, bore in the end, cross hole for the nut, and the bolt."""
        part, mate = assembly.parts[self.through], assembly.parts[self.into]
        enter, leave = span(part, self.place, self.direction)
        start = self.place.plus(self.direction, enter)
        length = self.length(leave - enter)
        bored = max(length - (leave - enter), self.depth + self.nut.body_diameter / 2.0) + 2.0
        clear = bore(
            part,
            self.place,
            self.direction,
            diameter=self.bolt.hole_wood,
            depth=None,
            fit="bolt in wood",
            purpose=f"{self.bolt.name}, {self.use}",
        )
        tunnel = bore(
            mate,
            self.place,
            self.direction,
            diameter=self.bolt.hole_wood,
            depth=bored,
            fit="bolt in wood",
            purpose=f"{self.bolt.name}, {self.use}",
        )
        centre = self.place.plus(self.direction, leave + self.depth)
        local = mate.frame.local(centre)
        nut_depth = mate.thickness / 2.0 + self.nut.body_length / 2.0
        cross = Hole(
            at=Point(round(local.x, 9), round(local.y, 9)),
            diameter=self.nut.body_diameter,
            depth=None if nut_depth >= mate.thickness else nut_depth,
            face="show" if mate.frame.z.dot(self.nut_face) > 0.0 else "back",
            fit="barrel nut in wood",
            purpose=f"{self.nut.name}, {self.use}",
        )
        features = ((part.key, clear), (mate.key, tunnel), (mate.key, cross))
        bolt = self._bolt(start, length)
        return Machining(features, (bolt,), ((part.key, mate.key),))

    def _bolt(self, start: Vec, length: float) -> Fastener:
        return bolt_in_place(
            self.key,
            "barrel nut bolt",
            self.bolt,
            start,
            self.direction,
            length,
            passes=self.parts,
            step=self.step,
            use=self.use,
            holder=Hardware(self.nut.name, f"M{self.bolt.diameter:g}", 1, self.use),
        )


@frozen
class InsertBolt:
    """A bolt through `through` into a threaded insert set in `into`'s face."""

    key: str
    step: str
    through: str
    into: str
    place: Vec
    direction: Vec
    bolt: FurnitureBolt
    insert: Insert
    hard: bool = False
    use: str = ""

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return (self.through, self.into)

    def words(self) -> str:
        """How it is made."""
        return f"{self.bolt.name} into a {self.insert.name.lower()}; comes apart"

    def machine(self, assembly: Assembly) -> Machining:
        """Hole through, blind hole for the insert, and the bolt."""
        part, mate = assembly.parts[self.through], assembly.parts[self.into]
        enter, leave = span(part, self.place, self.direction)
        first, last = span(mate, self.place, self.direction)
        start = self.place.plus(self.direction, enter)
        room = leave - enter + min(last - first - 2.0, self.insert.length + 4.0)
        length = max((n for n in self.bolt.lengths if n <= room), default=min(self.bolt.lengths))
        hole = self.insert.hole_hard if self.hard else self.insert.hole_soft
        clear = bore(
            part,
            self.place,
            self.direction,
            diameter=self.bolt.hole_wood,
            depth=None,
            fit="bolt in wood",
            purpose=f"{self.bolt.name}, {self.use}",
        )
        seat = bore(
            mate,
            self.place,
            self.direction,
            diameter=hole,
            depth=min(max(self.insert.length, length - (leave - enter)) + 1.0, last - first),
            fit="insert in wood",
            purpose=f"{self.insert.name}, {self.use}",
        )
        bolt = bolt_in_place(
            self.key,
            "insert bolt",
            self.bolt,
            start,
            self.direction,
            length,
            passes=self.parts,
            step=self.step,
            use=self.use,
            holder=Hardware(self.insert.name, f"M{self.bolt.diameter:g}", 1, self.use),
        )
        return Machining(((part.key, clear), (mate.key, seat)), (bolt,), ((part.key, mate.key),))


def bolt_in_place(
    key: str,
    kind: str,
    bolt: FurnitureBolt,
    start: Vec,
    direction: Vec,
    length: float,
    *,
    passes: tuple[str, ...],
    step: str,
    use: str,
    holder: Hardware,
) -> Fastener:
    """A furniture bolt with its head on the first part and its thread inside the second."""
    size = f"M{bolt.diameter:g} x {length:g}"
    back = direction.negated()
    head = cylinder(
        f"{key} head",
        start.plus(direction, -bolt.head_height),
        direction,
        bolt.head_diameter / 2.0,
        bolt.head_height,
    )
    shank = cylinder(f"{key} shank", start, direction, bolt.diameter / 2.0, length)
    return Fastener(
        key=key,
        kind=kind,
        item=bolt.name,
        size=size,
        start=start,
        direction=direction,
        length=length,
        diameter=bolt.diameter,
        passes=passes,
        inside=(passes[1],),
        solids=(head, shank),
        drivers=(Driver(start.plus(back, bolt.head_height), back, 8.0, 90.0),),
        hardware=(Hardware(bolt.name, size, 1, use), holder),
        step=step,
        joint=key,
    )
