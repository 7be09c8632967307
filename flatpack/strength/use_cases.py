"""What load cases of a piece looked at as one frame are made of: sitting, spots, pushes, lifts."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import frozen
from flatpack.geometry import Vec, X, Y
from flatpack.strength.layout import mass, middle
from flatpack.strength.loading import Loading
from flatpack.strength.records import Case
from flatpack.strength.rules.design import Duration
from flatpack.strength.setting import GRAVITY, Setting
from flatpack.strength.spreading import Rectangle, on_part, spread
from flatpack.strength.surfaces import Surface
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


def own_weight(setting: Setting, factor: float) -> tuple[Push, ...]:
    """The weight of every part, times a factor."""
    return tuple(
        Push(p.key, middle(p), Vec(0.0, 0.0, -mass(p) * GRAVITY * factor))
        for p in setting.assembly.parts.values()
    )


def case_of(
    key: str, words: str, pushes: tuple[Push, ...], factor: float, duration: Duration = "short",
    *, tips: bool = True, slides: bool = False, lasting: float | None = None,
) -> Use:  # fmt: skip
    """A case with its words, pushes and factor."""
    loading = Loading(case=Case(key, words), duration=duration, factor=factor, lasting=lasting)
    return Use(loading=loading, pushes=pushes, tips=tips, slides=slides)


def down_by(setting: Setting, share: float) -> Vec:
    """A share of a person's weight downwards, with its factor, N."""
    return Vec(0.0, 0.0, -share * setting.person * setting.loads.gamma_live)


def seat_at(setting: Setting, s: Surface, x: float, y: float) -> Rectangle:
    """What a sitting person covers about a place, kept on a surface."""
    loads = setting.loads
    return Rectangle.about(x, y, loads.seat_along, loads.seat_across, s)


def sitting(setting: Setting, top: Surface) -> Iterator[Use]:
    """One person in the middle, dropping down, pushing each way; several; on ends and edges."""
    loads, gamma, (x, y, _) = setting.loads, setting.loads.gamma_live, top.middle
    kg, centre = f"{loads.person:g} kg", seat_at(setting, top, x, y)
    one = spread(top, centre, down_by(setting, 1.0))
    yield case_of("one", f"one person of {kg} in the middle", one, gamma)
    drop = spread(top, centre, down_by(setting, loads.impact))
    words = f"one person who drops down, factor {loads.impact:g}"
    yield case_of("drop", words, drop, gamma * loads.impact, "instantaneous", tips=False)
    for name, way in WAYS:
        aside = Vec(*(loads.sway_share * setting.person * gamma * w for w in way))
        words = f"one person in the middle, pushing {loads.sway_share:.0%} of it {name}"
        yield case_of(
            f"sway {name}", words, (*one, *spread(top, centre, aside)), gamma, slides=True
        )
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
            for p in spread(top, seat_at(setting, top, a, b), down_by(setting, 1.0))
        )  # fmt: skip
        yield case_of("all", f"{loads.persons} persons side by side", every, gamma)
    for name, a in (("first end", low), ("second end", high)):
        place = seat_at(setting, top, *((a, y) if deep else (x, a)))
        words = f"one person sits on the {name}, share {loads.end_share:g}"
        yield case_of(name, words, spread(top, place, down_by(setting, loads.end_share)), gamma)
    for name, b in (("front edge", front), ("rear edge", rear)):
        size = (loads.seat_along, loads.spot_size)
        one, two = size if deep else (loads.spot_size, loads.seat_across)
        at_edge = Rectangle.about(*((x, b) if deep else (b, y)), one, two, top)
        words = f"on the {name}, {loads.edge_share:g} of a person"
        yield case_of(name, words, spread(top, at_edge, down_by(setting, loads.edge_share)), gamma)


def spots(setting: Setting, top: Surface) -> Iterator[Use]:
    """A knee or foot on each board of the top, in its middle and at its ends."""
    loads = setting.loads
    words = f"{loads.spot_share:g} of a person on one spot, the worst place"
    force = down_by(setting, loads.spot_share)
    for part in top.parts:
        for share in (0.0, 0.5, 1.0):
            pushes = on_part(part, share, loads.spot_size, force)
            yield case_of("spot", words, pushes, loads.gamma_live, "instantaneous", tips=False)


def pushed(
    setting: Setting, top: Surface, with_: tuple[Push, ...] = (), *, tips: bool = False
) -> Iterator[Use]:
    """Somebody leans or bumps against it at the height of its top, each way: it may rack."""
    size, gamma = setting.loads.push, setting.loads.gamma_live
    whole = Rectangle(top.x, top.y)
    if size > 0.0:
        for name, way in WAYS:
            aside = spread(top, whole, Vec(*(size * gamma * w for w in way)))
            words = f"pushed {name} at the top with {size:g} N"
            yield case_of(f"push {name}", words, (*with_, *aside), gamma, tips=tips)


def lifted(setting: Setting, top: Surface, filled: tuple[Push, ...]) -> Iterator[Use]:
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
        yield case_of(f"lift {name}", words, (*filled, *spread(top, area, up)), factor, tips=False)
