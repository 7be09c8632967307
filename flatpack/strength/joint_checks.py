"""Joints: bolts after EC5; screws that EC5 leaves out beside a second method; bearing."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.geometry import Vec
from flatpack.model import Fastener, Part
from flatpack.strength import bolt_pull, thin_screws, undone_bolts
from flatpack.strength.distances import told
from flatpack.strength.fitness import apart, reasons, shortfalls
from flatpack.strength.joint_forces import Held
from flatpack.strength.layout import Link, contact
from flatpack.strength.records import EC5, Check, Second
from flatpack.strength.rules import dowels, handbook
from flatpack.strength.rules.design import GAMMA_JOINT, Duration, design_value
from flatpack.strength.rules.johansen import Modes, single_shear
from flatpack.strength.rules.members import strength_at_angle
from flatpack.strength.setting import Setting
from flatpack.strength.stuff import metal_of

NONE = 1.0
"""Forces below this, N, count as none."""
NDS = "National Design Specification for Wood Construction, allowable stress design"
UNDONE = ("barrel nut bolt", "insert bolt")
"""Kinds of bolts that come apart, which EC5 leaves out."""
WET = 0.7
"""Share left to screws in wet use (NDS table 10.3.3, from memory)."""
ROOT = 2.0 / 3.0
"""Root over outer diameter of most wood screws (Wood Handbook, fastenings)."""
MOIST = 0.12
"""Moisture at which EN 338 gives densities; the NDS's specific gravity is oven-dry."""
PANEL_GRAVITY = 0.50
"""Greatest specific gravity that the NDS takes for plywood (table 11.3.2B, from memory)."""


def checks_of(setting: Setting, held: Held) -> Iterator[Check]:
    """All checks of a link under one case, one row for each of its joints."""
    found = [*_bearing(setting, held), *_sideways(setting, held), *_pull(setting, held)]
    for check in found:
        for joint in held.link.joints:
            yield check._replace(subject=joint)


def _check(
    held: Held, code: str, use: float | None, formula: str, clause: str, why: str = "",
    second: Second | None = None,
) -> Check:  # fmt: skip
    words = held.loading.case.words
    return Check("", "joint", code, words, use, formula, clause, EC5, why, second)


def _bearing(setting: Setting, held: Held) -> Iterator[Check]:
    link, force = held.link, held.pressed
    if force < NONE or not link.touching:
        return
    a, b = setting.part(link.first), setting.part(link.second)
    area = _meeting(setting, link)
    if area <= 0.0:
        return
    stress = force / area
    for part in (a, b):
        yield _bears(setting, held, part, stress)


def _meeting(setting: Setting, link: Link) -> float:
    """Area in which a link's parts meet, mm2."""
    key = "meeting", link.first, link.second
    known = setting.memo.get(key)
    if known is None:
        long, wide = contact(setting.part(link.first), setting.part(link.second), link.normal)
        known = setting.memo[key] = long * wide
    assert isinstance(known, float)
    return known


def _bears(setting: Setting, held: Held, part: Part, stress: float) -> Check:
    stuff, normal = setting.stuff(part), held.link.normal
    clause, words = "6.1.5 eq. 6.3, 6.2.2 eq. 6.16", f"sigma_c {stress:.2f}"
    if stuff.row is None:
        return _check(held, "pressed", None, words, clause, stuff.note)
    if stuff.panel and abs(normal.dot(part.frame.z)) > 0.5:
        lowest = setting.profiles.material("c14").rows[0].compression_across
        limit = stuff.design(lowest, setting.loads.service_class, held.loading.duration)
        why = f"no strength of {part.board.name} against pressure on its face"
        second = Second("as if of the lowest solid wood, C14", stress / limit, "EN 338:2016")
        return _check(held, "pressed", None, words, clause, why, second)
    angle = math.degrees(math.acos(min(abs(normal.dot(part.frame.x)), 1.0)))
    char = strength_at_angle(stuff.row.compression, stuff.row.compression_across, angle)
    limit = stuff.design(char, setting.loads.service_class, held.loading.duration)
    formula = f"{words} / f_c,{angle:.0f},d {limit:.2f} N/mm2 in {part.title.lower()}, k_c,90 1"
    return _check(held, "pressed", stress / limit, formula, clause)


def _sideways(setting: Setting, held: Held) -> Iterator[Check]:
    force, way = held.sheared
    if force < NONE:
        return
    fastener = held.each[0][0]
    if "screw" in fastener.kind:
        yield from _screwed(setting, held, force, way)
        return
    if fastener.kind != "coach bolt":
        yield _thin(setting, held, "sheared", force, reasons(setting, held.link))
        return
    lacking = shortfalls(setting, held.link, way)
    why = reasons(setting, held.link) + ([told(lacking, "table 8.4")] if lacking else [])
    modes, factor = bolt_modes(setting, held.link, fastener, way)
    if modes is None:
        notes = [setting.stuff(setting.part(k)).note for k in (held.link.first, held.link.second)]
        yield _check(held, "sheared", None, "", "8.2.2 eq. 8.6", "; ".join(notes))
        return
    limit = design_value(factor * modes.least, _k_mod(setting, held), GAMMA_JOINT)
    formula = (
        f"F_v {force:.0f} / F_v,Rd {limit:.0f} N, mode {modes.mode}, F_v,Rk {modes.least:.0f} N, "
        f"n_ef/n {factor:.2f}, k_mod {_k_mod(setting, held):g}, gamma_M {GAMMA_JOINT:g}"
    )
    if why:
        second = Second(f"EC5's formula all the same: {formula}", force / limit, EC5)
        yield _check(held, "sheared", None, "", "8.5.1", "; ".join(dict.fromkeys(why)), second)
    else:
        yield _check(held, "sheared", force / limit, formula, "8.2.2 eq. 8.6, 8.5.1.1")
    yield from _splitting(setting, held)


def _k_mod(setting: Setting, held: Held) -> float:
    """k_mod of a joint: of two materials the root of their product (EC5 2.3.2.1(2), eq. 2.6)."""
    cls, duration = setting.loads.service_class, held.loading.duration
    parts = (setting.part(held.link.first), setting.part(held.link.second))
    one, two = (setting.stuff(p).factor(cls, duration) for p in parts)
    return math.sqrt(one * two)


def bolt_modes(
    setting: Setting, link: Link, bolt: Fastener, way: Vec
) -> tuple[Modes | None, float]:
    """Johansen's modes of one bolt in single shear, and n_ef/n of its row along the grain."""
    fh, factor = [], 1.0
    for key in (link.first, link.second):
        part = setting.part(key)
        stuff = setting.stuff(part)
        if stuff.row is None:
            return None, 1.0
        angle = part_angle(part, way)
        if stuff.panel:
            fh.append(dowels.embedment_plywood_bolt(bolt.diameter, stuff.row.density_low))
            continue
        along = dowels.embedment_drilled(bolt.diameter, stuff.row.density_low)
        k90 = dowels.k_90(bolt.diameter, stuff.material.kind)
        fh.append(dowels.embedment_at(along, k90, angle))
        factor = min(factor, _row(part, link, bolt.diameter, angle))
    moment = dowels.yield_moment(bolt.diameter, metal_of(bolt.item, setting.profiles).tensile or 0)
    t1, t2 = setting.part(link.first).thickness, setting.part(link.second).thickness
    return single_shear(fh[0], t1, fh[1], t2, bolt.diameter, moment), factor


def part_angle(part: Part, way: Vec) -> float:
    """Degrees between a force and a part's grain, 0 to 90."""
    size = way.length
    return math.degrees(math.acos(min(abs(way.dot(part.frame.x)) / size, 1.0))) if size else 0.0


def _row(part: Part, link: Link, diameter: float, angle: float) -> float:
    """n_ef/n along the grain, by lines up to 1 square to it (EC5 8.5.1.1(4), (5))."""
    n, spacing = len(link.fasteners), apart(part, link)
    if n < 2 or spacing is None:
        return 1.0
    along = dowels.n_ef_bolts(n, spacing, diameter) / n
    return along + (1.0 - along) * angle / 90.0


def _splitting(setting: Setting, held: Held) -> Iterator[Check]:
    for key in (held.link.first, held.link.second):
        part = setting.part(key)
        stuff = setting.stuff(part)
        across = held.whole.dot(part.frame.y)
        if stuff.material.kind != "softwood" or abs(across) < NONE:
            continue
        low, high = part.outline.bounds[1], part.outline.bounds[3]
        ys = [part.frame.local(f.start).y for f in held.link.fasteners]
        towards = across if key == held.link.second else -across
        loaded = high - min(ys) if towards > 0.0 else max(ys) - low
        limit = design_value(
            # A bolt beside the part is a fault that another check tells.
            dowels.splitting(part.thickness, part.width, min(max(loaded, 1.0), 0.95 * part.width)),
            stuff.factor(setting.loads.service_class, held.loading.duration),
            GAMMA_JOINT,
        )
        formula = f"F_90 {abs(across):.0f} / F_90,Rd {limit:.0f} N in {part.title.lower()}"
        formula += f", h_e {loaded:.0f} of {part.width:.0f} mm"
        yield _check(held, "splitting", abs(across) / limit, formula, "8.1.4 eq. 8.4")


def _screwed(setting: Setting, held: Held, force: float, way: Vec) -> Iterator[Check]:
    """Screws sideways: by EC5 where it covers them, else by the American allowable load."""
    link, screw = held.link, held.each[0][0]
    why = thin_screws.reasons(setting, link)
    found = None if why else thin_screws.modes(setting, link, screw, way)
    if found is None:
        yield _thin(setting, held, "sheared", force, why)
        return
    lacking = thin_screws.shortfalls(setting, link, way)
    k = _k_mod(setting, held)
    limit = design_value(found.row * found.modes.least, k, GAMMA_JOINT)
    formula = (
        f"F_v {force:.0f} / F_v,Rd {limit:.0f} N, mode {found.modes.mode}, d_ef "
        f"{found.diameter:.1f} mm, n_ef/n {found.row:.2f}, k_mod {k:g}, gamma_M {GAMMA_JOINT:g}"
    )
    if lacking:
        second = Second(f"EC5's formula all the same: {formula}", force / limit, EC5)
        yield _check(held, "sheared", None, "", "8.3.1", told(lacking, "table 8.2"), second)
    else:
        yield _check(held, "sheared", force / limit, formula, "8.2.2 eq. 8.6, 8.7.1, 8.3.1")


def _pull(setting: Setting, held: Held) -> Iterator[Check]:
    if held.pulled < NONE:
        return
    bolt = held.each[0][0]
    if bolt.kind == "coach bolt":
        found = bolt_pull.capacity(setting, held.link, bolt, held.loading)
        words = f"F_ax {held.pulled:.0f} N / {found.words}"
        use = held.pulled / found.limit if found.limit > 0.0 else None
        if not found.missing:
            yield _check(held, "pulled", use, words, "8.5.2")
        else:
            second = None if use is None else Second(f"as if of C14: {words}", use, EC5)
            yield _check(held, "pulled", None, "", "8.5.2", found.missing, second)
        return
    yield _thin(setting, held, "pulled", held.pulled, reasons(setting, held.link))


def _thin(setting: Setting, held: Held, code: str, force: float, given: list[str]) -> Check:
    """A screw or insert that EC5 doesn't cover: its reasons, and the American allowable load."""
    fastener = held.each[0][0]
    why = "; ".join(given)
    words = f"F {force:.0f} N a fastener"
    clause = "8.7.2" if code == "pulled" else "8.7.1"
    row = setting.stuff(setting.part(held.link.second)).row
    panel = setting.stuff(setting.part(held.link.second)).panel
    if row is not None and code == "pulled" and fastener.kind in UNDONE:
        gravity = gravity_of(row.density, panel)
        second = undone_bolts.pulled(
            setting, fastener, held.link.second, force, held.loading, WET, gravity
        )
        return _check(held, code, None, words, clause, why, second)
    if row is None or fastener.bite is None or "screw" not in fastener.kind:
        return _check(held, code, None, words, clause, why)
    limit, method = screw_allowable(fastener, gravity_of(row.density, panel), code,
                                    held.loading.duration)  # fmt: skip
    use = force / held.loading.factor / limit
    return _check(held, code, None, words, clause, why, Second(method, use, NDS))


def gravity_of(density: float, panel: bool) -> float:
    """Oven-dry specific gravity of a mean density at 12 % moisture, as the NDS counts it."""
    dry = density / (1000.0 * (1.0 + MOIST))
    return min(dry, PANEL_GRAVITY) if panel else dry


def screw_allowable(
    fastener: Fastener, gravity: float, code: str, duration: Duration, *, steel: bool = False
) -> tuple[float, str]:
    """Allowable pull or shear of a screw, N, outdoors, and how it came about.

    `steel`: it goes through a leaf of steel, not through wood.
    """
    assert fastener.bite is not None
    factor, words = WET * handbook.LOAD_DURATION[duration], "for wet use and the load's duration"
    if code == "pulled":
        per = handbook.screw_allowable(gravity, fastener.diameter)
        limit = factor * per * fastener.bite
        how = f"{factor:.2f} {words} x {per:.1f} N/mm x {fastener.bite:.1f} mm"
        return limit, f"allowed {limit:.0f} N: {how}"
    fe = handbook.bearing_strength(gravity)
    side = max(fastener.length - fastener.bite, 1.0)
    bending = 90_000.0 * handbook.POUND / handbook.INCH**2
    z, modes = handbook.allowable_lateral(
        handbook.STEEL_BEARING if steel else fe, side, fe, fastener.bite,
        ROOT * fastener.diameter, bending, outer=fastener.diameter,
    )  # fmt: skip
    short = min(fastener.bite / (10.0 * fastener.diameter), 1.0)
    limit = factor * short * z
    how = f"{factor:.2f} {words} x {short:.2f} for its bite x {z:.0f} N, mode {modes.mode}"
    return limit, f"allowed {limit:.0f} N: {how}"
