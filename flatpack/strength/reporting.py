"""The report: every case on every part and joint, the worst of each kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Any

from flatpack.geometry import Vec
from flatpack.model import Assembly
from flatpack.profiles import LoadSet, Profiles
from flatpack.strength import (
    joint_checks,
    member_checks,
    racking,
    side_checks,
    stability,
    whole_report,
)
from flatpack.strength.basis import loads_of
from flatpack.strength.crossing import Bent, bend_part, on_slats
from flatpack.strength.gathered import Gathered
from flatpack.strength.joint_forces import shared
from flatpack.strength.layout import is_across, middle
from flatpack.strength.lifting import arm_rests, lifted
from flatpack.strength.loading import Loading, Slats, back_of, deck_of, loadings
from flatpack.strength.raised import (
    Raised,
    bent_brace,
    bent_first_slat,
    bent_hinge_rail,
    bent_slats,
    keyed,
    link_of,
    rack_forces,
    raised,
)
from flatpack.strength.raised_checks import arm_checks, hinge_checks, rod_checks
from flatpack.strength.records import EDITION, Check, Diagram, Report, worst_each
from flatpack.strength.rolling import axle
from flatpack.strength.setting import Setting
from flatpack.strength.sides import Force, sides
from flatpack.strength.supports import Support, supports
from flatpack.strength.untouched import alone, untouched

NO_GRADES: Mapping[str, str] = MappingProxyType({})
NOTES = (
    "This doesn't replace tests or the advice of a licensed engineer where they are required; ask "
    "which local rules hold for furniture let out, sold, or used in public.",
    "Glue is left out: its strength isn't known, so joints are judged by their fasteners alone.",
    "Solid timber's sizes are as measured; drying cracks are allowed for in shear only.",
    "Screws are as stiff along their axis as sideways; parts pressed end to face are not helped by "
    "the pressure.",
    "Deflections are final ones: the lasting share of a load creeps (EC5 2.2.3); where a load "
    "lasts only a moment there is no limit.",
    "Tall parts bent on edge may tilt (EC5 6.3.3) between the fasteners that hold them: l_ef is "
    "the longest stretch, of a part held near its ends only 0.9 of it and twice its depth.",
    "Pocket holes are not taken off the rails' sections; bolts' and screws' holes are.",
    "Sliding is judged for pushes from the ground; who lies with the feet up is held by the slats.",
    "Not modelled: fatigue, rot.",
)

SIDES = (
    "Parts across are beams hinged on the sides; sides are plane frames, the first foot held along "
    "the piece and the others free to slide.",
    "Legs stand beside their rails: what that pulls their bolts by is counted where the frame is "
    "pushed across, without the slats that brace it.",
)
"""Notes of pieces that are looked at as two sides."""
SURFACE = {
    "sit": "seat", "table": "top", "soil": "floor", "lid": "lid over a floor", "stand": "shelf",
}  # fmt: skip


def report(
    assembly: Assembly,
    record: Any,
    profiles: Profiles,
    *,
    loads: LoadSet | None = None,
    grades: Mapping[str, str] = NO_GRADES,
) -> Report:
    """Strength of a piece with its joints made and its back flat.

    Args:
        assembly: the piece.
        record: its parameters, for the name only.
        profiles: where materials and the family's loads are found.
        loads: instead of the family's.
        grades: board's key -> material's key, for boards that are marked with a class.

    Raises:
        ProfileError: a grade names no material, or a profile has faults.
    """
    loads = loads or loads_of(assembly, record, profiles)
    if loads is None:
        return _nothing(assembly, record, _why_nothing(assembly))
    setting = Setting(assembly, profiles, loads, grades)
    gathered = _gather(setting)
    if gathered is None:
        return _nothing(assembly, record, f"no {SURFACE[loads.use]} was found to load")
    gathered.checks += alone(setting)
    gathered.checks += untouched(setting, gathered.checks, _parts(assembly))
    return Report(
        family=assembly.family,
        name=getattr(record, "name", assembly.name),
        edition=EDITION,
        checks=worst_each(gathered.checks),
        joints=tuple(joint.key for joint in assembly.joints),
        parts=_parts(assembly),
        cases=tuple(dict.fromkeys(gathered.cases)),
        assumptions=_assumptions(setting, gathered.notes),
        diagrams=_worst_drawn(gathered.diagrams),
    )


def _why_nothing(assembly: Assembly) -> str:
    """Why nothing can be judged."""
    if assembly.loose:
        return "what loose parts will carry isn't known"
    return f"no loads are known for a {assembly.family} piece, and its file names none"


def _parts(assembly: Assembly) -> tuple[str, ...]:
    return (*assembly.parts, *assembly.bars)


def _nothing(assembly: Assembly, record: Any, why: str) -> Report:
    joints = tuple(joint.key for joint in assembly.joints)
    missing = [Check(k, "joint", "loads", "none", None, "", "", "", why) for k in joints]
    missing += [Check(k, "part", "loads", "none", None, "", "", "", why) for k in _parts(assembly)]
    return Report(
        family=assembly.family, name=getattr(record, "name", assembly.name), edition=EDITION,
        checks=tuple(missing), joints=joints, parts=_parts(assembly), cases=(),
        assumptions=(why,),
    )  # fmt: skip


def _gather(setting: Setting) -> Gathered | None:
    if setting.loads.frame == "whole":
        return whole_report.gathered(setting)
    deck = deck_of(setting)
    return None if deck is None else _two_sides(setting, deck)


def _two_sides(setting: Setting, deck: Slats) -> Gathered:
    found = Gathered(notes=SIDES)
    found.checks += _unknown(setting)
    back = back_of(setting)
    for loading in loadings(setting):
        found.cases.append(loading.case)
        forces = _across(setting, loading, deck, back, found)
        if loading.case.key != "spot":
            found.sides.append((loading, forces))
    lifted_backs = tuple(raised(setting, deck))
    for r in lifted_backs:
        _raised(r, deck, found)
    _sides(setting, found)
    found.checks += lifted(setting, deck)
    found.checks += arm_rests(setting)
    found.checks += axle(setting)
    if setting.loads.sway_share > 0.0:
        found.cases.append(racking.case(setting))
        found.checks += racking.checks_of(setting, deck)
    found.checks += stability.checks_of(setting, deck, lifted_backs)
    return found


def _unknown(setting: Setting) -> Iterator[Check]:
    for part in setting.assembly.parts.values():
        if setting.stuff(part).row is None:
            yield member_checks.unknown(setting, part)


def _across(
    setting: Setting, loading: Loading, deck: Slats, back: Slats | None, found: Gathered
) -> tuple[Force, ...]:
    """Slats under a case: their checks, their joints', and the forces on the sides."""
    forces: list[Force] = []
    groups = [(deck, loading.deck)] + ([(back, loading.back)] if back is not None else [])
    for slats, areas in groups:
        for key, patches in on_slats(slats, areas).items():
            part = setting.part(key)
            bent = bend_part(setting, part, supports(setting, part), patches)
            if bent is not None:
                forces += _took(setting, bent, loading, found)
    return tuple(forces)


def _took(setting: Setting, bent: Bent, loading: Loading, found: Gathered) -> Iterator[Force]:
    """Keeps the checks of a part across and of its joints; gives its forces on the sides."""
    made = list(member_checks.checks_of(setting, bent, loading))
    found.checks += made
    weight = max(c.weight for c in made)
    found.diagrams += [(weight, d) for d in member_checks.diagram(bent, loading)]
    for support, force in bent.borne:
        if support.link is not None:
            sign = 1.0 if support.link.first == bent.part.key else -1.0
            way = Vec(sign * force.x, sign * force.y, sign * force.z)
            found.checks += joint_checks.checks_of(setting, shared(support.link, loading, way))
        yield Force(support.bearer, _meeting(setting, bent, support), force)


def _meeting(setting: Setting, bent: Bent, support: Support) -> Vec:
    """Where a part across presses on a side: at its own middle, in the side's plane."""
    at = middle(bent.part)
    return Vec(at.x, middle(setting.part(support.bearer)).y, at.z)


def _raised(r: Raised, deck: Slats, found: Gathered) -> None:
    setting = r.setting
    found.cases.append(r.loading.case)
    back = Slats(parts=tuple(p for p in deck.parts if p.group == "back"), way=deck.way)
    fixed = Slats(parts=tuple(p for p in deck.parts if p.group == "frame"), way=deck.way)
    slats = list(bent_slats(r, back))
    for bent in slats:
        list(_took(setting, bent, r.loading, found))
    for brace in keyed(setting, "brace"):
        held = bent_brace(r, brace, slats)
        if held is not None:
            found.checks += member_checks.checks_of(setting, held, r.loading)
            found.diagrams += [(0.0, d) for d in member_checks.diagram(held, r.loading)]
        link = link_of(setting, brace.key, "back-slat-1")
        if link is not None:
            sign = 1.0 if link.first == brace.key else -1.0
            way = Vec(-sign * r.hinge.x, 0.0, -sign * r.hinge.z)
            found.checks += joint_checks.checks_of(setting, shared(link, r.loading, way))
    first = bent_first_slat(r)
    if first is not None:
        found.checks += member_checks.checks_of(setting, first, r.loading)
    for make in (arm_checks, rod_checks, hinge_checks):
        found.checks += make(r)
    forces = [*rack_forces(r), *_across(setting, r.loading, fixed, None, found)]
    rail = bent_hinge_rail(r)
    if rail is not None:
        forces += _took(setting, rail, r.loading, found)
    found.sides.append((r.loading, tuple(forces)))


def _sides(setting: Setting, found: Gathered) -> None:
    own = tuple(_own_weight(setting))
    cases = [(loading, (*forces, *own)) for loading, forces in found.sides]
    places: dict[str, list[Vec]] = {}
    for _, forces in cases:
        for force in forces:
            places.setdefault(force.part, []).append(force.place)
    for side in sides(setting, places):
        checks, drawn = side_checks.checks_of(setting, side, cases)
        found.checks += checks
        found.diagrams += drawn


def _own_weight(setting: Setting) -> Iterator[Force]:
    """The piece's weight with its factor, shared by the parts of its sides that bear slats."""
    bearers = dict.fromkeys(
        s.bearer
        for p in setting.assembly.parts.values()
        if is_across(p)
        for s in supports(setting, p)
    )
    whole = setting.weight[0] * setting.loads.gamma_dead
    for key in bearers:
        share = Vec(0.0, 0.0, -whole / len(bearers))
        yield Force(key, middle(setting.part(key)), share)


def _assumptions(setting: Setting, notes: tuple[str, ...]) -> tuple[str, ...]:
    boards = dict.fromkeys(setting.stuff(p).note for p in setting.assembly.parts.values())
    loads = setting.loads
    assumed = [
        f"load, {name.replace('_', ' ')} {getattr(loads, name)}: {why}"
        for name, why in loads.sources
    ]
    bolts = "Bolts that name no class: 4.6; in service class "
    return (*NOTES, *notes, bolts + f"{loads.service_class}.", *boards, *assumed)


def _worst_drawn(found: list[tuple[float, Diagram]]) -> tuple[Diagram, ...]:
    """One diagram a part and plane, that of its worst case; worst part first."""
    best: dict[tuple[str, str], tuple[float, Diagram]] = {}
    for weight, diagram in found:
        key = diagram.part, diagram.plane
        if key not in best or weight > best[key][0]:
            best[key] = (weight, diagram)
    rows = sorted(best.values(), key=lambda row: (-row[0], row[1].part, row[1].plane))
    return tuple(diagram for _, diagram in rows)
