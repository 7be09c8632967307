"""Checks of rails, legs, posts and racks in a side's frame, and of the joints between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from flatpack.geometry import Vec
from flatpack.strength import joint_checks, member_checks, tilting
from flatpack.strength.frames import BarForces, Solved, UnstableError
from flatpack.strength.holes import left_over, weakest
from flatpack.strength.joint_forces import tied
from flatpack.strength.loading import Loading
from flatpack.strength.records import EC5, Check, Diagram
from flatpack.strength.rules import members as m
from flatpack.strength.setting import Setting
from flatpack.strength.sides import Force, Side, solved

LAPPED = 0.9
"""Cosine above which two parts lie face to face beside each other."""
Cases = Sequence[tuple[Loading, tuple[Force, ...]]]


def checks_of(
    setting: Setting, side: Side, cases: Cases
) -> tuple[list[Check], list[tuple[float, Diagram]]]:
    """Checks of one side under every case, and diagrams with the use that they belong to."""
    checks: list[Check] = []
    drawn: list[tuple[float, Diagram]] = []
    try:
        found = solved(side, [forces for _, forces in cases])
    except UnstableError:
        why = "the frame of its side moves without strain: a joint is missing"
        return [
            Check(p.key, "part", "frame", "every case", None, "", "5.4", EC5, why)
            for p in side.parts
        ], drawn
    members = _members(side)
    lefts = {part.key: left_over(part) for part in side.parts}
    for (loading, _), state in zip(cases, found, strict=True):
        for part in side.parts:
            rows = [(i, state.bars[i]) for i in members[part.key]]
            spans = list(pairwise(side.nodes[part.key]))
            shares = [weakest(lefts[part.key], a[0], b[0]) for a, b in spans]
            check = _bent(setting, side, part.key, rows, shares, loading)
            checks.append(check)
            checks.append(_sheared(setting, side, part.key, rows, loading))
            if loading.duration != "instantaneous":
                checks.append(_sagged(setting, side, part.key, state, loading))
            drawn.append((check.weight, _diagram(side, part.key, rows, state, loading)))
        ties = [
            (link, f, Vec(-x, 0.0, -z))
            for (link, f), (x, z, _) in zip(side.ties, state.ties, strict=True)
        ]
        for held in tied(loading, ties):
            checks += joint_checks.checks_of(setting, held)
        checks += _legs_aside(setting, side, loading, state)
    return checks, drawn


def _members(side: Side) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {part.key: [] for part in side.parts}
    for number, (key, _) in enumerate(side.bars):
        found[key].append(number)
    return found


def _free_length(side: Side, key: str) -> float:
    """Longest stretch of a part between places where something holds it, mm."""
    held = {node for tie in side.frame.ties for node in (tie.first, tie.second)}
    held |= {node for _, node in side.feet}
    marks = [at for at, node in side.nodes[key] if node in held]
    return max((b - a for a, b in pairwise(marks)), default=side.nodes[key][-1][0])


def _bent(
    setting: Setting, side: Side, key: str, rows: list[tuple[int, BarForces]],
    shares: list[float], loading: Loading,
) -> Check:  # fmt: skip
    """The stretch of a part with most use in bending on edge with push or pull along it."""
    part, section = setting.part(key), side.bars[rows[0][0]][1]
    stuff = setting.stuff(part)
    assert stuff.row is not None
    row, cls = stuff.row, setting.loads.service_class
    strength = stuff.bent(row, part.width, False).bending
    tilt = tilting.of_fastened(setting, part, strength)
    fm = stuff.design(tilt * strength, cls, loading.duration)
    fc = stuff.design(row.compression, cls, loading.duration)
    ft = stuff.design(row.tension, cls, loading.duration)
    kc = _k_c(part.thickness, _free_length(side, key), row.compression, row.stiffness_low)
    worst = (-1.0, "", "")
    for (_, forces), share in zip(rows, shares, strict=True):
        moment = max(map(abs, forces.moment))
        bend = m.bending_stress(moment, section.modulus * share)
        along = abs(forces.pull) / section.area
        if forces.pull < 0.0:
            use = m.compression_use(along, fc, (bend, fm, 0.0, fm), (1.0, kc))
            words, clause = f"sigma_c {along:.2f} / (k_c {kc:.2f} x {fc:.2f})", "6.3.2 eq. 6.24"
        else:
            use = m.tension_use(along, ft, bend, fm, 0.0, fm)
            words, clause = f"sigma_t {along:.2f} / {ft:.2f}", "6.2.3 eq. 6.17"
        if use > worst[0]:
            text = f"sigma_m {bend:.2f} / {fm:.2f} + {words} N/mm2, {share:.0%} of W left"
            worst = (use, text, clause)
    use, formula, clause = worst
    if tilt < 1.0:
        formula, clause = f"{formula}, k_crit {tilt:.2f}", f"{clause}, 6.3.3 eq. 6.33"
    words = loading.case.words
    return Check(key, "part", "bending", words, use, formula, clause, EC5)


def _k_c(thickness: float, length: float, strength: float, stiffness: float) -> float:
    slender = m.slenderness(length, thickness / 12.0**0.5)
    return m.k_c(m.relative_slenderness(slender, strength, stiffness))


def _sheared(
    setting: Setting, side: Side, key: str, rows: list[tuple[int, BarForces]], loading: Loading
) -> Check:
    part = setting.part(key)
    stuff, section = setting.stuff(part), side.bars[rows[0][0]][1]
    assert stuff.row is not None
    values = stuff.bent(stuff.row, part.width, False)
    force = max(abs(v) for _, f in rows for v in f.shear)
    return member_checks.shear(setting, part, section, values, force, "edge", loading)


def _sagged(setting: Setting, side: Side, key: str, state: Solved, loading: Loading) -> Check:
    """Final sag of a part from the line between its ends, without the load's factor."""
    nodes = side.nodes[key]
    off = _off_line(side, key, state)
    allowed = nodes[-1][0] / setting.loads.deflection
    sag = setting.crept(setting.part(key), max(map(abs, off)), loading.factor, loading.lasting)
    formula = f"w_fin {sag:.2f} / {allowed:.2f} mm, length {nodes[-1][0]:.0f} / "
    formula += f"{setting.loads.deflection:g}"
    words = loading.case.words
    return Check(
        key, "part", "deflection", words, sag / allowed, formula, "7.2 table 7.2, 2.2.3", EC5
    )


def _off_line(side: Side, key: str, state: Solved) -> list[float]:
    """How far each node has moved square to the line between the part's ends, mm."""
    nodes = side.nodes[key]
    (x0, z0), (x1, z1) = (side.frame.nodes[n] for n in (nodes[0][1], nodes[-1][1]))
    length = nodes[-1][0]
    c, s = (x1 - x0) / length, (z1 - z0) / length
    moved = [-s * state.moved[n][0] + c * state.moved[n][1] for _, n in nodes]
    first, last = moved[0], moved[-1]
    return [
        v - first - (last - first) * at / length for v, (at, _) in zip(moved, nodes, strict=True)
    ]


def _diagram(
    side: Side, key: str, rows: list[tuple[int, BarForces]], state: Solved, loading: Loading
) -> Diagram:
    places = tuple(at for at, _ in side.nodes[key])
    moments = (*(f.moment[0] for _, f in rows), rows[-1][1].moment[1])
    sags = tuple(-w / loading.factor for w in _off_line(side, key, state))
    return Diagram(key, loading.case.words, "edge", places, moments, sags)


def _legs_aside(setting: Setting, side: Side, loading: Loading, state: Solved) -> Iterator[Check]:
    """Legs bent flat by standing beside the rail that they bear: V times the lanes' distance.

    The bolts' couple holds the leg's head; the whole moment is taken at the lap (statics).
    """
    for key, node in side.feet:
        force = state.reactions.get((node, 1), 0.0)
        part = setting.part(key)
        near = [k for k, _ in side.ties if key in (k.first, k.second)]
        if force <= 0.0 or not near or abs(near[0].normal.y) < LAPPED:
            continue
        other = setting.part(near[0].other(key))
        moment = force * (part.thickness + other.thickness) / 2.0
        stuff = setting.stuff(part)
        assert stuff.row is not None
        values = stuff.bent(stuff.row, part.thickness, True)
        modulus = part.width * part.thickness**2 / 6.0
        two = [(m.bending_stress(moment, modulus), values.bending)]
        check = member_checks.bending(setting, part, two, loading)
        yield check._replace(code="bending aside")
