"""Round bars in a frame in space: members between the parts that hold them, and what hooks on.

A bar is held in the holes of the parts that its joint names, and bears what lies or hooks on it:
a part whose box the bar crosses without a joint between them rests on it and is held along the
piece by its notch.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.model import Assembly, Bar, Part
from flatpack.profiles import Board
from flatpack.strength.records import EC5, Check, Second
from flatpack.strength.rules.design import Duration, design_value
from flatpack.strength.rules.sections import disc
from flatpack.strength.setting import Setting
from flatpack.strength.space_records import BarEnds, Stiffness
from flatpack.strength.stuff import LOWEST, bar_metal

EC3 = "EN 1993-1-1:2005"
STEEL = 210_000.0
"""E of steel, N/mm2 (EN 1993-1-1 3.2.6)."""
STEEL_SHEAR = 81_000.0


class Crossing(NamedTuple):
    """A bar meets a part at a place of its axis; `joint` empty: the part lies on it."""

    bar: str
    part: str
    place: Vec
    joint: str


def as_part(bar: Bar) -> Part:
    """A bar as a part along its axis, square, as thick as its diameter."""
    d, frame = bar.stock.diameter, bar.frame
    corner = frame.origin.plus(frame.x, -d / 2.0).plus(frame.y, -d / 2.0)
    turned = Frame(corner, frame.z, frame.x, frame.y)
    return Part(
        key=bar.key, name=bar.name, board=_board(bar.stock.name, d, bar.stock.density),
        outline=rectangle(bar.length, d), frame=turned, group=bar.group,
    )  # fmt: skip


@lru_cache(maxsize=64)
def _board(name: str, diameter: float, density: float) -> Board:
    return Board(
        key=name, name=name, kind="sheet", nominal=diameter, thickness=diameter, material=name,
        solid=True, density=density, source="a round bar",
    )  # fmt: skip


def stiffness(setting: Setting, bar: Bar) -> Stiffness:
    """Of a steel bar by its metal; of wood by the lowest hardwood class."""
    section = disc(bar.stock.diameter)
    lowest = setting.profiles.material(LOWEST["hardwood"]).rows[0]
    metal = bar_metal(bar.stock, setting.profiles)
    e, g = (STEEL, STEEL_SHEAR) if metal else (lowest.stiffness, lowest.shear_stiffness)
    ga = g * section.shear_area
    bent = e * section.second
    return Stiffness(e * section.area, 2.0 * g * section.second, bent, bent, ga, ga)


def crossings(assembly: Assembly) -> Iterator[Crossing]:
    """Where bars are held in holes, and where parts lie on them."""
    held: dict[str, dict[str, str]] = {key: {} for key in assembly.bars}
    for joint in assembly.joints:
        for key in joint.parts:
            if key in held:
                held[key] |= {k: joint.key for k in joint.parts if k in assembly.parts}
    for key, bar in assembly.bars.items():
        for part in assembly.parts.values():
            place = _meets(bar, part)
            if place is None or part.group not in ("frame", "back"):
                continue
            yield Crossing(key, part.key, place, held[key].get(part.key, ""))


def _meets(bar: Bar, part: Part) -> Vec | None:
    """Middle of the stretch of a bar's axis inside a part's box; a bar beside it doesn't count."""
    at, way = part.frame.local(bar.frame.origin), part.frame.local_direction(bar.frame.z)
    x0, y0, x1, y1 = part.outline.bounds
    low, high = 0.0, bar.length
    for p, w, a, b in zip(at, way, (x0, y0, 0.0), (x1, y1, part.thickness), strict=True):
        if abs(w) < 1e-6:
            if not a <= p <= b:
                return None
            continue
        one, two = sorted(((a - p) / w, (b - p) / w))
        low, high = max(low, one), min(high, two)
    if high - low < 1.0:
        return None
    return bar.frame.place(0.0, 0.0, (low + high) / 2.0)


def axes_at(bar: Bar, hooked: bool) -> tuple[Vec, Vec, Vec]:
    """Axes of a tie: upright last for what lies on the bar, else along the bar last."""
    if hooked:
        return X, Y, Z
    along = bar.frame.z
    one = along.cross(X if abs(along.x) < 0.9 else Y).unit()
    return one, along.cross(one), along


def check(setting: Setting, bar: Bar, rows: Sequence[tuple[str, BarEnds]]) -> Check:
    """Bending of a bar, both ways at once; `rows` are its stretches with their case in words."""
    moments = [
        (max(math.hypot(f, e) for f, e in zip(b.flat, b.edge, strict=True)), case)
        for case, b in rows
    ]
    moment, case = max(moments)
    how = f"M {moment / 1e3:.1f} N m"
    d, metal = bar.stock.diameter, bar_metal(bar.stock, setting.profiles)
    if metal is not None and metal.proof is not None:
        limit = d**3 / 6.0 * metal.proof / metal.gamma
        words = f"{how} / M_pl,Rd {limit / 1e3:.1f} N m"
        return Check(bar.key, "part", "bending", case, moment / limit, words, "6.2.5", EC3)
    lowest = setting.profiles.material(LOWEST["hardwood"])
    k = lowest.k_mod_wet[3] if setting.loads.service_class == 3 else lowest.k_mod_dry[3]
    limit = design_value(lowest.rows[0].bending, k, lowest.gamma)
    stress = moment / disc(d).modulus
    second = Second(f"as if of D18, sigma_m {stress:.1f} / {limit:.1f} N/mm2", stress / limit, EC5)
    why = "a turned wooden rod isn't graded: EC5 has no strength for it"
    return Check(bar.key, "part", "bending", case, None, how, "6.1.6", EC5, why, second)


def pressed(
    setting: Setting, bar: Bar, part: Part, force: float, duration: Duration
) -> Second | None:
    """Pressure of a bar in a hole or notch over its diameter, as a second method."""
    stuff = setting.stuff(part)
    row = stuff.row
    if row is None:
        return None
    area = bar.stock.diameter * part.thickness
    char = row.compression if stuff.panel else row.compression_across
    limit = stuff.design(char, setting.loads.service_class, duration)
    words = f"pressure on the bar's diameter {force / area:.2f} / {limit:.2f} N/mm2"
    return Second(words, force / area / limit, "common practice, no source")
