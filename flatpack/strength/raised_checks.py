"""Checks of a propped back at one stop: arms, pivots, rod, racks, hinges."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Vec
from flatpack.model import Bar, Fastener, posed
from flatpack.strength import joint_checks, member_checks
from flatpack.strength.joint_forces import shared
from flatpack.strength.layout import middle
from flatpack.strength.raised import Raised, keyed, link_of
from flatpack.strength.records import EC5, Check, Second
from flatpack.strength.rules.design import design_value
from flatpack.strength.rules.sections import disc
from flatpack.strength.stuff import bar_metal

EC3 = "EN 1993-1-1:2005"


def arm_checks(r: Raised) -> Iterator[Check]:
    """Arms under push, beside the brace by their lanes' distance; and their pivots."""
    setting = r.setting
    pivots = tuple(f for f in setting.assembly.fasteners if f.passes[:1] and "arm" in f.passes[0])
    alone = replace(setting.assembly, fasteners=pivots)
    lifted = replace(setting, assembly=posed(alone, r.stop.angle, r.stop.rod))
    u = r.stop.loaded.thrust
    for arm in keyed(setting, "arm-"):
        brace = arm.key.replace("arm", "brace")
        link = link_of(lifted, arm.key, brace)
        if link is None:
            continue
        aside = abs(middle(arm).y - middle(setting.part(brace)).y)
        moment = r.hold.arm * aside / 2.0
        check = member_checks.pressed(setting, arm, r.hold.arm, moment, r.motion.arm, r.loading)
        if check is not None:
            yield check
        push = Vec(-u.x * r.hold.arm, 0.0, -u.y * r.hold.arm)
        yield from joint_checks.checks_of(lifted, shared(link, r.loading, push))


def rod_checks(r: Raised) -> Iterator[Check]:
    """The rod between the arms that push it and the racks that bear it."""
    bar, arms = r.setting.assembly.bars.get("rod"), keyed(r.setting, "arm-")
    racks = keyed(r.setting, "rack") or keyed(r.setting, "bearer")
    if bar is None or not arms or not racks:
        return
    reach = min(abs(middle(a).y - middle(k).y) for a in arms for k in racks)
    moment = r.hold.arm * reach
    yield _rod(r, bar, moment, reach)
    for rack in racks:
        yield _notch(r, bar, rack.key)


def _rod(r: Raised, bar: Bar, moment: float, reach: float) -> Check:
    d, case = bar.stock.diameter, r.loading.case.words
    metal = bar_metal(bar.stock, r.setting.profiles)
    how = f"M {moment / 1e3:.1f} N m = {r.hold.arm:.0f} N x {reach:.0f} mm"
    if metal is not None and metal.proof is not None:
        limit = d**3 / 6.0 * metal.proof / metal.gamma
        formula = f"{how} / M_pl,Rd {limit / 1e3:.1f} N m"
        return Check("rod", "part", "bending", case, moment / limit, formula, "6.2.5", EC3)
    lowest = r.setting.profiles.material("d18")
    k = lowest.k_mod_wet[3] if r.setting.loads.service_class == 3 else lowest.k_mod_dry[3]
    limit = design_value(lowest.rows[0].bending, k, lowest.gamma)
    stress = moment / disc(d).modulus
    second = Second(f"as if of D18, sigma_m {stress:.1f} / {limit:.1f} N/mm2", stress / limit, EC5)
    why = "a turned wooden rod isn't graded: EC5 has no strength for it"
    return Check("rod", "part", "bending", case, None, how, "6.1.6", EC5, why, second)


def _notch(r: Raised, bar: Bar, key: str) -> Check:
    part = r.setting.part(key)
    stuff, force = r.setting.stuff(part), max((f.square for f in r.hold.faces), default=0.0)
    how = f"rod on the rack {force:.0f} N a face"
    why = "EC5 has no rule for a rod in a notch, nor for its tooth"
    second = None
    if stuff.row is not None:
        area = bar.stock.diameter * part.thickness
        char = stuff.row.compression if stuff.panel else stuff.row.compression_across
        limit = stuff.design(char, r.setting.loads.service_class, r.loading.duration)
        words = f"pressure on rod's diameter {force / area:.2f} / {limit:.2f} N/mm2"
        second = Second(words, force / area / limit, "common practice, no source")
    case = r.loading.case.words
    return Check(key, "part", "notch", case, None, how, "6.2.2", EC5, why, second)


def hinge_checks(r: Raised) -> Iterator[Check]:
    """Screws of both leaves, the one pair prying; and the packers on the hinge rail."""
    setting = r.setting
    by_joint: dict[str, list[Fastener]] = {}
    for f in setting.assembly.fasteners:
        if f.kind == "hinge screw":
            by_joint.setdefault(f.joint, []).append(f)
    axis = r.motion.axis
    for joint, screws in by_joint.items():
        for key in dict.fromkeys(s.passes[0] for s in screws):
            leaf = [s for s in screws if s.passes[0] == key]
            moving = setting.part(key).group == "back"
            force = Vec(-r.hinge.x, 0.0, -r.hinge.z) if moving else r.on_frame
            yield from _leaf(r, joint, key, leaf, force, axis)
    for packer in keyed(setting, "packer"):
        link = link_of(setting, packer.key, "hinge-rail")
        if link is not None:
            yield from joint_checks.checks_of(setting, shared(link, r.loading, r.on_frame))


def _leaf(
    r: Raised, joint: str, key: str, screws: list[Fastener], force: Vec, axis: Vec
) -> Iterator[Check]:
    """`force` is the leaf's on its part, in the line in which the screws are described."""
    into = screws[0].direction
    pull, side = max(-force.dot(into), 0.0), force.plus(into, -force.dot(into)).length
    away = [_from_axis(s, axis, into) for s in screws]
    near, far = min(away), max(away)
    pair = sum(1 for a in away if a - near < 1.0)
    pry = far / (far - near) if far - near > 1.0 else 1.0
    stuff = r.setting.stuff(r.setting.part(key))
    row, panel = stuff.row, stuff.panel
    for code, each, clause in (
        ("pulled", pull * pry / pair, "8.7.2"), ("sheared", side / len(screws), "8.7.1"),
    ):  # fmt: skip
        if each < joint_checks.NONE:
            continue
        why = f"screw of {screws[0].diameter:g} mm through a leaf: out of EC5's scope"
        words = f"F {each:.0f} N a screw in {key}"
        second = None
        if row is not None:
            gravity = joint_checks.gravity_of(row.density, panel)
            limit, method = joint_checks.screw_allowable(
                screws[0], gravity, code, r.loading.duration, steel=True
            )
            second = Second(method, each / r.loading.factor / limit, joint_checks.NDS)
        case = r.loading.case.words
        yield Check(joint, "joint", code, case, None, words, clause, EC5, why, second)


def _from_axis(screw: Fastener, axis: Vec, into: Vec) -> float:
    off = screw.start.minus(axis)
    flat = Vec(off.x, 0.0, off.z)
    rest = flat.plus(into, -flat.dot(into))
    return math.hypot(rest.x, rest.z)
