"""Joints of a frame in space: fasteners, wood let into wood, glue, hinges, what lies on others.

A moment about a line in the joint's face is held by its fastener and by the far edge of the faces
(statics):

    ___|___       pull = M / (half the face)
      |o|  >M
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from flatpack.geometry import Vec, X, Y
from flatpack.model import Fastener, Part
from flatpack.strength import joint_checks, whole_bars
from flatpack.strength.joint_forces import Held as HeldForces
from flatpack.strength.layout import STRAIGHT, Link, reach
from flatpack.strength.loading import Loading
from flatpack.strength.meeting import shared_box
from flatpack.strength.records import EC5, Check, Second
from flatpack.strength.rules.members import bearing_length, strength_at_angle
from flatpack.strength.setting import Setting
from flatpack.strength.whole import Held
from flatpack.strength.whole_solving import State

NONE = 1.0
"""Forces below this, N, count as none."""
OPEN: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "let in": (
            "pulled apart",
            "what keeps the parts in each other (fit, wedge, glue) has no published strength",
        ),
        "glued": ("glue", "the strength of glue made in a workshop isn't known"),
        "hinge": ("hinge", "screws through a leaf are out of EC5's scope"),
    }
)


def checks_of(setting: Setting, states: Sequence[State]) -> Iterator[Check]:
    """Checks of every tie in every case."""
    for state in states:
        links: dict[tuple[str, str], list[tuple[Link, Fastener, Vec]]] = {}
        for number, (held, force) in enumerate(
            zip(state.whole.held, state.stood.ties, strict=True)
        ):
            if held.kind == "fastener":
                assert held.link is not None
                assert held.fastener is not None
                row = (held.link, held.fastener, _on_fastener(state, number, held, force))
                links.setdefault((held.link.first, held.link.second), []).append(row)
            elif held.kind != "foot":
                yield from _unfastened(setting, state, number, held, force)
        for rows in links.values():
            each = tuple((f, v) for _, f, v in rows)
            yield from joint_checks.checks_of(setting, HeldForces(rows[0][0], state.loading, each))


def _whole_force(state: State, number: int, force: Sequence[float]) -> Vec:
    axes = state.whole.ties[number].axes
    total = Vec(0.0, 0.0, 0.0)
    for size, axis in zip(force[:3], axes, strict=True):
        total = total.plus(axis, size)
    return total


def _on_fastener(state: State, number: int, held: Held, force: Sequence[float]) -> Vec:
    """Force of the first part on the second at a fastener, prying added to its pull."""
    pry = abs(force[4]) / held.levers[0] + abs(force[5]) / held.levers[1]
    normal = state.whole.ties[number].axes[0]
    return _whole_force(state, number, force).plus(normal, -pry)


def _unfastened(
    setting: Setting, state: State, number: int, held: Held, force: Sequence[float]
) -> Iterator[Check]:
    whole = _whole_force(state, number, force)
    if held.kind in ("bar", "hooked"):
        yield _on_bar(setting, state.loading, held, whole)
        return
    if held.kind == "lying":
        yield from _lying(setting, state.loading, held, whole, state.whole.ties[number].place)
        return
    if held.kind == "let in":
        yield from _let_in(setting, state.loading, held, whole)
    code, why = OPEN[held.kind]
    second = _hinge(setting, state.loading, held, whole) if held.kind == "hinge" else None
    words = f"F {whole.length:.0f} N"
    yield Check(held.joint, "joint", code, state.loading.case.words, None, words, "8", EC5, why,
                second)  # fmt: skip


def _on_bar(setting: Setting, loading: Loading, held: Held, force: Vec) -> Check:
    bar, part = setting.assembly.bars[held.parts[0]], setting.part(held.parts[1])
    second = whole_bars.pressed(setting, bar, part, force.length, loading.duration)
    why = "EC5 has no rule for a round bar in a hole or notch"
    words, case = f"F {force.length:.0f} N", loading.case.words
    if held.joint:
        return Check(held.joint, "joint", "bar", case, None, words, "8", EC5, why, second)
    return Check(part.key, "part", "hooked on a bar", case, None, words, "8", EC5, why, second)


def _lying(
    setting: Setting, loading: Loading, held: Held, force: Vec, place: Vec
) -> Iterator[Check]:
    up = Vec(0.0, 0.0, 1.0)
    if force.z <= NONE:
        return
    for key in held.parts:
        part = setting.part(key)
        area = _bedded(part, place, held.levers)
        check = bears(setting, loading, key, force.z / area, up)
        yield check._replace(subject=key, kind="part", code="lying")


def _bedded(part: Part, place: Vec, half: tuple[float, float]) -> float:
    """Contact area with what EC5 6.1.5(1) adds along the grain of a part that lies level, mm2."""
    sides = []
    for axis, lever in zip((X, Y), half, strict=True):
        low, high = reach(part, axis)
        at = place.dot(axis)
        before, behind = max(at - lever - low, 0.0), max(high - at - lever, 0.0)
        level = abs(part.frame.x.dot(axis)) > STRAIGHT
        sides.append(bearing_length(2.0 * lever, before, behind) if level else 2.0 * lever)
    return sides[0] * sides[1]


def _let_in(setting: Setting, loading: Loading, held: Held, force: Vec) -> Iterator[Check]:
    """Each face of the shared box bears its share: force over the product of the other two sides.

    EC5 6.1.4, 6.1.5 and 6.2.2; k_c,90 1.
    """
    one, two = (setting.part(k) for k in held.parts)
    _, (dx, dy, dz) = shared_box(one, two)
    for size, area, way in (
        (force.x, dy * dz, Vec(1.0, 0.0, 0.0)), (force.y, dx * dz, Vec(0.0, 1.0, 0.0)),
        (force.z, dx * dy, Vec(0.0, 0.0, 1.0)),
    ):  # fmt: skip
        if abs(size) > NONE and area > 0.0:
            for key in held.parts:
                check = bears(setting, loading, key, abs(size) / area, way)
                yield check._replace(subject=held.joint)


def bears(setting: Setting, loading: Loading, key: str, stress: float, way: Vec) -> Check:
    """Pressure on a part along `way`, by the angle to its grain; on a panel's face not done."""
    import math

    part = setting.part(key)
    stuff, cls = setting.stuff(part), setting.loads.service_class
    assert stuff.row is not None
    words, clause, case = f"sigma_c {stress:.2f}", "6.1.5, 6.2.2", loading.case.words
    if stuff.panel and abs(way.dot(part.frame.z)) > 0.5:
        lowest = setting.profiles.material("c14").rows[0].compression_across
        limit = stuff.design(lowest, cls, loading.duration)
        why = f"no strength of {part.board.name} against pressure on its face"
        second = Second("as if of the lowest solid wood, C14", stress / limit, "EN 338:2016")
        return Check("", "joint", "pressed", case, None, words, clause, EC5, why, second)
    angle = math.degrees(math.acos(min(abs(way.dot(part.frame.x)), 1.0)))
    char = strength_at_angle(stuff.row.compression, stuff.row.compression_across, angle)
    limit = stuff.design(char, cls, loading.duration)
    formula = f"{words} / f_c,{angle:.0f},d {limit:.2f} N/mm2 in {part.title.lower()}, k_c,90 1"
    return Check("", "joint", "pressed", case, stress / limit, formula, clause, EC5)


def _hinge(setting: Setting, loading: Loading, held: Held, force: Vec) -> Second | None:
    """The whole force on one leaf's screws, sideways."""
    screws = [
        f
        for f in setting.assembly.fasteners
        if f.joint == held.joint and f.kind == "hinge screw" and f.passes[0] == held.parts[0]
    ]
    row = setting.stuff(setting.part(held.parts[0])).row
    if not screws or row is None:
        return None
    gravity = joint_checks.gravity_of(row.density, setting.stuff(setting.part(held.parts[0])).panel)
    limit, method = joint_checks.screw_allowable(
        screws[0], gravity, "sheared", loading.duration, steel=True
    )
    use = force.length / len(screws) / loading.factor / limit
    return Second(method, use, joint_checks.NDS)
