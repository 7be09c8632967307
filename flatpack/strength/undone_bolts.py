"""Bolts that come apart, by a second method only: barrel nuts and inserts pulled along their bolt.

EC5 has no rule for either.  A barrel nut presses the end grain over its body's length and width; an
insert holds by its outer thread, as if it were a lag screw of that diameter.
"""

from __future__ import annotations

from flatpack.model import Fastener
from flatpack.profiles import BarrelNut, Insert
from flatpack.strength.loading import Loading
from flatpack.strength.records import Second
from flatpack.strength.rules import handbook
from flatpack.strength.setting import Setting


def pulled(setting: Setting, bolt: Fastener, into: str, force: float, loading: Loading,
           wet: float, gravity: float) -> Second | None:  # fmt: skip
    """Use of what holds the bolt in `into`, N a bolt; None where it isn't known."""
    holder = bolt.hardware[1].item if len(bolt.hardware) > 1 else ""
    nut = next((n for n in setting.profiles.every("barrel-nuts") if n.name == holder), None)
    if nut is not None:
        return _nut(setting, nut, into, force, loading)
    insert = next((n for n in setting.profiles.every("inserts") if n.name == holder), None)
    return None if insert is None else _insert(insert, force, loading, wet, gravity)


def _nut(
    setting: Setting, nut: BarrelNut, into: str, force: float, loading: Loading
) -> Second | None:
    stuff = setting.stuff(setting.part(into))
    if stuff.row is None:
        return None
    length = min(nut.body_length, setting.part(into).thickness)
    area = nut.body_diameter * length
    limit = stuff.design(stuff.row.compression, setting.loads.service_class, loading.duration)
    words = f"nut's pressure on the end grain {force / area:.2f} / {limit:.2f} N/mm2"
    return Second(words, force / area / limit, "common practice, no source")


def _insert(insert: Insert, force: float, loading: Loading, wet: float, gravity: float) -> Second:
    per = handbook.lag_allowable(gravity, insert.outer)
    limit = wet * handbook.LOAD_DURATION[loading.duration] * per * insert.length
    words = f"as if a lag screw of {insert.outer:g} mm: allowed {limit:.0f} N"
    source = "National Design Specification for Wood Construction, eq. 11.2-1"
    return Second(words, force / loading.factor / limit, source)
