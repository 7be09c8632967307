"""Parts of a prop: the notched bar that the rod drops into, and the two arms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from flatpack.features import Notch
from flatpack.geometry import Frame, Outline, Point, Segment, Vec, Y
from flatpack.geometry.shapes import round_ended
from flatpack.model import Part
from flatpack.pieces.common.propping import PropSetting
from flatpack.profiles import Board


def rack_outline(prop: PropSetting) -> Outline:
    """A notched bar in its own axes: x from its free end, y up from its lower edge."""
    edge = tuple(Segment(_seen(prop, s.start), _seen(prop, s.end), -s.bulge) for s in prop.contour)
    length, height = prop.end - prop.start, prop.top - prop.bottom
    first, last = edge[0].start, edge[-1].end
    corners = (Point(0.0, 0.0), Point(length, 0.0), first, last)
    assert abs(last.y - height) < 1e-6
    return Outline(
        (
            Segment(corners[0], corners[1]),
            Segment(corners[1], first),
            *edge,
            Segment(last, corners[0]),
        )
    )


def _seen(prop: PropSetting, at: Point) -> Point:
    """A place of the hinge frame in the rack's own axes."""
    return Point(prop.end - at.x, at.y - prop.bottom)


def rack_notches(
    prop: PropSetting, angles: Sequence[float], panel: str = "back"
) -> tuple[Notch, ...]:
    """Where the rod rests at each angle, in the rack's own axes."""
    return tuple(
        Notch(
            at=_seen(prop, seat),
            number=number,
            diameter=prop.prop.rod,
            shape=str(prop.form.kind).replace("_", " "),
            purpose=f"rod, {panel} at {angle:g}°",
        )
        for number, (seat, angle) in enumerate(zip(prop.seats, angles, strict=True), 1)
    )


def arms(
    prop: PropSetting, axis: Vec, board: Board, width: float, faces: tuple[float, float]
) -> Iterator[Part]:
    """The two arms, folded; `axis` lies on the hinge axis, `faces` are their back faces' places."""
    pivot, rod = prop.prop.pivot, prop.folded
    run, rise = (rod.x - pivot.x) / prop.prop.arm, (rod.y - pivot.y) / prop.prop.arm
    shape = round_ended(prop.prop.arm, width / 2.0)
    for hand, y in zip(("left", "right"), faces, strict=True):
        origin = Vec(axis.x + pivot.x, y, axis.z + pivot.y)
        frame = Frame(origin, Vec(run, 0.0, rise), Vec(-rise, 0.0, run), Y.negated())
        yield Part(
            key=f"arm-{hand}", name="Arm", board=board, outline=shape, frame=frame, group="arm"
        )
