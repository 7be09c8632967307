"""Whether a stop holds: forces of a load on the back, down to each face that the rod touches.

Statics of the back about its hinge O (F the load at L, T the thrust in the arms, u from pivot P
to rod D):   cross(L, F) = T cross(P, u),   hinge reaction = T u - F.
The rod is held without friction if -u lies within the fan of the touched faces' normals; the
two normals on both sides of it share T by the parallelogram of forces.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Point, Segment, cosine_sine
from flatpack.mechanism.seats import Loaded, Rack
from flatpack.mechanism.stops import Stop


@frozen
class Load:
    """A force on the back, N, `along` mm from the hinge axis and `out` mm above the back's line.

    `degrees` is its direction: -90 is straight down, or with `turning` square into the back.
    """

    force: float
    along: float
    out: float = 0.0
    degrees: float = -90.0
    turning: bool = False


class FaceForce(NamedTuple):
    """Force of the rod on one face of one rack: square to it and along it (friction), N."""

    face: int
    square: float
    along: float


@frozen
class Hold:
    """Forces at a stop, N, and the margin by which the faces hold the rod.

    `thrust` is that of all arms together, `arm` that in one of them: it is also the shear in each
    pivot bolt and the load on each end of the rod.  `hinge` is the whole reaction on the back.
    `margin` degrees from the thrust to the edge of the normals (negative: outside), `friction`
    the coefficient needed then.  `pulled`: the load lifts the back, and the rod with it.
    """

    seat: int
    angle: float
    thrust: float
    arm: float
    hinge: Point
    faces: tuple[FaceForce, ...]
    margin: float
    friction: float
    pulled: bool

    @property
    def held(self) -> bool:
        """Whether the rod stays without friction."""
        return self.margin >= 0.0 and not self.pulled


def hold(rack: Rack, stop: Stop, load: Load, arms: int = 2) -> Hold:
    """Forces at a stop under a load, shared evenly by `arms` arms (and racks)."""
    u, p = stop.loaded.thrust, stop.pivot
    where, force = _placed(load, stop.angle)
    thrust = _cross(where, force) / _cross(p, u)
    margin = stop.loaded.margin
    return Hold(
        seat=stop.seat,
        angle=stop.angle,
        thrust=thrust,
        arm=thrust / arms,
        hinge=Point(thrust * u.x - force.x, thrust * u.y - force.y),
        faces=face_forces(rack.contour, stop.loaded, thrust / arms),
        margin=margin,
        friction=friction_needed(margin),
        pulled=thrust <= 0.0,
    )


def friction_needed(margin: float) -> float:
    """Coefficient of friction that holds a rod whose thrust lies outside by -margin degrees.

    Infinite from 90 degrees on: the thrust then pulls away from the face.
    """
    if margin >= 0.0:
        return 0.0
    return math.inf if margin <= -90.0 else math.tan(math.radians(-margin))


def face_forces(contour: Sequence[Segment], loaded: Loaded, thrust: float) -> tuple[FaceForce, ...]:
    """How the faces share a thrust: the two normals beside it, or the nearest with friction."""
    u = loaded.thrust
    if len(loaded.faces) == 1 or thrust <= 0.0:
        return tuple(FaceForce(face, max(thrust, 0.0), 0.0) for face in loaded.faces[:1])
    turned = sorted((_off(_normal(contour[face], loaded.rod), u), face) for face in loaded.faces)
    right = [t for t in turned if t[0] <= 0.0]
    left = [t for t in turned if t[0] > 0.0]
    if not right or not left:
        off, face = turned[0] if left else turned[-1]
        return (FaceForce(face, thrust * math.cos(off), thrust * math.sin(abs(off))),)
    (a, first), (b, second) = right[-1], left[0]
    whole = math.sin(b - a)
    if whole < 1e-12:
        return (FaceForce(first, thrust, 0.0),)
    return (
        FaceForce(first, thrust * math.sin(b) / whole, 0.0),
        FaceForce(second, thrust * math.sin(-a) / whole, 0.0),
    )


def _placed(load: Load, angle: float) -> tuple[Point, Point]:
    c, s = cosine_sine(angle)
    where = Point(load.along * c - load.out * s, load.along * s + load.out * c)
    fc, fs = cosine_sine(load.degrees + (angle if load.turning else 0.0))
    return where, Point(load.force * fc, load.force * fs)


def _cross(a: Point, b: Point) -> float:
    return a.x * b.y - a.y * b.x


def _off(normal: Point, push: Point) -> float:
    """Angle from the reaction (against the push) to a face's normal, anticlockwise, radians."""
    return math.remainder(math.atan2(normal.y, normal.x) - math.atan2(-push.y, -push.x), math.tau)


def _normal(face: Segment, rod: Point) -> Point:
    """Direction from the nearest point of a face to the rod's centre (any length)."""
    near = _nearest(face, rod)
    return Point(rod.x - near.x, rod.y - near.y)


def _nearest(face: Segment, rod: Point) -> Point:
    (x0, y0), (x1, y1) = face.start, face.end
    if face.bulge == 0.0:
        dx, dy = x1 - x0, y1 - y0
        share = ((rod.x - x0) * dx + (rod.y - y0) * dy) / (dx * dx + dy * dy)
        share = min(max(share, 0.0), 1.0)
        return Point(x0 + dx * share, y0 + dy * share)
    cx, cy = face.centre
    out = math.hypot(rod.x - cx, rod.y - cy)
    if out == 0.0:
        return face.middle
    k = face.radius / out
    on = Point(cx + (rod.x - cx) * k, cy + (rod.y - cy) * k)
    return on if _on_arc(face, on) else min(face.start, face.end, key=lambda p: math.dist(p, rod))


def _on_arc(face: Segment, place: Point) -> bool:
    cx, cy = face.centre
    turn = math.atan2(place.y - cy, place.x - cx) - math.atan2(face.start.y - cy, face.start.x - cx)
    return math.copysign(1.0, face.sweep) * turn % math.tau <= abs(face.sweep)
