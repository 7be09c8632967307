"""Everything about a moving back, worked out once for a piece: what checks and drawings ask for."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import frozen
from flatpack.geometry import Point
from flatpack.geometry.shapes import rectangle
from flatpack.mechanism.bodies import Body, Carrier
from flatpack.mechanism.hinge_joint import HingeJoint, opening_limit
from flatpack.mechanism.hold import Hold, Load, hold
from flatpack.mechanism.locus import locus
from flatpack.mechanism.path import Path, travel
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.release import HandRoom, Masses, Release, hand_room, release, seated
from flatpack.mechanism.ridges import Knock, knock
from flatpack.mechanism.seats import Rack, laid
from flatpack.mechanism.silhouettes import bodies
from flatpack.mechanism.stops import Stops, stops
from flatpack.mechanism.sweep import Clash, Clearance, Names, sweep
from flatpack.mechanism.tolerance import Spread, Tolerance, spreads
from flatpack.mechanism.traps import WIDE, Trap, finger_traps
from flatpack.model import Assembly, Motion, Part

HAND = 90.0
"""Width kept for a hand on the rod, mm (common practice, no source)."""


COARSE = 2.0
"""How closely the borders of a finger trap are sought, mm of way."""


@frozen
class Study:
    """The back's stops, how they hold, and its whole travel; `path` None when there is no stop.

    `joint` is None where no slat lies before the hinge for the back to meet.
    """

    motion: Motion
    prop: Prop
    rack: Rack
    found: Stops
    holds: tuple[Hold, ...]
    spreads: tuple[Spread, ...]
    knocks: tuple[Knock, ...]
    path: Path | None
    bodies: tuple[Body, ...]
    swept: tuple[Clash | Clearance, ...]
    releases: tuple[Release, ...]
    rooms: tuple[HandRoom, ...]
    traps: tuple[Trap, ...]
    joint: HingeJoint | None
    hinge_limit: float
    masses: Masses


def study(assembly: Assembly) -> Study | None:
    """All about the moving back of a piece; None for one that stands still.

    Raises:
        ValueError: the rack's edge crosses itself, or a part lies askew across the piece.
    """
    motion = assembly.motion
    if motion is None:
        return None
    prop = Prop(pivot=motion.pivot, arm=motion.arm, rod=motion.rod)
    rack = laid(motion.contour, motion.rod)
    found = stops(prop, rack)
    made = (*bodies(assembly, motion), _ground(motion))
    masses = masses_of(assembly, motion)
    path = _path(prop, rack, found)
    touching, joined = _touching(made, motion), _joined(made, assembly)
    swept = () if path is None else _swept(made, path, motion, touching, joined)
    load = Load(force=motion.push, along=motion.push_along, turning=True)
    return Study(
        motion=motion,
        prop=prop,
        rack=rack,
        found=found,
        holds=tuple(hold(rack, s, load) for s in found.stops),
        spreads=spreads(prop, found.stops, _tolerance(motion)),
        knocks=tuple(knock(prop, rack, found, s) for s in found.stops),
        path=path,
        bodies=made,
        swept=swept,
        releases=() if path is None else _releases(path, found, masses),
        rooms=() if path is None else _rooms(made, path, prop, found),
        traps=() if path is None else _traps(made, path, swept, touching | joined),
        joint=_joint(motion),
        hinge_limit=opening_limit(motion.opens, motion.leaf_angle),
        masses=masses,
    )


def _joint(motion: Motion) -> HingeJoint | None:
    if motion.gap is None:
        return None
    return HingeJoint(
        gap=motion.gap,
        thickness=motion.slat,
        axis_depth=motion.axis_depth,
        axis_from_fixed=motion.axis_from_fixed,
    )


def _ground(motion: Motion) -> Body:
    far, level = 1e4, -motion.axis.z
    return Body(
        name="ground",
        outlines=(rectangle(2.0 * far, 10.0, -far, level - 10.0),),
        lane=(-far, far),
        carrier=Carrier.GROUND,
    )


def _tolerance(motion: Motion) -> Tolerance:
    mm = motion.tolerance
    return Tolerance(hinge=mm, pivot=mm, arm=mm, notch=mm, racks=mm)


def _path(prop: Prop, rack: Rack, found: Stops) -> Path | None:
    if not found.stops:
        return None
    top = found.stops[-1]
    return travel(prop, locus(rack.contour, rack.rod / 2.0), top.angle, top.rod)


def _swept(
    made: tuple[Body, ...], path: Path, motion: Motion, touching: Names, joined: Names
) -> tuple[Clash | Clearance, ...]:
    return sweep(made, path, wanted=motion.clearance, touching=touching, joined=joined)


def _touching(made: tuple[Body, ...], motion: Motion) -> Names:
    """Contact that is meant: the rod on its rack, the back lying on its frame."""
    still = [b.name for b in made if b.fixed]
    racks = [n for n in still if n.startswith(("rack", "bearer", "block"))]
    moving = [b.name for b in made if b.carrier is Carrier.BACK]
    lying = [n for n in moving if n.startswith(motion.lying)]
    under = [n for n in still if n.startswith(motion.under)]
    return frozenset(
        (
            *(frozenset(("rod", n)) for n in racks),
            *(frozenset((a, b)) for a in lying for b in under),
        )
    )


def _joined(made: tuple[Body, ...], assembly: Assembly) -> Names:
    """Pairs that turn about one another: hinge leaves, pivot and arm, rod and arm."""
    names = [b.name for b in made]
    keys = tuple(f"{f.key} " for f in assembly.fasteners if f.kind == "hinge")
    hinges = [n for n in names if n.startswith(keys)]
    pivots = [n for n in names if n.startswith("pivot-")]
    arms = [n for n in names if n.startswith("arm-")]
    hung = [k for j in assembly.joints if f"{j.key} " in keys for k in j.parts]
    return frozenset(
        (
            *(frozenset((a, b)) for a in hinges for b in hinges if a != b),
            *(frozenset((a, b)) for a in hinges for b in hung),
            *(frozenset((a, b)) for a in pivots for b in arms),
            *(frozenset(("rod", b)) for b in arms),
        )
    )


def _traps(
    made: tuple[Body, ...], path: Path, swept: tuple[Clash | Clearance, ...], meant: Names
) -> tuple[Trap, ...]:
    """Finger traps among the parts of the left half; the other half is its mirror image.

    The sweep has already told which pairs never come near enough.
    """
    middle = max(b.lane[1] for b in made if b.carrier is Carrier.BACK) / 2.0
    near = [b for b in made if b.lane[0] < middle and not b.name.endswith("-right")]
    far = (s for s in swept if isinstance(s, Clearance) and s.least > WIDE)
    known = frozenset(frozenset((s.first, s.second)) for s in far)
    parts = tuple(b for b in near if not any(c in b.name for c in " /"))
    return finger_traps(parts, path, skipped=meant | known, fine=COARSE)


def _releases(path: Path, found: Stops, masses: Masses) -> tuple[Release, ...]:
    return tuple(release(path, s.angle, s.rod, masses) for s in found.stops)


def _rooms(made: tuple[Body, ...], path: Path, prop: Prop, found: Stops) -> tuple[HandRoom, ...]:
    ends = [b.lane for b in made if b.name == "rod"]
    middle = (ends[0][0] + ends[0][1]) / 2.0 if ends else 0.0
    lane = (middle - HAND / 2.0, middle + HAND / 2.0)
    return hand_room(made, path, lane, [seated(prop, s.angle, s.rod) for s in found.stops])


def masses_of(assembly: Assembly, motion: Motion) -> Masses:
    """Masses of the moving parts from their boards' densities, kg, and where they act."""
    back = [(_mass(p), _middle(p, motion)) for p in assembly.parts.values() if p.group == "back"]
    arms = [_mass(p) for p in assembly.parts.values() if p.group == "arm"]
    whole = sum(m for m, _ in back) or 1e-9
    rod = [b for b in assembly.bars.values() if b.group == "rod"]
    return Masses(
        back=whole,
        cog=Point(sum(m * p.x for m, p in back) / whole, sum(m * p.y for m, p in back) / whole),
        arms=sum(arms),
        arms_cog=motion.arm / 2.0,
        rod=sum(b.length * b.stock.diameter**2 * 0.785398 * b.stock.density * 1e-9 for b in rod),
        grip=motion.grip,
    )


def _mass(part: Part) -> float:
    holes = sum(o.area for o in part.openings)
    return (part.outline.area - holes) * part.thickness * part.board.density * 1e-9


def _middle(part: Part, motion: Motion) -> Point:
    x0, y0, x1, y1 = part.outline.bounds
    at = part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0)
    return Point(at.x - motion.axis.x, at.z - motion.axis.z)


def clashes(made: Study) -> Iterator[Clash]:
    """Pairs that overlap on the way."""
    return (c for c in made.swept if isinstance(c, Clash))
