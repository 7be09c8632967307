"""Load cases of a piece that is looked at as one frame: pushes on its parts, by what it is for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from flatpack.geometry import Vec, Y, Z
from flatpack.strength import filled, shelves
from flatpack.strength.layout import middle, reach
from flatpack.strength.setting import Setting
from flatpack.strength.spreading import Rectangle, on_part, spread
from flatpack.strength.surfaces import Surface, arm_parts, back_parts, top_of
from flatpack.strength.use_cases import (
    Use,
    case_of,
    down_by,
    lifted,
    pushed,
    seat_at,
    sitting,
    spots,
)
from flatpack.strength.whole import Push


def uses(setting: Setting) -> tuple[Use, ...]:
    """Every case of the piece's load set; none where what is to be loaded wasn't found."""
    return tuple(_USES[setting.loads.use](setting))


def _sit(setting: Setting) -> Iterator[Use]:
    top = top_of(setting.assembly)
    if top is None:
        return
    yield from sitting(setting, top)
    yield from spots(setting, top)
    yield from _leaning(setting, top)
    yield from _arms(setting, top)
    yield from lifted(setting, top, ())


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
    sits = spread(top, seat_at(setting, top, x, y), down_by(setting, 1.0))
    words = f"one person leaning, {loads.back_share:g} of the weight square into the back"
    yield case_of("lean", words, (*sits, *pushes), loads.gamma_live, slides=True)


def _lap(reached: tuple[float, float], low: float, high: float) -> float:
    return min(reached[1], high) - max(reached[0], low)


def _arms(setting: Setting, top: Surface) -> Iterator[Use]:
    """An arm rest pressed down or outwards by who sits on the seat."""
    loads, (x, y, _) = setting.loads, top.middle
    sits = spread(top, seat_at(setting, top, x, y), down_by(setting, 1.0))
    for part in arm_parts(setting.assembly, top):
        side = 1.0 if middle(part).y > top.middle.y else -1.0
        for key, words, force in (
            ("arm down", "arm rest pressed down", Vec(0.0, 0.0, -loads.arm_down)),
            ("arm out", "arm rest pushed outwards", Vec(0.0, side * loads.arm_out, 0.0)),
        ):
            if force.length > 0.0:
                pushes = on_part(part, 0.5, 50.0, Vec(*(loads.gamma_live * v for v in force)))
                told = f"{words}, {force.length:.0f} N, with one person on the seat"
                yield case_of(key, told, (*sits, *pushes), loads.gamma_live)


def _table(setting: Setting) -> Iterator[Use]:
    top, loads = top_of(setting.assembly), setting.loads
    if top is None:
        return
    gamma, (x, y, _) = loads.gamma_live, top.middle
    plan = (top.x[1] - top.x[0]) * (top.y[1] - top.y[0])
    laid = Vec(0.0, 0.0, -loads.top_load * plan * 1e-6 * gamma)
    words = f"laid all over with {loads.top_load:g} N/m2"
    yield case_of("laid", words, spread(top, Rectangle(top.x, top.y), laid), gamma, "medium")
    (x0, x1), (y0, y1), size = top.x, top.y, loads.spot_size
    down = Vec(0.0, 0.0, -loads.table_edge * gamma)
    for name, a, b in (
        ("front edge", x0, y), ("rear edge", x1, y), ("left edge", x, y0), ("right edge", x, y1),
        ("corner", x0, y0),
    ):  # fmt: skip
        at = Rectangle.about(a, b, size, size, top)
        words = f"{loads.table_edge:g} N on its {name}"
        yield case_of(f"edge {name}", words, spread(top, at, down), gamma)
    if loads.end_share > 0.0:
        for name, a, b in (("front", x0, y), ("left", x, y0)):
            at = Rectangle.about(a, b, loads.seat_along, loads.seat_across, top)
            words = f"somebody sits on its {name} edge, share {loads.end_share:g}"
            yield case_of(f"sits {name}", words, spread(top, at, down_by(setting, loads.end_share)),
                       gamma)  # fmt: skip
    yield from spots(setting, top)
    yield from pushed(setting, top)
    yield from lifted(setting, top, ())


_USES: Mapping[str, Callable[[Setting], Iterator[Use]]] = MappingProxyType(
    {"sit": _sit, "table": _table, "soil": filled.soil, "lid": filled.lid, "stand": shelves.stand}
)
