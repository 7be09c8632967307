"""Pocket screws: slope holes in one part's face, whose screws leave its edge into another part."""

from __future__ import annotations

import math

from flatpack.features import PocketHole
from flatpack.frozen import frozen
from flatpack.geometry import Point, Vec
from flatpack.joinery.axis import extent, kept_clear, span, spread
from flatpack.model import (
    Assembly,
    Driver,
    Fastener,
    Hardware,
    Machining,
    Part,
    Solid,
    corners,
    cylinder,
)
from flatpack.profiles import PocketJig, Screw

MARGIN = 12.0
"""Least from a part's edge to the middle of a pocket in the part below, mm (common practice)."""
BIT_LENGTH = 150.0
"""Length of the long driver bit sold with pocket-hole jigs, mm (common practice, no source)."""
POCKETS_APART = 8.0
"""Wood left between two pockets side by side, mm (common practice, no source)."""
ON_EDGE = 1e-6
"""Corners this near to the furthest one along the screws lie on the edge that they leave, mm."""
FLANGE, HUB = 0.8, 0.75
"""Washer head: flange thickness, mm, and the hub's share of its width (typical, no source)."""
CHUCK = (22.0, 120.0)
"""Radius and length of a drill driver's chuck behind the bit, mm (common practice, no source)."""


@frozen
class PocketScrews:
    """Screws from pockets in `through`'s face, out of the edge towards `outward`, into `into`.

    `outward` and `pocket_face` are directions in the piece: the way the screws run, and the way
    the face with the pockets looks.  `count` screws share the width where the parts meet, moved
    aside to stay `room` clear of the parts in `clear_of` and of the places in `avoid`
    (centre, radius).
    """

    key: str
    step: str
    through: str
    into: str
    outward: Vec
    pocket_face: Vec
    count: int
    jig: PocketJig
    screw: Screw
    tip_cover: float = 3.0
    clear_of: tuple[str, ...] = ()
    room: float = 8.0
    avoid: tuple[tuple[Vec, float], ...] = ()
    margin: float = MARGIN
    glue: bool = True
    group: str = "frame"

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return (self.through, self.into)

    def words(self) -> str:
        """How it is made."""
        glued = "glue and " if self.glue else ""
        return f"{glued}{self.count} pocket screws from the pocket face"

    def machine(self, assembly: Assembly) -> Machining:
        """Pocket holes in `through`, and the screws."""
        part, mate = assembly.parts[self.through], assembly.parts[self.into]
        along = self._along(part)
        places = self._places(assembly, part, mate, along)
        length = self.screw_length(part, mate, self._leave(part, along, places[len(places) // 2]))
        features, screws = [], []
        for number, place in enumerate(places, 1):
            hole, screw = self._one(part, mate, along, place, length, number)
            features.append((self.through, hole))
            screws.append(screw)
        return Machining(tuple(features), tuple(screws), ((self.through, self.into),))

    def _along(self, part: Part) -> Vec:
        """The way the screws stand in a row: up the part's own axes, so that hands mirror.

        (A vector product alone turns round in a mirror, and choices between two equal places with
        it.)
        """
        along = self.outward.cross(self.pocket_face)
        own = part.frame.local_direction(along)
        return along if own.x + own.y + own.z > 0.0 else along.negated()

    def shoulder(self, part: Part) -> float:
        """Distance from the edge to the screw head's seat along the axis, mm."""
        return self.jig.shoulder(part.thickness)

    def screw_length(self, part: Part, mate: Part, leave: Vec) -> float:
        """Longest sold length that keeps wood over its tip and beside it, else the shortest."""
        room = self._depth(mate, leave) - self.tip_cover
        aside = self._aside(part, mate) - self.tip_cover
        slope = math.radians(self.jig.angle)
        fitting = [
            n
            for n in self.screw.lengths
            if (n - self.shoulder(part)) * math.cos(slope) <= room + 1e-9
            and (n - self.shoulder(part)) * math.sin(slope) <= aside + 1e-9
        ]
        return max(fitting, default=min(self.screw.lengths))

    def _aside(self, part: Part, mate: Part) -> float:
        """From where the axis leaves the edge to the mate's side that the screw drifts towards."""
        origin, away = part.frame.origin, self.pocket_face.negated()
        low, high = extent(part, away, origin)
        return extent(mate, away, origin)[1] - (low + high) / 2.0

    def _depth(self, mate: Part, leave: Vec) -> float:
        """Wood of the mate before a screw that leaves the edge here, mm."""
        return span(mate, leave, self.outward)[1]

    def _leave(self, part: Part, along: Vec, place: float) -> Vec:
        """Where an axis leaves the edge, mid thickness."""
        middle = part.frame.place(0.0, 0.0, part.thickness / 2.0).plus(along, place)
        return middle.plus(self.outward, span(part, middle, self.outward)[1])

    def _places(self, assembly: Assembly, part: Part, mate: Part, along: Vec) -> tuple[float, ...]:
        origin = part.frame.origin
        a0, a1 = self._edge(part, along, origin)
        b0, b1 = extent(mate, along, origin)
        low, high = max(a0, b0), min(a1, b1)
        blocked = [
            (first - self.room, last + self.room)
            for first, last in (extent(assembly.parts[key], along, origin) for key in self.clear_of)
        ]
        blocked += [
            (v.minus(origin).dot(along) - r, v.minus(origin).dot(along) + r) for v, r in self.avoid
        ]
        margin = min(self.margin, (high - low) / 4.0)
        wanted = spread(low, high, self.count)
        apart = self.jig.drill + POCKETS_APART
        return kept_clear(wanted, low + margin, high - margin, blocked, apart)

    def _edge(self, part: Part, along: Vec, origin: Vec) -> tuple[float, float]:
        """The stretch of the edge that the screws leave: where mitred, less than the part's."""
        whole = extent(part, along, origin)
        places = [part.frame.place(*c).minus(origin) for c in corners(part)]
        furthest = max(v.dot(self.outward) for v in places)
        on = [v.dot(along) for v in places if v.dot(self.outward) > furthest - ON_EDGE]
        shorter = max(on) - min(on) < whole[1] - whole[0] - ON_EDGE
        return (min(on), max(on)) if shorter and max(on) - min(on) > ON_EDGE else whole

    def _one(
        self, part: Part, mate: Part, along: Vec, place: float, length: float, number: int
    ) -> tuple[PocketHole, Fastener]:
        slope = math.radians(self.jig.angle)
        frame = part.frame
        depth = part.frame.z.dot(self.pocket_face)
        face_height = part.thickness if depth > 0.0 else 0.0
        leave = self._leave(part, along, place)
        local = frame.local(leave)
        inward = frame.local_direction(self.outward.negated())
        shoulder = self.shoulder(part)
        hole = PocketHole(
            exit=Point(round(local.x, 9), round(local.y, 9)),
            inward=Point(round(inward.x, 9) + 0.0, round(inward.y, 9) + 0.0),
            thickness=part.thickness,
            face="show" if face_height else "back",
            slope=self.jig.angle,
            diameter=self.jig.drill,
            pilot=self.jig.pilot,
            shoulder=shoulder,
            screw=f"{self.screw.name} {self.screw.diameter:g} x {length:g}",
            collar=f"collar set for {part.thickness:g} board, shoulder {shoulder:g} from the edge",
            edge="end" if abs(inward.x) > 0.5 else "long edge",
            purpose=f"pocket screw into {mate.title.lower()}",
        )
        out = Vec(*(o * math.cos(slope) for o in self.outward))
        axis = out.plus(self.pocket_face, -math.sin(slope))
        return hole, self._screw(part, mate, leave, axis, length, number)

    def _head(self, name: str, seat: Vec, axis: Vec) -> tuple[Solid, Solid]:
        """A washer head: its thin flange, and the narrower hub above it."""
        wide, tall = self.screw.head_diameter / 2.0, self.screw.head_height
        flange = cylinder(f"{name} head", seat.plus(axis, -FLANGE), axis, wide, FLANGE)
        hub = cylinder(f"{name} hub", seat.plus(axis, -tall), axis, wide * HUB, tall)
        return flange, hub

    def _screw(
        self, part: Part, mate: Part, leave: Vec, axis: Vec, length: float, number: int
    ) -> Fastener:
        slope = math.radians(self.jig.angle)
        shoulder = self.shoulder(part)
        seat = leave.plus(axis, -shoulder)
        bite = (length - shoulder) * math.cos(slope)
        tip = seat.plus(axis, length)
        bit_end = seat.plus(axis, -BIT_LENGTH)
        back = axis.negated()
        mouth = part.thickness / 2.0 / math.sin(slope) + self.jig.drill / 2.0 / math.tan(slope)
        out = leave.plus(axis, -mouth)
        name = f"{self.key}/{number}"
        size = f"{self.screw.diameter:g} x {length:g}"
        return Fastener(
            key=name,
            kind="pocket screw",
            item=self.screw.name,
            size=size,
            start=seat,
            direction=axis,
            length=length,
            diameter=self.screw.diameter,
            passes=(part.key, mate.key),
            inside=(part.key, mate.key),
            solids=(
                cylinder(name, seat, axis, self.screw.diameter / 2.0, length),
                *self._head(name, seat, axis),
            ),
            drivers=(
                Driver(out, back, self.jig.drill / 2.0, BIT_LENGTH - (mouth - shoulder)),
                Driver(bit_end, back, *CHUCK),
            ),
            hardware=(Hardware(self.screw.name, size, 1, f"{part.name} to {mate.name}"),),
            step=self.step,
            group="back" if self.group == "back" else "frame",
            bite=bite,
            tip_cover=self._depth(mate, leave) - bite,
            tip_end=edge_distance(mate, tip),
            joint=self.key,
        )


def _forward(direction: Vec) -> Vec:
    """The direction or its opposite, so that both hands are set out from the same end."""
    first = next(c for c in direction if abs(c) > 1e-9)
    return direction if first > 0.0 else direction.negated()


def edge_distance(part: Part, place: Vec) -> float:
    """Distance from a place inside a part to the nearest edge or end of its outline, mm.

    Taken to the bounding rectangle; negative when outside.
    """
    at = part.frame.local(place)
    x0, y0, x1, y1 = part.outline.bounds
    return min(at.x - x0, x1 - at.x, at.y - y0, y1 - at.y)
