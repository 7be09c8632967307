"""Load cases: where persons sit, lean and pull, as patches on the slats."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import pairwise

from flatpack.frozen import frozen
from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Part
from flatpack.strength.layout import is_backrest, is_deck, reach
from flatpack.strength.records import Case
from flatpack.strength.rules.design import Duration
from flatpack.strength.setting import Setting
from flatpack.strength.supports import supports


@frozen
class Area:
    """A load on a stretch of the deck or back: plan limits, mm, and the force on all of it, N.

    `low`, `high` are measured across the slats (along the piece, or up the back), `left`, `right`
    along them.
    """

    low: float
    high: float
    left: float
    right: float
    force: Vec


@frozen
class Loading:
    """One case: what lies on the deck and on the back, with design factors; its duration.

    `lasting` is the share of it that makes wood creep, None: as the loads say.
    """

    case: Case
    deck: tuple[Area, ...] = ()
    back: tuple[Area, ...] = ()
    duration: Duration = "short"
    factor: float = 1.5
    lasting: float | None = None


@frozen
class Slats:
    """Slats that carry together, in order along `way`."""

    parts: tuple[Part, ...]
    way: Vec

    @cached_property
    def reaches(self) -> tuple[tuple[float, float], ...]:
        """From edge to edge of each slat along `way`."""
        return tuple(reach(p, self.way) for p in self.parts)

    @property
    def span(self) -> tuple[float, float]:
        """From the first slat's edge to the last one's along `way`."""
        return self.reaches[0][0], self.reaches[-1][1]

    @cached_property
    def across(self) -> tuple[float, float]:
        """From end to end along the slats."""
        ends = [reach(p, Y) for p in self.parts]
        return min(e[0] for e in ends), max(e[1] for e in ends)

    def shares(self, area: Area) -> Iterator[tuple[Part, float]]:
        """Slats under an area with their share of it, by how much of their width it covers."""
        covered = [max(min(b, area.high) - max(a, area.low), 0.0) for a, b in self.reaches]
        whole = sum(covered)
        if whole <= 0.0:
            centre = (area.low + area.high) / 2.0
            near = min(range(len(covered)), key=lambda i: abs(sum(self.reaches[i]) / 2.0 - centre))
            yield self.parts[near], 1.0
            return
        for part, width in zip(self.parts, covered, strict=True):
            if width > 0.0:
                yield part, width / whole


def deck_of(setting: Setting) -> Slats | None:
    """Slats to sit on, a back that lies flat included."""
    # A rail's packer or an end rail lies on edge; a slat lies on its face.
    found = [p for p in setting.assembly.parts.values() if is_deck(p) and "slat" in p.key]
    return _slats(found, X)


def back_of(setting: Setting) -> Slats | None:
    """Slats of a fixed back, upwards."""
    found = [p for p in setting.assembly.parts.values() if is_backrest(p)]
    return _slats(found, found[0].frame.y if found else Z)


def _slats(found: Sequence[Part], way: Vec) -> Slats | None:
    if not found:
        return None
    return Slats(parts=tuple(sorted(found, key=lambda p: reach(p, way)[0])), way=way)


def loadings(setting: Setting) -> tuple[Loading, ...]:
    """Every case of the family on the piece with its back flat, or fixed."""
    deck = deck_of(setting)
    if deck is None:
        return ()
    found = [*_sitting(setting, deck), *_spots(setting, deck)]
    back = back_of(setting)
    if back is not None:
        found.append(_leaning(setting, deck, back))
    return tuple(found)


def _down(setting: Setting, share: float) -> Vec:
    return Vec(0.0, 0.0, -share * setting.person * setting.loads.gamma_live)


def seat(setting: Setting, deck: Slats, along: float, across: float, force: Vec) -> Area:
    """A person's seat about a place of the deck, kept within it."""
    loads, (low, high), (left, right) = setting.loads, deck.span, deck.across
    a = _within(along, loads.seat_along, low, high)
    b = _within(across, loads.seat_across, left, right)
    return Area(low=a[0], high=a[1], left=b[0], right=b[1], force=force)


def _within(centre: float, size: float, low: float, high: float) -> tuple[float, float]:
    size = min(size, high - low)
    start = min(max(centre - size / 2.0, low), high - size)
    return start, start + size


def _sitting(setting: Setting, deck: Slats) -> Iterator[Loading]:
    loads, (low, high), (left, right) = setting.loads, deck.span, deck.across
    x, y = (low + high) / 2.0, (left + right) / 2.0
    one = seat(setting, deck, x, y, _down(setting, 1.0))
    kg = f"{loads.person:g} kg"
    yield Loading(case=Case("one", f"one person of {kg} in the middle"), deck=(one,))
    push = Vec(loads.sway_share * setting.person * loads.gamma_live, 0.0, one.force.z)
    yield Loading(
        case=Case("sway", f"the same, pushing {loads.sway_share:.0%} of it along the piece"),
        deck=(seat(setting, deck, x, y, push),),
    )
    drop = seat(setting, deck, x, y, _down(setting, loads.impact))
    yield Loading(
        case=Case("drop", f"one person who drops down, factor {loads.impact:g}"),
        deck=(drop,),
        duration="instantaneous",
        factor=loads.gamma_live * loads.impact,
    )
    long = high - low >= right - left
    places = [
        ((low + (high - low) * s, y) if long else (x, left + (right - left) * s))
        for s in ((i + 0.5) / loads.persons for i in range(loads.persons))
    ]
    if loads.persons > 1:
        yield Loading(
            case=Case("all", f"{loads.persons} persons side by side"),
            deck=tuple(seat(setting, deck, a, b, _down(setting, 1.0)) for a, b in places),
        )
    for name, a, b in (
        ("first end", low if long else x, y if long else left),
        ("second end", high if long else x, y if long else right),
    ):
        yield Loading(
            case=Case(name, f"one person sits on the {name}, share {loads.end_share:g}"),
            deck=(seat(setting, deck, a, b, _down(setting, loads.end_share)),),
        )
    yield _edge(setting, deck)


def _edge(setting: Setting, deck: Slats) -> Loading:
    """The long side's edge: the front slat, or the slats' ends where they run the short way."""
    loads, (low, high), (left, right) = setting.loads, deck.span, deck.across
    force, size = _down(setting, loads.edge_share), loads.spot_size
    x, y = (low + high) / 2.0, (left + right) / 2.0
    if high - low >= right - left:
        area = seat(setting, deck, x, y, force)
        area = Area(low=area.low, high=area.high, left=left, right=left + size, force=force)
    else:
        area = seat(setting, deck, low, y, force)
        area = Area(low=low, high=low + size, left=area.left, right=area.right, force=force)
    words = f"on the front edge, {loads.edge_share:g} of a person"
    return Loading(case=Case("edge", words), deck=(area,))


def _spots(setting: Setting, deck: Slats) -> Iterator[Loading]:
    """A knee or foot on each slat, in the middle between supports and at its ends."""
    loads, half = setting.loads, setting.loads.spot_size / 2.0
    force = _down(setting, loads.spot_share)
    case = Case("spot", f"{loads.spot_share:g} of a person on one spot, the worst place")
    for part in deck.parts:
        low, high = reach(part, deck.way)
        left, right = reach(part, Y)
        for place in _stretches(setting, part, left, right):
            a, b = _within(place, 2.0 * half, left, right)
            area = Area(low=low, high=high, left=a, right=b, force=force)
            yield Loading(case=case, deck=(area,), duration="instantaneous")


def _stretches(setting: Setting, part: Part, left: float, right: float) -> list[float]:
    flip = part.frame.x.y < 0.0
    stands = sorted(right - s.place if flip else left + s.place for s in supports(setting, part))
    middles = [(a + b) / 2.0 for a, b in pairwise(stands)]
    room = [stands[0] - left, right - stands[-1]] if stands else []
    ends = [p for p, r in zip((left, right), room, strict=False) if r > setting.loads.spot_size]
    return [*middles, *ends]


def _leaning(setting: Setting, deck: Slats, back: Slats) -> Loading:
    loads, (low, high), (left, right) = setting.loads, back.span, back.across
    out = back.parts[0].frame.z
    size = loads.back_share * setting.person * loads.gamma_live
    at = _within(low + loads.back_height, loads.seat_along, low, high)
    y = _within((left + right) / 2.0, loads.seat_across, left, right)
    push = Vec(-out.x * size, 0.0, -out.z * size)
    area = Area(low=at[0], high=at[1], left=y[0], right=y[1], force=push)
    x = sum(deck.span) / 2.0
    sitting = seat(setting, deck, x, (left + right) / 2.0, _down(setting, 1.0))
    words = f"one person leaning, {loads.back_share:g} of the weight square into the back"
    return Loading(case=Case("lean", words), deck=(sitting,), back=(area,))
