"""Each kind of joint made from its keys and the place where two parts meet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from flatpack.frozen import field, frozen
from flatpack.geometry import Vec
from flatpack.joinery import (
    BarrelNutBolt,
    BoltThrough,
    FaceScrews,
    Fitting,
    GluedFaces,
    HingeJoint,
    InsertBolt,
    Leaf,
    PocketScrews,
    fitting,
)
from flatpack.model import Bar, Joint, Part
from flatpack.pieces.composed.directions import OTHER_HAND, WAYS
from flatpack.pieces.composed.layout import Layout
from flatpack.pieces.composed.spots import spots

Where = tuple[str, str]
"""Where a joint stands in the file, and the step at which it is made."""


@frozen
class Bench:
    """What makers work with: the layout, the parts in place, joints' names so far."""

    layout: Layout
    parts: dict[str, Part | Bar]
    names: dict[str, int] = field(default_factory=dict)
    wedges: dict[str, Part] = field(default_factory=dict)

    @property
    def fitting(self) -> Fitting:
        """How tightly halvings and tenons are cut."""
        record = self.layout.record
        return fitting(self.layout.profiles.workshop(record.workshop), record.fixings.fit)

    def name(self, *keys: str) -> str:
        """A joint's key, not used before."""
        base = "-to-".join(keys)
        number = self.names[base] = self.names.get(base, 0) + 1
        return base if number == 1 else f"{base}-{number}"

    def item(self, kind: str, own: str | None, otherwise: str) -> Any:
        """A piece of hardware: the joint's own, or that of the fixings."""
        named = own or getattr(self.layout.record.fixings, otherwise)
        return self.layout.profiles.get(kind, named)

    @property
    def tip_cover(self) -> float:
        """Wood left over a screw's tip, mm."""
        return float(self.layout.record.fixings.tip_cover)


def _looks(part: Part, face: str) -> Vec:
    return part.frame.z if face == "show" else part.frame.z.negated()


def places(bench: Bench, p: Any, where: Where, pair: Any) -> tuple[Vec, ...]:
    """Where the fasteners or tenons stand."""
    return spots(bench.layout, p, where[0], pair)


def pocket_screws(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Pocket screws out of the first part's end or edge.

    Raises:
        StuckError: the first part meets the other with its face.
    """
    layout, (one, other, met) = bench.layout, pair
    if abs(one.frame.z.dot(met.normal)) > 0.5:
        raise layout.faults.stop(
            f"{where[0]}.through", one.key, f"{other.key}, or another kind of joint",
            f"{one.key} meets {other.key} with its face: pockets leave an end or edge",
        )  # fmt: skip
    if max(abs(one.frame.x.dot(met.normal)), abs(one.frame.y.dot(met.normal))) < 1.0 - 1e-6:
        raise layout.faults.stop(
            f"{where[0]}.through", one.key, "another kind of joint, or an end sawn square",
            f"the end of {one.key} slants, and the jig's pockets leave a square one",
        )  # fmt: skip
    clear = [k for name in p.clear_of for k in _keys(bench, name, f"{where[0]}.clear_of")]
    yield PocketScrews(
        key=bench.name(one.key, other.key),
        step=where[1],
        through=one.key,
        into=other.key,
        outward=met.normal,
        pocket_face=_looks(one, p.pockets),
        count=p.count,
        jig=bench.item("pocket-jigs", p.jig, "jig"),
        screw=bench.item("screws", p.screw, "pocket_screw"),
        tip_cover=bench.tip_cover,
        clear_of=tuple(clear),
        glue=p.glue,
    )


def _keys(bench: Bench, name: str, key: str) -> tuple[str, ...]:
    from flatpack.pieces.composed.parts import siblings

    return siblings(bench.layout, name, key)


def screws(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Countersunk screws."""
    yield FaceScrews(
        key=bench.name(pair.one.key, pair.other.key),
        step=where[1],
        through=pair.one.key,
        into=pair.other.key,
        places=spots(bench.layout, p, where[0], pair, across=True),
        direction=pair.met.normal,
        screw=bench.item("screws", p.screw, "wood_screw"),
        tip_cover=bench.tip_cover,
        glue=p.glue,
    )


class _Placed(NamedTuple):
    """One fastener of several: its joint's key and its place."""

    key: str
    place: Vec


def _each(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[_Placed]:
    for place in places(bench, p, where, pair):
        yield _Placed(bench.name(pair.one.key, pair.other.key), place)


def bolts(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Coach bolts right through."""
    middle = [k for name in p.between for k in _keys(bench, name, f"{where[0]}.between")]
    turn = {k for name in p.turning for k in _keys(bench, name, f"{where[0]}.turning")}
    passed = (pair.one.key, *middle, pair.other.key)
    for one in _each(bench, p, where, pair):
        yield BoltThrough(
            key=one.key,
            step=where[1],
            through=passed,
            turning=tuple(k for k in passed if k in turn),
            place=one.place,
            direction=pair.met.normal,
            bolt=bench.item("coach-bolts", p.bolt, "bolt"),
            nut=bench.item("nuts", p.nut, "nut"),
            washer=bench.item("washers", p.washer, "washer"),
            use=p.use,
        )


def barrel_nuts(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Bolts into barrel nuts.

    Raises:
        StuckError: the bolt wouldn't run through the first part's face into the other's end.
    """
    one, other, normal = pair.one, pair.other, pair.met.normal
    if abs(one.frame.z.dot(normal)) < 0.5 or abs(other.frame.z.dot(normal)) > 0.5:
        raise bench.layout.faults.stop(
            f"{where[0]}.through", one.key, "a part whose face lies on the other's end or edge",
            f"a barrel nut's bolt runs through a face into an end: not from {one.key} into "
            f"{other.key}",
        )  # fmt: skip
    for one in _each(bench, p, where, pair):
        yield BarrelNutBolt(
            key=one.key,
            step=where[1],
            through=pair.one.key,
            into=pair.other.key,
            place=one.place,
            direction=pair.met.normal,
            nut_face=_looks(pair.other, p.nut_face),
            depth=bench.layout.length(p.from_end, f"{where[0]}.from_end"),
            bolt=bench.item("furniture-bolts", p.bolt, "knock_down_bolt"),
            nut=bench.item("barrel-nuts", p.nut, "barrel_nut"),
            use=p.use,
        )


def inserts(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Bolts into threaded inserts."""
    for one in _each(bench, p, where, pair):
        yield InsertBolt(
            key=one.key,
            step=where[1],
            through=pair.one.key,
            into=pair.other.key,
            place=one.place,
            direction=pair.met.normal,
            bolt=bench.item("furniture-bolts", p.bolt, "knock_down_bolt"),
            insert=bench.item("inserts", p.insert, "insert"),
            use=p.use,
        )


def glue(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Glued faces."""
    key = bench.name(pair.one.key, pair.other.key)
    yield GluedFaces(key=key, step=where[1], block=pair.one.key, onto=pair.other.key)


def hinges(bench: Bench, p: Any, where: Where, pair: Any) -> Iterator[Joint]:
    """Hinges with a leaf on each part, their axis over the line where the parts meet.

    Raises:
        StuckError: the side for the leaves doesn't run across that line.
    """
    side = OTHER_HAND.get(p.on, p.on) if pair.one.hand == "right" else p.on
    normal, out = pair.met.normal, WAYS[side]
    if abs(normal.dot(out)) > 1e-6:
        text = "the leaves can't lie on this side: the parts don't meet across it"
        raise bench.layout.faults.stop(f"{where[0]}.on", p.on, "a side along the joint", text)
    hinge = bench.item("hinges", p.hinge, "hinge")
    top = max(c.dot(out) for c in pair.met.corners)
    for one in _each(bench, p, where, pair):
        lift = top + hinge.axis_offset - one.place.dot(out)
        yield HingeJoint(
            key=one.key,
            step=where[1],
            centre=one.place.plus(out, lift),
            along=normal.cross(out),
            leaves=(
                Leaf(pair.one.key, normal.negated(), out),
                Leaf(pair.other.key, normal, out),
            ),
            hinge=hinge,
            screw=bench.item("screws", p.screw, "hinge_screw"),
            tip_cover=bench.tip_cover,
        )
