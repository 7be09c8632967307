"""Bending both ways with push or pull, shear, twist and sag of each part of a frame in space."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from flatpack.geometry import Vec
from flatpack.model import Part
from flatpack.strength import whole_bars
from flatpack.strength.loading import Loading
from flatpack.strength.records import EC5, Check, Diagram, Second
from flatpack.strength.rules import members as m
from flatpack.strength.rules.sections import twist_stress
from flatpack.strength.setting import Setting
from flatpack.strength.space import BarEnds
from flatpack.strength.whole import Whole, sizes
from flatpack.strength.whole_limits import Limits, held_places, limits_of
from flatpack.strength.whole_solving import State

SHORT = 50.0
"""A part held within this length, mm, is no beam between its holds."""
BROAD = 0.5
"""Width over length from which a board is a plate, not a beam."""


class Worst(NamedTuple):
    """The worst use of one kind of check, and what it comes from; `flat`: bent flat, as a plate."""

    use: float
    loading: Loading
    words: str
    flat: bool = False


def checks_of(
    setting: Setting, whole: Whole, states: Sequence[State]
) -> tuple[list[Check], list[tuple[float, Diagram]]]:
    """The worst of each kind for every part, and its diagrams with the use they belong to."""
    checks: list[Check] = []
    drawn: list[tuple[float, Diagram]] = []
    for number, part in enumerate(whole.parts):
        bar = setting.assembly.bars.get(part.key)
        if bar is not None:
            rows = [(s.loading.case.words, b) for s in states for b in s.stood.bars[number]]
            checks.append(whole_bars.check(setting, bar, rows))
            continue
        limits = limits_of(setting, whole, number)
        if limits is None:
            checks.append(_across_grain(setting, part))
            continue
        bent = _bent(limits, states)
        second = sizes(part)[1] > BROAD * sizes(part)[0] and bent.flat
        checks.append(_told(part, "bending", bent, "6.1.6, 6.2.3, 6.2.4, 6.3.2, 6.3.3", second))
        checks += (c for c in _sheared(limits, states) if c is not None)
        sagged = _sagged(limits, states)
        if sagged is not None:
            checks.append(_told(part, "deflection", sagged, "7.2 table 7.2, 2.2.3", second))
        state = next(s for s in states if s.loading is bent.loading)
        drawn += ((bent.use, d) for d in _diagrams(limits, state))
    return checks, drawn


def _across_grain(setting: Setting, part: Part) -> Check:
    why = f"its long side runs across the grain; EC5 has no such bending strength for {part.board.name}"  # noqa: E501  # one sentence
    return Check(part.key, "part", "bending", "every case", None, "", "6.1.6", EC5, why)


def _told(part: Part, code: str, worst: Worst, clause: str, plate: bool) -> Check:
    """The check; of a plate, only what it would be as a beam stands beside it."""
    case = worst.loading.case.words
    if not plate:
        return Check(part.key, "part", code, case, worst.use, worst.words, clause, EC5)
    why = "a broad board bends as a plate, both ways at once"
    second = Second(f"as a beam of its whole width: {worst.words}", worst.use, EC5)
    return Check(part.key, "part", code, case, None, "", clause, EC5, why, second)


def _bent(limits: Limits, states: Sequence[State]) -> Worst:
    part = limits.part
    _, wide = sizes(part)
    area, t = wide * part.thickness, part.thickness
    w_flat, w_edge = wide * t * t / 6.0, t * wide * wide / 6.0
    best: tuple[float, State, tuple[float, ...]] | None = None
    for state in states:
        design = limits.design(state.loading.duration)
        for bar, net in zip(state.stood.bars[limits.number], limits.nets, strict=True):
            flat = max(map(abs, bar.flat)) / (w_flat * net.flat)
            edge = max(map(abs, bar.edge)) / (w_edge * net.edge)
            along = bar.pull / (area * net.depth)
            use = _use(along, flat, edge, design, limits)
            if best is None or use > best[0]:
                best = use, state, (flat, edge, along)
    assert best is not None
    use, state, (flat, edge, along) = best
    a, b, ft, fc = limits.design(state.loading.duration)
    words = f"flat {flat:.2f} / {a:.2f}, on edge {edge:.2f} / {b:.2f} N/mm2"
    words += f" (k_crit {limits.tilt:.2f})" if limits.tilt < 1.0 else ""
    if abs(along) > 0.005:
        k_c = min(limits.buckling)
        words += (
            f", pulled {along:.2f} / {ft:.2f}" if along > 0.0
            else f", pushed {-along:.2f} / ({k_c:.2f} x {fc:.2f})"
        )  # fmt: skip
    return Worst(use, state.loading, words, flat / a > edge / b)


def _use(
    along: float, flat: float, edge: float, design: tuple[float, float, float, float],
    limits: Limits,
) -> float:  # fmt: skip
    fm_flat, fm_edge, ft, fc = design
    if along >= 0.0:
        return m.tension_use(along, ft, flat, fm_flat, edge, fm_edge)
    return m.compression_use(-along, fc, (flat, fm_flat, edge, fm_edge), limits.buckling)


def _sheared(limits: Limits, states: Sequence[State]) -> Iterator[Check | None]:
    """Shear flat and on edge over what is left of the section, and twist."""
    part, stuff = limits.part, limits.setting.stuff(limits.part)
    _, wide = sizes(part)
    cls = limits.setting.loads.service_class
    for plane, values in (("flat", limits.flat), ("edge", limits.edge)):
        found = []
        for state in states:
            factor = stuff.design(1.0, cls, state.loading.duration)
            for bar, net in zip(state.stood.bars[limits.number], limits.nets, strict=True):
                force = bar.shear_flat if plane == "flat" else bar.shear_edge
                notch = _notched(limits, plane, net.depth, wide)
                area = wide * part.thickness * net.depth * notch
                tau = m.shear_stress(force, area, 1.5, values.k_cr)
                found.append((tau / factor, tau, factor, state))
        most, tau, factor, state = max(found, key=lambda row: row[0])
        case = state.loading.case.words
        if values.shear is None:
            why = f"no {'rolling ' if plane == 'flat' else ''}shear strength for {part.board.name}"
            yield Check(part.key, "part", f"shear, {plane}", case, None, f"tau {tau:.2f} N/mm2",
                        "6.1.7 eq. 6.13", EC5, why)  # fmt: skip
            continue
        words = f"tau {tau:.2f} / f_v,d {values.shear * factor:.2f} N/mm2"
        yield Check(part.key, "part", f"shear, {plane}", case, most / values.shear, words,
                    "6.1.7 eq. 6.13, 6.5.2 eq. 6.60", EC5)  # fmt: skip
    yield _twisted(limits, states)


def _notched(limits: Limits, plane: str, depth: float, wide: float) -> float:
    """k_v where a notch or a halving leaves less of a solid part's depth on edge."""
    if plane == "flat" or depth > 0.95 or limits.setting.stuff(limits.part).panel:
        return 1.0
    return m.k_v(wide, depth, limits.part.thickness / 2.0)


def _twisted(limits: Limits, states: Sequence[State]) -> Check | None:
    part, stuff = limits.part, limits.setting.stuff(limits.part)
    _, wide = sizes(part)
    cls, shear = limits.setting.loads.service_class, limits.edge.shear
    if shear is None or stuff.panel:
        return None  # EC5 6.1.8 is for solid timber; a panel's twist is no check of its own here
    rows = [
        (twist_stress(_most_twist(s.stood.bars[limits.number]), wide, part.thickness)
         / stuff.design(m.k_shape(wide, part.thickness) * shear, cls, s.loading.duration), s)
        for s in states
    ]  # fmt: skip
    use, state = max(rows, key=lambda row: row[0])
    tau = twist_stress(_most_twist(state.stood.bars[limits.number]), wide, part.thickness)
    limit = stuff.design(shear, cls, state.loading.duration)
    words = f"tau_tor {tau:.2f} / ({m.k_shape(wide, part.thickness):.2f} x {limit:.2f}) N/mm2"
    case = state.loading.case.words
    return Check(part.key, "part", "twist", case, use, words, "6.1.8 eq. 6.14, 6.15", EC5)


def _most_twist(bars: Sequence[BarEnds]) -> float:
    return max((abs(b.twist) for b in bars), default=0.0)


def _sagged(limits: Limits, states: Sequence[State]) -> Worst | None:
    """Sag with creep over its span: from the line between neighbouring holds, and the outermost."""
    held = held_places(limits.whole, limits.number)
    if len(held) < 2 or held[-1] - held[0] < SHORT:
        return None
    best: Worst | None = None
    for state in states:
        if state.loading.duration == "instantaneous":
            continue
        for first, last in dict.fromkeys(((held[0], held[-1]), *pairwise(held))):
            sag, span = _sag(limits, state, first, last, outer=(held[0], held[-1]) == (first, last))
            w = limits.setting.crept(limits.part, sag, state.loading.factor, state.loading.lasting)
            allowed = span / limits.setting.loads.deflection
            if best is None or w / allowed > best.use:
                words = f"w_fin {w:.2f} / {allowed:.2f} mm, span {span:.0f} / "
                words += f"{limits.setting.loads.deflection:g}"
                best = Worst(w / allowed, state.loading, words)
    return best


def _sag(
    limits: Limits, state: State, first: float, last: float, *, outer: bool
) -> tuple[float, float]:
    """Greatest sag between two holds, and its span; beyond the outermost twice the overhang."""
    places = limits.whole.members[limits.number].places
    off = _off_line(limits, state, (first, last))
    inside = [abs(v) for at, v in zip(places, off, strict=True) if first <= at <= last]
    sag, span = max(inside), last - first
    if outer:
        ends = ((abs(off[0]), 2.0 * first), (abs(off[-1]), 2.0 * (places[-1] - last)))
        for w, reach in ends:
            if w > sag:
                sag, span = w, max(span, reach)
    return sag, span


def _off_line(limits: Limits, state: State, held: Sequence[float]) -> list[float]:
    """How far each node has moved aside from the line between two places that hold the part."""
    places = limits.whole.members[limits.number].places
    moved = state.stood.moved[limits.number]
    a, b = places.index(held[0]), places.index(held[-1])
    first, last = moved[a], moved[b]
    found = []
    for at, v in zip(places, moved, strict=True):
        share = (at - held[0]) / (held[-1] - held[0])
        dy = v.y - first.y - (last.y - first.y) * share
        dz = v.z - first.z - (last.z - first.z) * share
        found.append(dz if abs(dz) >= abs(dy) else dy)
    return found


def _diagrams(limits: Limits, state: State) -> Iterator[Diagram]:
    """Moment and sag of a part in its worst case, in the plane that is bent more."""
    bars = state.stood.bars[limits.number]
    part, places = limits.part, limits.whole.members[limits.number].places
    held = held_places(limits.whole, limits.number)
    up = 1.0 if part.frame.z.dot(Vec(0.0, 0.0, 1.0)) >= 0.0 else -1.0
    flat = tuple(up * v for v in (*(b.flat[0] for b in bars), bars[-1].flat[1]))
    edge = (*(b.edge[0] for b in bars), bars[-1].edge[1])
    most = max(map(abs, flat)), max(map(abs, edge))
    if max(most) <= 0.0 or len(held) < 2:
        return
    off = tuple(-v / state.loading.factor for v in _off_line(limits, state, held))
    case = state.loading.case.words
    if most[0] / part.thickness >= most[1] / sizes(part)[1]:
        yield Diagram(part.key, case, "flat", places, flat, tuple(up * v for v in off))
    else:
        yield Diagram(part.key, case, "edge", places, edge, off)
