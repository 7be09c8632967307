"""Strengths of a part as a member of a frame in space, and where it is held."""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise

from flatpack.frozen import frozen
from flatpack.model import Part
from flatpack.strength import tilting
from flatpack.strength.net import Net, Sections
from flatpack.strength.rules import members as m
from flatpack.strength.rules.design import Duration
from flatpack.strength.setting import Setting
from flatpack.strength.space import GROUND
from flatpack.strength.stuff import Strengths
from flatpack.strength.whole import Whole, lies_across, sizes


@frozen(kw_only=False)
class Limits:
    """Strengths of a part as a member: flat and on edge; None across solid wood's grain."""

    setting: Setting
    part: Part
    flat: Strengths
    edge: Strengths
    whole: Whole
    number: int

    @cached_property
    def designs(self) -> dict[Duration, tuple[float, float, float, float]]:
        """Design values f_m flat, f_m edge, f_t, f_c by duration, as they are asked for."""
        return {}

    def design(self, duration: Duration) -> tuple[float, float, float, float]:
        """Design values f_m flat, f_m edge, f_t and f_c, N/mm2."""
        found = self.designs.get(duration)
        if found is None:
            stuff, cls = self.setting.stuff(self.part), self.setting.loads.service_class
            row, across = stuff.row, lies_across(self.part)
            assert row is not None
            pull, push = (
                (row.tension_across, row.compression_across) if across
                else (row.tension, row.compression)
            )  # fmt: skip
            values = (self.flat.bending, self.edge.bending, pull, push)
            a, b, c, d = (stuff.design(v, cls, duration) for v in values)
            found = self.designs[duration] = a, b * self.tilt, c, d
        return found

    @cached_property
    def tilt(self) -> float:
        """k_crit on edge, by the longest stretch that nothing holds, a free end too."""
        holds = held_places(self.whole, self.number)
        strength = self.edge.bending
        own = tilting.factor(self.setting, self.part, sizes(self.part), strength, holds)
        return max(own, tilting.of_fastened(self.setting, self.part, strength))

    @cached_property
    def buckling(self) -> tuple[float, float]:
        """k_c through the thickness and across the width, by the longest stretch that is free."""
        row = self.setting.stuff(self.part).row
        assert row is not None
        places = held_places(self.whole, self.number)
        length = max((b - a for a, b in pairwise(places)), default=0.0)
        length = length or sizes(self.part)[0]
        _, wide = sizes(self.part)
        one, two = (
            m.k_c(m.relative_slenderness(m.slenderness(length, d / 12.0**0.5), row.compression,
                                         row.stiffness_low))
            for d in (self.part.thickness, wide)
        )  # fmt: skip
        return one, two

    @cached_property
    def nets(self) -> tuple[Net, ...]:
        """What its outline and holes leave of it, bar by bar."""
        sections = Sections(self.part)
        places = self.whole.members[self.number].places
        return tuple(sections.least(a, b) for a, b in pairwise(places))


def held_places(whole: Whole, number: int) -> list[float]:
    """Places along a member where something holds it, rising."""
    member = whole.members[number]
    nodes = {t.first_node for t in whole.ties if t.first == number}
    nodes |= {t.second_node for t in whole.ties if t.second == number and t.second != GROUND}
    return sorted(member.places[n] for n in nodes)


def limits_of(setting: Setting, whole: Whole, number: int) -> Limits | None:
    """Strengths of a member; None where solid wood would be bent across its grain."""
    part = whole.parts[number]
    stuff = setting.stuff(part)
    assert stuff.row is not None
    _, wide = sizes(part)
    if not lies_across(part):
        flat, edge = (stuff.bent(stuff.row, d, f) for d, f in ((part.thickness, True),
                                                               (wide, False)))  # fmt: skip
        return Limits(setting, part, flat, edge, whole, number)
    one, two = (stuff.bent_across(stuff.row, f) for f in (True, False))
    return None if one is None or two is None else Limits(setting, part, one, two, whole, number)
