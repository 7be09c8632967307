"""Load cases of a piece that is looked at as one frame: pushes on its parts, by what it is for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from flatpack.frozen import frozen
from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Assembly
from flatpack.strength.layout import mass, middle, reach
from flatpack.strength.loading import Loading
from flatpack.strength.records import Case
from flatpack.strength.rules.design import Duration
from flatpack.strength.setting import GRAVITY, Setting
from flatpack.strength.spreading import Rectangle, on_part, spread
from flatpack.strength.surfaces import (
    Surface,
    arm_parts,
    back_parts,
    floor_of,
    level_surfaces,
    top_of,
    walls,
)
from flatpack.strength.whole import Push

WAYS = (
    ("forwards", X.negated()), ("backwards", X), ("to the left", Y.negated()), ("to the right", Y),
)  # fmt: skip


@frozen
class Use:
    """One case: its loading and pushes with their factors, and whether it may tip or push away."""

    loading: Loading
    pushes: tuple[Push, ...]
    tips: bool = True
    slides: bool = False


def uses(setting: Setting) -> tuple[Use, ...]:
    """Every case of the piece's load set; none where what is to be loaded wasn't found."""
    return tuple(_USES[setting.loads.use](setting))


def own_weight(setting: Setting, factor: float) -> tuple[Push, ...]:
    """The weight of every part, times a factor."""
    return tuple(
        Push(p.key, middle(p), Vec(0.0, 0.0, -mass(p) * GRAVITY * factor))
        for p in setting.assembly.parts.values()
    )


def _use(
    key: str, words: str, pushes: tuple[Push, ...], factor: float, duration: Duration = "short",
    *, tips: bool = True, slides: bool = False, lasting: float | None = None,
) -> Use:  # fmt: skip
    loading = Loading(case=Case(key, words), duration=duration, factor=factor, lasting=lasting)
    return Use(loading=loading, pushes=pushes, tips=tips, slides=slides)


def _down(setting: Setting, share: float) -> Vec:
    return Vec(0.0, 0.0, -share * setting.person * setting.loads.gamma_live)


def _seat(setting: Setting, s: Surface, x: float, y: float) -> Rectangle:
    loads = setting.loads
    return Rectangle.about(x, y, loads.seat_along, loads.seat_across, s)


def _sit(setting: Setting) -> Iterator[Use]:
    top = top_of(setting.assembly)
    if top is None:
        return
    yield from _sitting(setting, top)
    yield from _spots(setting, top)
    yield from _leaning(setting, top)
    yield from _arms(setting, top)
    yield from _lifted(setting, top, ())


def _sitting(setting: Setting, top: Surface) -> Iterator[Use]:
    loads, gamma, (x, y, _) = setting.loads, setting.loads.gamma_live, top.middle
    kg, centre = f"{loads.person:g} kg", _seat(setting, top, x, y)
    one = spread(top, centre, _down(setting, 1.0))
    yield _use("one", f"one person of {kg} in the middle", one, gamma)
    drop = spread(top, centre, _down(setting, loads.impact))
    words = f"one person who drops down, factor {loads.impact:g}"
    yield _use("drop", words, drop, gamma * loads.impact, "instantaneous", tips=False)
    for name, way in WAYS:
        aside = Vec(*(loads.sway_share * setting.person * gamma * w for w in way))
        words = f"one person in the middle, pushing {loads.sway_share:.0%} of it {name}"
        yield _use(f"sway {name}", words, (*one, *spread(top, centre, aside)), gamma, slides=True)
    yield from _along(setting, top)


def _along(setting: Setting, top: Surface) -> Iterator[Use]:
    """Persons side by side, on each end of the long way, and on the edges of the short way."""
    loads, gamma, (x, y, _) = setting.loads, setting.loads.gamma_live, top.middle
    long, short = (top.x, top.y), (top.y, top.x)
    deep = top.x[1] - top.x[0] > top.y[1] - top.y[0]
    (low, high), (front, rear) = long if deep else short
    if loads.persons > 1:
        at = [low + (high - low) * (i + 0.5) / loads.persons for i in range(loads.persons)]
        places = [(a, y) if deep else (x, a) for a in at]
        every = tuple(
            p for a, b in places
            for p in spread(top, _seat(setting, top, a, b), _down(setting, 1.0))
        )  # fmt: skip
        yield _use("all", f"{loads.persons} persons side by side", every, gamma)
    for name, a in (("first end", low), ("second end", high)):
        place = _seat(setting, top, *((a, y) if deep else (x, a)))
        words = f"one person sits on the {name}, share {loads.end_share:g}"
        yield _use(name, words, spread(top, place, _down(setting, loads.end_share)), gamma)
    for name, b in (("front edge", front), ("rear edge", rear)):
        size = (loads.seat_along, loads.spot_size)
        one, two = size if deep else (loads.spot_size, loads.seat_across)
        at_edge = Rectangle.about(*((x, b) if deep else (b, y)), one, two, top)
        words = f"on the {name}, {loads.edge_share:g} of a person"
        yield _use(name, words, spread(top, at_edge, _down(setting, loads.edge_share)), gamma)


def _spots(setting: Setting, top: Surface) -> Iterator[Use]:
    """A knee or foot on each board of the top, in its middle and at its ends."""
    loads = setting.loads
    words = f"{loads.spot_share:g} of a person on one spot, the worst place"
    force = _down(setting, loads.spot_share)
    for part in top.parts:
        for share in (0.0, 0.5, 1.0):
            pushes = on_part(part, share, loads.spot_size, force)
            yield _use("spot", words, pushes, loads.gamma_live, "instantaneous", tips=False)


def _leaning(setting: Setting, top: Surface) -> Iterator[Use]:
    loads, back = setting.loads, back_parts(setting.assembly, top)
    if not back or loads.back_share <= 0.0:
        return
    size = loads.back_share * setting.person * loads.gamma_live
    out = back[0].frame.z
    out = out if (middle(back[0]).x - top.middle.x) * out.x > 0.0 else out.negated()
    x, y, _ = top.middle
    half, high = loads.seat_across / 2.0, top.top + loads.back_height * abs(out.x)
    covered = [
        max(_lap(reach(p, Y), y - half, y + half), 0.0) * max(_lap(reach(p, Z), high - 75.0,
            high + 75.0), 0.0) for p in back
    ]  # fmt: skip
    whole = sum(covered)
    if whole <= 0.0:
        return
    pushes = [
        Push(p.key, Vec(middle(p).x, middle(p).y, high), Vec(*(size * share / whole * v
             for v in out))) for p, share in zip(back, covered, strict=True) if share > 0.0
    ]  # fmt: skip
    sits = spread(top, _seat(setting, top, x, y), _down(setting, 1.0))
    words = f"one person leaning, {loads.back_share:g} of the weight square into the back"
    yield _use("lean", words, (*sits, *pushes), loads.gamma_live, slides=True)


def _lap(reached: tuple[float, float], low: float, high: float) -> float:
    return min(reached[1], high) - max(reached[0], low)


def _arms(setting: Setting, top: Surface) -> Iterator[Use]:
    """An arm rest pressed down or outwards by who sits on the seat."""
    loads, (x, y, _) = setting.loads, top.middle
    sits = spread(top, _seat(setting, top, x, y), _down(setting, 1.0))
    for part in arm_parts(setting.assembly, top):
        side = 1.0 if middle(part).y > top.middle.y else -1.0
        for key, words, force in (
            ("arm down", "arm rest pressed down", Vec(0.0, 0.0, -loads.arm_down)),
            ("arm out", "arm rest pushed outwards", Vec(0.0, side * loads.arm_out, 0.0)),
        ):
            if force.length > 0.0:
                pushes = on_part(part, 0.5, 50.0, Vec(*(loads.gamma_live * v for v in force)))
                told = f"{words}, {force.length:.0f} N, with one person on the seat"
                yield _use(key, told, (*sits, *pushes), loads.gamma_live)


def _pushed(
    setting: Setting, top: Surface, with_: tuple[Push, ...] = (), *, tips: bool = False
) -> Iterator[Use]:
    """Somebody leans or bumps against it at the height of its top, each way: it may rack."""
    size, gamma = setting.loads.push, setting.loads.gamma_live
    whole = Rectangle(top.x, top.y)
    if size > 0.0:
        for name, way in WAYS:
            aside = spread(top, whole, Vec(*(size * gamma * w for w in way)))
            words = f"pushed {name} at the top with {size:g} N"
            yield _use(f"push {name}", words, (*with_, *aside), gamma, tips=tips)


def _lifted(setting: Setting, top: Surface, filled: tuple[Push, ...]) -> Iterator[Use]:
    """Half its weight, with what it holds, at either end of the long way."""
    loads = setting.loads
    factor = loads.gamma_dead * loads.lift_factor
    inside = -sum(p.force.z for p in filled) / loads.gamma_live
    up = Vec(0.0, 0.0, (setting.weight[0] + inside) / 2.0 * factor)
    deep = top.x[1] - top.x[0] > top.y[1] - top.y[0]
    x, y, _ = top.middle
    ends = ((top.x[0], y), (top.x[1], y)) if deep else ((x, top.y[0]), (x, top.y[1]))
    for name, (a, b) in zip(("first end", "second end"), ends, strict=True):
        area = Rectangle.about(a, b, *((40.0, 400.0) if deep else (400.0, 40.0)), top)
        words = f"lifted by the {name}, half its weight times {loads.lift_factor:g}"
        yield _use(f"lift {name}", words, (*filled, *spread(top, area, up)), factor, tips=False)


def _table(setting: Setting) -> Iterator[Use]:
    top, loads = top_of(setting.assembly), setting.loads
    if top is None:
        return
    gamma, (x, y, _) = loads.gamma_live, top.middle
    plan = (top.x[1] - top.x[0]) * (top.y[1] - top.y[0])
    laid = Vec(0.0, 0.0, -loads.top_load * plan * 1e-6 * gamma)
    words = f"laid all over with {loads.top_load:g} N/m2"
    yield _use("laid", words, spread(top, Rectangle(top.x, top.y), laid), gamma, "medium")
    (x0, x1), (y0, y1), size = top.x, top.y, loads.spot_size
    down = Vec(0.0, 0.0, -loads.table_edge * gamma)
    for name, a, b in (
        ("front edge", x0, y), ("rear edge", x1, y), ("left edge", x, y0), ("right edge", x, y1),
        ("corner", x0, y0),
    ):  # fmt: skip
        at = Rectangle.about(a, b, size, size, top)
        words = f"{loads.table_edge:g} N on its {name}"
        yield _use(f"edge {name}", words, spread(top, at, down), gamma)
    if loads.end_share > 0.0:
        for name, a, b in (("front", x0, y), ("left", x, y0)):
            at = Rectangle.about(a, b, loads.seat_along, loads.seat_across, top)
            words = f"somebody sits on its {name} edge, share {loads.end_share:g}"
            yield _use(f"sits {name}", words, spread(top, at, _down(setting, loads.end_share)),
                       gamma)  # fmt: skip
    yield from _spots(setting, top)
    yield from _pushed(setting, top)
    yield from _lifted(setting, top, ())


def _soil(setting: Setting) -> Iterator[Use]:
    floor, loads = floor_of(setting.assembly), setting.loads
    if floor is None:
        return
    earth = tuple(_earth(setting, floor))
    words = f"filled with wet soil of {loads.soil_density:g} kg/m3"
    yield _use("soil", words, earth, loads.gamma_dead, "permanent", tips=False, lasting=1.0)
    rim = level_surfaces(setting.assembly)[-1]
    if rim.top <= floor.top:
        rim = _walls_rim(setting, floor)
    x, y, _ = rim.middle
    down, size = _down(setting, loads.edge_share), loads.spot_size
    for name, a, b in (("front rim", rim.x[0], y), ("left rim", x, rim.y[0])):
        at = Rectangle.about(a, b, size, size, rim)
        words = f"{loads.edge_share:g} of a person on the {name}"
        yield _use(name, words, (*earth, *spread(rim, at, down)), loads.gamma_live)
    yield from _pushed(setting, rim, earth, tips=True)
    yield from _lifted(setting, rim, ())


def _walls_rim(setting: Setting, floor: Surface) -> Surface:
    from flatpack.strength.surfaces import surface

    found = [p for p, _ in walls(setting.assembly)]
    top = max((reach(p, Z)[1] for p in found), default=floor.top)
    high = [p for p in found if reach(p, Z)[1] > top - 1.0]
    return surface(high) if high else floor


def room_for_soil(assembly: Assembly, floor: Surface) -> tuple[float, float]:
    """Volume above the floor up to the walls' top, mm3, and the height of that top, mm."""
    top = max((reach(p, Z)[1] for p, _ in walls(assembly)), default=floor.top)
    plan = (floor.x[1] - floor.x[0]) * (floor.y[1] - floor.y[0])
    return plan * (top - floor.top), top


def _earth(setting: Setting, floor: Surface) -> Iterator[Push]:
    """Soil on the floor and against the walls: density x g x depth, sideways times its share."""
    loads, around = setting.loads, list(walls(setting.assembly))
    inside, top = room_for_soil(setting.assembly, floor)
    weight = loads.soil_density * GRAVITY * 1e-9 * loads.gamma_dead
    yield from spread(floor, Rectangle(floor.x, floor.y), Vec(0.0, 0.0, -weight * inside))
    for part, out in around:
        depth = top - max(middle(part).z, floor.top)
        if depth > 0.0 and reach(part, Z)[1] > floor.top:
            force = weight * loads.soil_pressure * depth * abs(part.outline.area)
            yield from on_part(part, 0.5, max(part.length, part.width),
                               Vec(*(force * v for v in out)))  # fmt: skip


def _lid(setting: Setting) -> Iterator[Use]:
    top, floor, loads = top_of(setting.assembly), floor_of(setting.assembly), setting.loads
    if top is None or floor is None:
        return
    weight = Vec(0.0, 0.0, -loads.contents * GRAVITY * loads.gamma_live)
    filled = spread(floor, Rectangle(floor.x, floor.y), weight) if floor is not top else ()
    yield from (*_sitting(setting, top), *_spots(setting, top))
    if filled:
        words = f"filled with {loads.contents:g} kg"
        yield _use("filled", words, filled, loads.gamma_live, "long", tips=False)
    rim = _walls_rim(setting, floor)  # nobody lifts a box by its lid
    yield from _pushed(setting, rim)
    yield from _lifted(setting, rim, filled)


_USES: Mapping[str, Callable[[Setting], Iterator[Use]]] = MappingProxyType(
    {"sit": _sit, "table": _table, "soil": _soil, "lid": _lid}
)
