"""Bending, shear, buckling and deflection of one part, as checks with their numbers."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from flatpack.model import Part
from flatpack.strength import tilting
from flatpack.strength.beams import BentBeam
from flatpack.strength.crossing import Bent, Plane
from flatpack.strength.loading import Loading
from flatpack.strength.records import EC5, Check, Diagram
from flatpack.strength.rules import members as m
from flatpack.strength.rules.sections import Section
from flatpack.strength.setting import Setting
from flatpack.strength.stuff import Strengths


def unknown(setting: Setting, part: Part) -> Check:
    """The check of a part whose material has no values."""
    note = setting.stuff(part).note
    return Check(part.key, "part", "strength", "every case", None, "", "3", EC5, note)


def checks_of(setting: Setting, bent: Bent, loading: Loading) -> Iterator[Check]:
    """Bending, shear and deflection of a part across."""
    stuff = setting.stuff(bent.part)
    assert stuff.row is not None
    two = []
    for plane, section, beam in bent.planes:
        values = stuff.bent(stuff.row, section.depth, plane == "flat")
        strength = values.bending
        if plane == "edge":
            strength *= tilting.of_fastened(setting, bent.part, strength)
        two.append((m.bending_stress(beam.most_moment, section.modulus), strength))
        yield shear(setting, bent.part, section, values, beam.most_shear, plane, loading)
        if loading.duration != "instantaneous":
            stands = [s.place for s, _ in bent.borne]
            yield deflection(setting, bent.part, beam, stands, loading)
    if two:
        yield bending(setting, bent.part, two, loading)


def bending(
    setting: Setting, part: Part, two: list[tuple[float, float]], loading: Loading
) -> Check:
    """Bending one or two ways: (stress, characteristic strength) each, N/mm2."""
    stuff, cls = setting.stuff(part), setting.loads.service_class
    design = [(s, stuff.design(f, cls, loading.duration)) for s, f in two]
    k = stuff.factor(cls, loading.duration)
    if len(design) == 1:
        (s, f), (_, char) = design[0], two[0]
        formula = (
            f"sigma_m {s:.2f} / f_m,d {f:.2f} N/mm2, f_m,d = {k:g} x {char:.1f} / "
            f"{stuff.material.gamma:g}"
        )
        return _check(part, "bending", loading, s / f, formula, "6.1.6 eq. 6.11")
    (sy, fy), (sz, fz) = design[:2]
    use = m.bending_use(sy, fy, sz, fz)
    formula = f"{sy:.2f} / {fy:.2f} with {sz:.2f} / {fz:.2f} N/mm2, k_m {m.K_M:g}"
    return _check(part, "bending", loading, use, formula, "6.1.6 eq. 6.11, 6.12")


def shear(
    setting: Setting, part: Part, section: Section, values: Strengths, force: float, plane: Plane,
    loading: Loading,
) -> Check:  # fmt: skip
    """Shear of a rectangle; not done where the strength isn't known."""
    code = f"shear, {plane}"
    stress = m.shear_stress(force, section.area, section.form, values.k_cr)
    if values.shear is None:
        why = f"no {'rolling ' if plane == 'flat' else ''}shear strength for {part.board.name}"
        formula = f"tau {stress:.2f} N/mm2"
        return _check(part, code, loading, None, formula, "6.1.7 eq. 6.13", why)
    stuff = setting.stuff(part)
    strength = stuff.design(values.shear, setting.loads.service_class, loading.duration)
    formula = f"tau {stress:.2f} / f_v,d {strength:.2f} N/mm2, V {abs(force):.0f} N"
    return _check(part, code, loading, stress / strength, formula, "6.1.7 eq. 6.13")


def deflection(
    setting: Setting, part: Part, beam: BentBeam, stands: list[float], loading: Loading
) -> Check:
    """Final deflection under the load without factors against the longest span over the limit."""
    gaps = [b - a for a, b in pairwise(stands)]
    span = max(gaps, default=part.length)
    over = max(stands[0], part.length - stands[-1], 0.0)
    allowed = max(span, 2.0 * over) / setting.loads.deflection
    sag = setting.crept(part, beam.most_deflection, loading.factor, loading.lasting)
    formula = f"w_fin {sag:.2f} / {allowed:.2f} mm, span {span:.0f} / {setting.loads.deflection:g}"
    return _check(part, "deflection", loading, sag / allowed, formula, "7.2 table 7.2, 2.2.3")


def pressed(
    setting: Setting, part: Part, force: float, moment: float, length: float, loading: Loading
) -> Check | None:
    """A part under push along its grain, buckling through its thickness, bent flat besides."""
    stuff = setting.stuff(part)
    if stuff.row is None or force <= 0.0:
        return None
    row, cls = stuff.row, setting.loads.service_class
    area = part.width * part.thickness
    relative = m.relative_slenderness(
        m.slenderness(length, part.thickness / 12.0**0.5), row.compression, row.stiffness_low
    )
    kc = m.k_c(relative)
    fc = stuff.design(row.compression, cls, loading.duration)
    values = stuff.bent(row, part.thickness, True)
    fm = stuff.design(values.bending, cls, loading.duration)
    stress = force / area
    bend = m.bending_stress(moment, part.width * part.thickness**2 / 6.0)
    use = m.compression_use(stress, fc, (0.0, fm, bend, fm), (1.0, kc))
    formula = (
        f"sigma_c {stress:.2f} / (k_c {kc:.2f} x {fc:.2f}) + sigma_m {bend:.2f} / {fm:.2f} N/mm2, "
        f"lambda_rel {relative:.2f}"
    )
    return _check(part, "buckling", loading, use, formula, "6.3.2 eq. 6.24")


def diagram(bent: Bent, loading: Loading) -> list[Diagram]:
    """Moment and deflection along a part across."""
    return [
        Diagram(bent.part.key, loading.case.words, plane, b.places, b.moment,
                tuple(w / loading.factor for w in b.deflection))
        for plane, _, b in bent.planes
    ]  # fmt: skip


def _check(
    part: Part, code: str, loading: Loading, use: float | None, formula: str, clause: str,
    why: str = "",
) -> Check:  # fmt: skip
    return Check(part.key, "part", code, loading.case.words, use, formula, clause, EC5, why)
