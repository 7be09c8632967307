"""The axle and wheels at one end: bent by the wheels outside the legs, and the wheels' rating."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.strength.layout import middle
from flatpack.strength.records import Check
from flatpack.strength.setting import GRAVITY, Setting
from flatpack.strength.stuff import bar_metal

EC3 = "EN 1993-1-1:2005"


def axle(setting: Setting) -> Iterator[Check]:
    """One person on the wheels' end and a quarter of the weight on each wheel (statics)."""
    bar = setting.assembly.bars.get("axle")
    wheels = [f for f in setting.assembly.fasteners if f.kind == "wheel"]
    legs = [p for j in setting.assembly.joints if "axle" in j.parts for p in j.parts]
    held = [setting.part(k) for k in dict.fromkeys(legs) if k in setting.assembly.parts]
    if bar is None or len(wheels) < 2 or not held:
        return
    loads = setting.loads
    case = "one person sits on the wheels' end"
    live, dead = loads.end_share * setting.person / 2.0, setting.weight[0] / 4.0
    force = loads.gamma_live * live + loads.gamma_dead * dead
    reach = max(
        min(abs(w.start.plus(w.direction, w.length / 2.0).y - middle(p).y) for p in held)
        for w in wheels
    )
    metal = bar_metal(bar.stock, setting.profiles)
    how = f"M {force * reach / 1e3:.1f} N m = {force:.0f} N x {reach:.0f} mm"
    if metal is None or metal.proof is None:
        why = "a wooden axle isn't graded"
        yield Check("axle", "part", "bending", case, None, how, "6.2.5", EC3, why)
    else:
        limit = bar.stock.diameter**3 / 6.0 * metal.proof / metal.gamma
        formula = f"{how} / M_pl,Rd {limit / 1e3:.1f} N m"
        yield Check("axle", "part", "bending", case, force * reach / limit, formula, "6.2.5", EC3)
    yield from _rated(setting, case, live + dead)


def _rated(setting: Setting, case: str, force: float) -> Iterator[Check]:
    for joint in setting.assembly.joints:
        wheel = getattr(joint, "wheel", None)
        if wheel is not None:
            formula = f"{force / GRAVITY:.0f} of {wheel.load:g} kg on a wheel"
            use = force / GRAVITY / wheel.load
            yield Check(joint.key, "joint", "wheel", case, use, formula, "", "wheel's profile")
