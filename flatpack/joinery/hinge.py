"""A hinge: two leaves on two parts about one axis, with screws from the hinge's own pattern."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.geometry import Frame, Vec
from flatpack.geometry.shapes import rectangle
from flatpack.joinery.axis import bore, span
from flatpack.joinery.pocket_screws import edge_distance
from flatpack.model import (
    Assembly,
    Driver,
    Fastener,
    Feature,
    Group,
    Hardware,
    Machining,
    Solid,
    cylinder,
)
from flatpack.profiles import Hinge, Screw

FACING = -0.9
"""Cosine below which two leaves face one another."""


@frozen(kw_only=False)
class Leaf:
    """One leaf: the part it lies on, the way it runs from the axis, and out of that part's face."""

    part: str
    runs: Vec
    out: Vec
    group: Group = "frame"


@frozen
class HingeJoint:
    """A hinge whose axis passes through `centre` (the middle of the knuckle) along `along`.

    The second leaf is screwed on at `second_step`, if told, else at `step`.  Where the leaves face
    one another, as under a closed lid, the first is screwed on with the hinge open: the second
    leaf's part is then out of the driver's way.
    """

    key: str
    step: str
    centre: Vec
    along: Vec
    leaves: tuple[Leaf, Leaf]
    hinge: Hinge
    screw: Screw
    tip_cover: float = 3.0
    second_step: str = ""

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts that carry the leaves."""
        return (self.leaves[0].part, self.leaves[1].part)

    def words(self) -> str:
        """How it is made."""
        return f"{self.hinge.name}, {len(self.hinge.holes)} screws a leaf, axis in line first"

    def machine(self, assembly: Assembly) -> Machining:
        """Pilot holes for both leaves, the screws, and the hinge itself as one fastener."""
        features: list[tuple[str, Feature]] = []
        fasteners: list[Fastener] = [self._body()]
        for number, leaf in enumerate(self.leaves, 1):
            for index, (from_axis, along) in enumerate(self.hinge.holes, 1):
                name = f"{self.key}/{number}.{index}"
                feature, screw = self._screw(assembly, leaf, from_axis, along, name)
                features.append((leaf.part, feature))
                fasteners.append(screw)
        return Machining(tuple(features), tuple(fasteners))

    def _opened(self, leaf: Leaf) -> tuple[str, ...]:
        """The part that swings out of the way when this leaf is screwed on."""
        first, second = self.leaves
        opened = leaf is first and first.out.dot(second.out) < FACING
        return (second.part,) if opened else ()

    def _leaf_face(self, leaf: Leaf, from_axis: float, along: float) -> Vec:
        """Place on the part's face, where the leaf lies on it."""
        return (
            self.centre.plus(leaf.runs, from_axis)
            .plus(self.along, along)
            .plus(leaf.out, -self.hinge.axis_offset)
        )

    def _screw(
        self, assembly: Assembly, leaf: Leaf, from_axis: float, along: float, name: str
    ) -> tuple[Feature, Fastener]:
        part = assembly.parts[leaf.part]
        face = self._leaf_face(leaf, from_axis, along)
        way = leaf.out.negated()
        enter, last = span(part, face, way)
        room = last - self.tip_cover + self.hinge.leaf_thickness
        length = max((n for n in self.screw.lengths if n <= room), default=self.screw.lengths[0])
        bite = length - self.hinge.leaf_thickness
        feature = bore(
            part,
            face,
            way,
            diameter=self.screw.pilot_soft,
            depth=min(bite, last - enter),
            fit="screw pilot in wood",
            purpose=f"{self.hinge.name}",
        )
        head = face.plus(leaf.out, self.hinge.leaf_thickness)
        size = f"{self.screw.diameter:g} x {length:g}"
        return feature, Fastener(
            key=name,
            kind="hinge screw",
            item=self.screw.name,
            size=size,
            start=head,
            direction=way,
            length=length,
            diameter=self.screw.diameter,
            passes=(leaf.part,),
            inside=(leaf.part, self.key, *self._opened(leaf)),
            solids=(cylinder(name, head, way, self.screw.diameter / 2.0, length),),
            drivers=(Driver(head, leaf.out, 5.0, 60.0),),
            hardware=(Hardware(self.screw.name, size, 1, self.hinge.name),),
            step=self.second_step if self.second_step and leaf is self.leaves[1] else self.step,
            group=leaf.group,
            bite=bite,
            tip_cover=last - bite,
            tip_end=edge_distance(part, face.plus(way, bite)),
            joint=self.key,
        )

    def _body(self) -> Fastener:
        half = self.hinge.leaf_length / 2.0
        knuckle = cylinder(
            f"{self.key} knuckle",
            self.centre.plus(self.along, -half),
            self.along,
            self.hinge.knuckle_diameter / 2.0,
            self.hinge.leaf_length,
        )
        return Fastener(
            key=self.key,
            kind="hinge",
            item=self.hinge.name,
            size=f"{self.hinge.leaf_length:g} x {2.0 * self.hinge.leaf_width:g} open",
            start=self.centre.plus(self.along, -half),
            direction=self.along,
            length=self.hinge.leaf_length,
            diameter=self.hinge.knuckle_diameter,
            passes=(),
            solids=(knuckle, *(self._leaf_solid(leaf) for leaf in self.leaves)),
            hardware=(
                Hardware(
                    self.hinge.name,
                    f"{self.hinge.leaf_length:g} x {2.0 * self.hinge.leaf_width:g}",
                    1,
                    "the moving joint",
                ),
            ),
            step=self.step,
            joint=self.key,
        )

    def _leaf_solid(self, leaf: Leaf) -> Solid:
        half = self.hinge.leaf_length / 2.0
        frame = Frame(self._leaf_face(leaf, 0.0, -half), leaf.runs, self.along, leaf.out)
        start = self.hinge.knuckle_diameter / 2.0
        plate = rectangle(self.hinge.leaf_width - start, self.hinge.leaf_length, start, 0.0)
        return Solid(
            f"{self.key} leaf on {leaf.part}",
            frame,
            plate,
            0.0,
            self.hinge.leaf_thickness,
            leaf.group,
        )
