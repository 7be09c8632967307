"""A back that is propped: braces, arms, rod, racks and hinges at each stop, under a leaning load.

The forces at a stop come from the mechanism's statics; parts are looked at in the back's own line,
so that one description serves every angle.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from flatpack.frozen import frozen
from flatpack.geometry import Vec, X, cosine_sine
from flatpack.mechanism.hold import Hold, Load, hold
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.seats import Rack, laid
from flatpack.mechanism.stops import Stop, stops
from flatpack.model import Motion, Part
from flatpack.strength.beams import Patch
from flatpack.strength.crossing import Bent, VecPatch, bend_part, on_slats
from flatpack.strength.layout import Link, middle
from flatpack.strength.loading import Area, Loading, Slats, seat
from flatpack.strength.records import Case
from flatpack.strength.rules.sections import rectangle
from flatpack.strength.setting import Setting
from flatpack.strength.sides import Force
from flatpack.strength.supports import Support, supports


@frozen(kw_only=False)
class Raised:
    """The back at one stop under one load: `push` N, straight down or square into the back."""

    setting: Setting
    motion: Motion
    rack: Rack
    stop: Stop
    loading: Loading
    push: float
    square: bool

    @cached_property
    def hold(self) -> Hold:
        """Forces in arms, hinge and rack."""
        height = self.setting.loads.back_height
        load = Load(
            force=self.push, along=height, out=self.motion.slat, degrees=-90.0, turning=self.square
        )
        return hold(self.rack, self.stop, load)

    def in_back(self, x: float, z: float) -> Vec:
        """A force of the piece in the line of the back lying flat."""
        c, s = cosine_sine(self.stop.angle)
        return Vec(x * c + z * s, 0.0, -x * s + z * c)

    @property
    def load(self) -> Vec:
        """The leaning load in the line of the back."""
        return Vec(0.0, 0.0, -self.push) if self.square else self.in_back(0.0, -self.push)

    @property
    def hinge(self) -> Vec:
        """Force of one hinge on the back, in the line of the back."""
        return self.in_back(self.hold.hinge.x / 2.0, self.hold.hinge.y / 2.0)

    @property
    def on_frame(self) -> Vec:
        """Force of one hinge on the frame, in the piece's axes."""
        return Vec(-self.hold.hinge.x / 2.0, 0.0, -self.hold.hinge.y / 2.0)

    @property
    def on_rack(self) -> Vec:
        """Force of the rod on one rack."""
        u = self.stop.loaded.thrust
        return Vec(u.x * self.hold.arm, 0.0, u.y * self.hold.arm)

    @property
    def rod(self) -> Vec:
        """Where the rod is, in the middle of the piece's width aside."""
        axis = self.motion.axis
        return Vec(axis.x + self.stop.rod.x, 0.0, axis.z + self.stop.rod.y)


def raised(setting: Setting, deck: Slats) -> Iterator[Raised]:
    """Every stop under a person leaning back, and pushing square into the back."""
    motion = setting.assembly.motion
    if not isinstance(motion, Motion):
        return
    prop = Prop(pivot=motion.pivot, arm=motion.arm, rod=motion.rod)
    rack = laid(motion.contour, motion.rod)
    loads = setting.loads
    push = loads.back_share * setting.person * loads.gamma_live
    rest = setting.person * loads.gamma_live * max(1.0 - loads.back_share, 0.0)
    fixed = Slats(parts=tuple(p for p in deck.parts if p.group == "frame"), way=X)
    where = seat(
        setting, fixed, fixed.span[1] - loads.seat_along / 2.0, sum(fixed.across) / 2.0,
        Vec(0.0, 0.0, -rest),
    )  # fmt: skip
    for stop in stops(prop, rack).stops:
        for square in (False, True):
            way = "square into" if square else "leaning on"
            case = Case(
                f"stop {stop.angle:.0f} {'push' if square else 'lean'}",
                f"back at {stop.angle:.0f} degrees, {loads.back_share:g} of a person {way} it",
            )
            loading = Loading(case=case, deck=(where,))
            yield Raised(setting, motion, rack, stop, loading, push, square)


def keyed(setting: Setting, prefix: str) -> tuple[Part, ...]:
    """Parts whose key begins so, in order."""
    return tuple(p for k, p in setting.assembly.parts.items() if k.startswith(prefix))


def link_of(setting: Setting, one: str, two: str) -> Link | None:
    """The link between two parts."""
    return next((k for k in setting.links if {k.first, k.second} == {one, two}), None)


def braced(setting: Setting, part: Part) -> tuple[Support, ...]:
    """Where a back slat is fixed to the braces."""
    found = []
    for brace in keyed(setting, "brace"):
        link = link_of(setting, brace.key, part.key)
        if link is not None:
            place = part.frame.local(middle(brace)).x - part.outline.bounds[0]
            found.append(Support(place, brace.key, link))
    return tuple(sorted(found, key=lambda s: s.place))


def bent_slats(r: Raised, back: Slats) -> Iterator[Bent]:
    """Back slats under the leaning load, borne by the braces."""
    loads, (low, high) = r.setting.loads, back.span
    centre = min(max(r.motion.axis.x + loads.back_height, low), high)
    half, (left, right) = loads.seat_along / 2.0, back.across
    y = (left + right) / 2.0
    wide = min(loads.seat_across, right - left) / 2.0
    area = Area(low=centre - half, high=centre + half, left=y - wide, right=y + wide, force=r.load)
    for key, patches in on_slats(back, (area,)).items():
        part = r.setting.part(key)
        bent = bend_part(r.setting, part, braced(r.setting, part), patches)
        if bent is not None:
            yield bent


def bent_brace(r: Raised, brace: Part, slats: list[Bent]) -> Bent | None:
    """A brace on edge: held by the first back slat and by its pivot, loaded by the slats."""
    setting = r.setting
    row = setting.stuff(brace).row
    first = link_of(setting, brace.key, "back-slat-1")
    if row is None or first is None:
        return None
    start = brace.frame.local(middle(setting.part("back-slat-1"))).x
    pivot = r.motion.axis.x + r.motion.pivot.x - brace.frame.origin.x
    patches = tuple(
        Patch(at, at, -force.z)
        for bent in slats
        for support, force in bent.borne
        if support.bearer == brace.key
        for at in (brace.frame.local(middle(bent.part)).x,)
    )
    if not patches:
        return None
    section = rectangle(brace.thickness, brace.width)
    values = setting.stuff(brace).bent(row, brace.width, False)
    beam = setting.beam(
        brace.length, values.stiffness * section.second,
        values.shear_stiffness * section.shear_area, (start, pivot), patches,
    )  # fmt: skip
    stands = (Support(start, "back-slat-1", first), Support(pivot, "arm", None))
    forces = (Vec(0.0, 0.0, -v) for v in beam.reactions)
    return Bent(
        part=brace, planes=(("edge", section, beam),), borne=tuple(zip(stands, forces, strict=True))
    )


def hinges_at(setting: Setting) -> tuple[float, ...]:
    """Middles of the hinges across the piece, mm."""
    return tuple(
        f.start.plus(f.direction, f.length / 2.0).y
        for f in setting.assembly.fasteners
        if f.kind == "hinge"
    )


def bent_first_slat(r: Raised) -> Bent | None:
    """The first back slat between the hinges that hold it and the braces that it holds."""
    setting, part = r.setting, r.setting.assembly.parts.get("back-slat-1")
    at = hinges_at(setting)
    if part is None or len(at) < 2:
        return None
    stands = tuple(Support(y - part.frame.origin.y, "hinge", None) for y in at)
    loads = [
        VecPatch(s.place, s.place, Vec(-r.hinge.x, 0.0, -r.hinge.z)) for s in braced(setting, part)
    ]
    return bend_part(setting, part, stands, loads)


def bent_hinge_rail(r: Raised) -> Bent | None:
    """The cross rail that carries the hinges."""
    setting, part = r.setting, r.setting.assembly.parts.get("hinge-rail")
    if part is None:
        return None
    low = part.outline.bounds[0]
    loads = []
    for y in hinges_at(setting):
        place = part.frame.local(Vec(part.frame.origin.x, y, part.frame.origin.z)).x - low
        loads.append(VecPatch(place, place, r.on_frame))
    return bend_part(setting, part, supports(setting, part), loads)


def rack_forces(r: Raised) -> tuple[Force, ...]:
    """The rod's push on both racks, for the sides."""
    racks = (*keyed(r.setting, "rack"), *keyed(r.setting, "bearer"))
    return tuple(Force(part.key, r.rod, r.on_rack) for part in racks)
