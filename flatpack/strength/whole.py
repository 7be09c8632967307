"""The whole piece as one frame in space: each part a member, each fastener a tie.

A part is a straight member along its longer side; a fastener ties two parts where it passes from
one into the other, as stiff as EC5's K_ser along and across it, and against being pried open by
the faces' half width.  Joints without fasteners are as stiff as wood let into wood (assumed).
Parts that lie on another without a fastener are held up by it.  Feet are held up by the ground and
share a push alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from typing import Literal, NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Fastener, Part
from flatpack.strength import whole_bars
from flatpack.strength.layout import Link, contact, middle, reach
from flatpack.strength.meeting import feet_of, let_in, lying_on, mouth, shared_box, space_links
from flatpack.strength.rules.dowels import slip_modulus
from flatpack.strength.rules.sections import twist_constant
from flatpack.strength.setting import Setting
from flatpack.strength.space import GROUND, Member, SpaceLoad, SpaceTie, Stiffness
from flatpack.strength.whole_bars import as_part

SAME = 5.0
"""Places along a part closer than this, mm, are one node; ties reach their own place from it."""
STIFF, STIFF_TURN = 1e4, 1e8
"""N/mm and N mm: glue and hinges (assumed; only their being stiff matters)."""
FOOT = 20.0
"""N/mm by which each foot resists being pushed along the ground (assumed; only alike matters)."""
BEDDING = 10.0
"""N/mm of each mm2 that lies on another: E_90 of 300 N/mm2 over 30 mm of wood (assumed)."""
LOOSE = 1e3
"""N mm by which a bar in a hole resists being turned about itself (assumed)."""
SOFT = 1e-3
"""Keeps free turns solvable, N mm or N/mm."""

TieKind = Literal["fastener", "let in", "glued", "lying", "hinge", "foot", "bar", "hooked"]


class Held(NamedTuple):
    """What a tie of the frame stands for."""

    kind: TieKind
    link: Link | None
    fastener: Fastener | None
    joint: str
    parts: tuple[str, ...]
    levers: tuple[float, float]


class Push(NamedTuple):
    """A force on a part at a place in the piece, N."""

    part: str
    place: Vec
    force: Vec


@frozen
class Whole:
    """The frame, its parts by the members' numbers, and what each tie stands for."""

    parts: tuple[Part, ...]
    members: tuple[Member, ...]
    ties: tuple[SpaceTie, ...]
    held: tuple[Held, ...]
    feet: tuple[Vec, ...]
    loose: tuple[str, ...]

    def loads(self, pushes: Iterable[Push]) -> list[SpaceLoad]:
        """Pushes on the nearest node of their part, with their moment about it."""
        number = {p.key: i for i, p in enumerate(self.parts)}
        found = []
        for push in pushes:
            if push.part not in number:
                continue
            i = number[push.part]
            node = nearest(self.members[i], push.place)
            arm = push.place.minus(self.members[i].at(node))
            found.append(SpaceLoad(i, node, push.force, arm.cross(push.force)))
        return found


def axis_of(part: Part) -> tuple[Vec, Vec, Vec]:
    """A part's axes as a member: along its longer side, and out of its face; right-handed."""
    along = part.frame.x if part.length >= part.width else part.frame.y
    out = part.frame.z
    return along, out.cross(along), out


def lies_across(part: Part) -> bool:
    """Whether a part's longer side runs across its grain."""
    return part.length < part.width


def sizes(part: Part) -> tuple[float, float]:
    """Length and width of a part as a member."""
    long, wide = part.length, part.width
    return max(long, wide), min(long, wide)


def nearest(member: Member, place: Vec) -> int:
    """The node nearest to a place, along the member."""
    at = place.minus(member.start).dot(member.axes[0])
    return min(range(len(member.places)), key=lambda i: abs(member.places[i] - at))


def whole(setting: Setting, places: Mapping[str, Iterable[Vec]]) -> Whole | None:
    """The frame of a piece; `places` are where each part will be loaded.

    None where nothing stands on the ground, or a part's material has no values.
    """
    # Arms hang on their pivots while what they prop is down.
    wood = tuple(p for p in setting.assembly.parts.values() if p.group in ("frame", "back"))
    if any(setting.stuff(p).row is None for p in wood):
        return None
    bars = setting.assembly.bars.values()
    parts = (*wood, *(as_part(b) for b in bars if b.group in ("frame", "back")))
    tied = tuple(t for t in _ties(setting) if {p.key for p in parts}.issuperset(t[0].parts))
    feet = [(p.key, v) for p in wood for v in feet_of(p)]
    kept, loose = _standing(parts, tied, feet)
    if not feet:
        return None
    return _made(setting, kept, loose, [t for t in tied if set(t[0].parts) <= kept.keys()], feet,
                 places)  # fmt: skip


Six = tuple[float, float, float, float, float, float]
_Tied = tuple[Held, Vec, tuple[Vec, Vec, Vec], Six]


def _standing(
    parts: Iterable[Part], tied: Iterable[_Tied], feet: Iterable[tuple[str, Vec]]
) -> tuple[dict[str, Part], tuple[str, ...]]:
    """Parts that hang together with a foot, and those that don't."""
    reached = {key for key, _ in feet}
    pairs = [set(t[0].parts) for t in tied]
    grown = True
    while grown:
        more = set().union(*(p for p in pairs if p & reached)) - reached
        reached |= more
        grown = bool(more)
    every = list(parts)
    kept = {p.key: p for p in every if p.key in reached}
    return kept, tuple(p.key for p in every if p.key not in reached)


def _made(
    setting: Setting, kept: Mapping[str, Part], loose: tuple[str, ...], tied: list[_Tied],
    feet: list[tuple[str, Vec]], places: Mapping[str, Iterable[Vec]],
) -> Whole:  # fmt: skip
    marks: dict[str, list[Vec]] = {key: list(places.get(key, ())) for key in kept}
    for held, place, _, _ in tied:
        for key in held.parts:
            marks[key].append(place)
    for key, place in feet:
        marks[key].append(place)
    members = tuple(_member(setting, p, marks[p.key]) for p in kept.values())
    number = {key: i for i, key in enumerate(kept)}
    ties = []
    for held, place, axes, stiff in tied:
        a, b = (number[k] for k in held.parts)
        nodes = (nearest(members[i], place) for i in (a, b))
        ties.append(SpaceTie(a, next(nodes), b, next(nodes), place, axes, stiff))
    ground = (FOOT, FOOT, STIFF, SOFT, SOFT, SOFT)
    stands = [
        SpaceTie(number[k], nearest(members[number[k]], v), GROUND, 0, v, (X, Y, Z), ground)
        for k, v in feet
    ]
    foot = [Held("foot", None, None, "", (k,), (1.0, 1.0)) for k, _ in feet]
    return Whole(
        parts=tuple(kept.values()), members=members, ties=(*ties, *stands),
        held=(*(t[0] for t in tied), *foot), feet=tuple(v for _, v in feet), loose=loose,
    )  # fmt: skip


def _member(setting: Setting, part: Part, marks: list[Vec]) -> Member:
    axes = axis_of(part)
    low, high = reach(part, axes[0])
    centre = middle(part)
    start = centre.plus(axes[0], low - centre.dot(axes[0]))
    length = high - low
    wanted = sorted(min(max(v.dot(axes[0]) - low, 0.0), length) for v in marks)
    kept = [0.0]
    for mark in wanted:
        if mark - kept[-1] > SAME and length - mark > SAME:
            kept.append(mark)
    return Member(start=start, axes=axes, places=(*kept, length), stiff=_stiffness(setting, part))


def _stiffness(setting: Setting, part: Part) -> Stiffness:
    bar = setting.assembly.bars.get(part.key)
    if bar is not None:
        return whole_bars.stiffness(setting, bar)
    stuff = setting.stuff(part)
    assert stuff.row is not None
    _, wide = sizes(part)
    area, t = wide * part.thickness, part.thickness
    across = lies_across(part)
    flat, edge = (stuff.stiffness(stuff.row, flat=f, across=across) for f in (True, False))
    g = stuff.row.shear_stiffness
    return Stiffness(
        ea=edge * area, gj=g * twist_constant(wide, t), ei_flat=flat * wide * t**3 / 12.0,
        ei_edge=edge * t * wide**3 / 12.0, ga_flat=g * area * 5.0 / 6.0,
        ga_edge=g * area * 5.0 / 6.0,
    )  # fmt: skip


def _ties(setting: Setting) -> Iterator[_Tied]:
    linked = set()
    for link in space_links(setting.assembly):
        linked.add(frozenset((link.first, link.second)))
        for fastener in link.fasteners:
            yield _fastened(setting, link, fastener)
    for kind, joint, a, b, place, axes in let_in(setting.assembly, linked):
        linked.add(frozenset((a, b)))
        held = Held(kind, None, None, joint, (a, b), (1.0, 1.0))
        yield held, place, axes, _joined(setting, kind, a, b)
    yield from _on_bars(setting)
    for a, b, place, wide in lying_on(setting.assembly, linked):
        held = Held("lying", None, None, "", (a, b), (wide[0] / 2.0, wide[1] / 2.0))
        k = BEDDING * wide[0] * wide[1]
        turn = (k * wide[1] ** 2 / 12.0, k * wide[0] ** 2 / 12.0, SOFT)
        yield held, place, (X, Y, Z), (SOFT, SOFT, k, *turn)


def _on_bars(setting: Setting) -> Iterator[_Tied]:
    """Bars in holes turn freely; what hooks on a bar is held up, and along the piece."""
    for at in whole_bars.crossings(setting.assembly):
        bar, part = setting.assembly.bars[at.bar], setting.part(at.part)
        d, t = bar.stock.diameter, part.thickness
        k = BEDDING * d * t
        pry = k * t * t / 12.0
        kind: TieKind = "bar" if at.joint else "hooked"
        held = Held(kind, None, None, at.joint, (at.bar, at.part), (d / 2.0, t / 2.0))
        stiff = (k, k, k, pry, pry, LOOSE) if at.joint else (k, SOFT, k, pry, SOFT, SOFT)
        yield held, at.place, whole_bars.axes_at(bar, not at.joint), stiff


def _joined(setting: Setting, kind: TieKind, a: str, b: str) -> Six:
    """Stiffness of a joint without fasteners.

    Wood let into wood beds on the faces of the box that it shares: d_j d_k each way, and turning
    about i d_i d^3/12 with the longer of the other two sides.  Glue is stiff; a hinge turns.
    """
    if kind == "hinge":
        return STIFF, STIFF, STIFF, STIFF_TURN, STIFF_TURN, SOFT
    if kind == "glued":
        return STIFF, STIFF, STIFF, STIFF_TURN, STIFF_TURN, STIFF_TURN
    _, (x, y, z) = shared_box(setting.part(a), setting.part(b))
    move = (BEDDING * y * z, BEDDING * x * z, BEDDING * x * y)
    turn = tuple(
        BEDDING * own * max(others) ** 3 / 12.0
        for own, others in ((x, (y, z)), (y, (x, z)), (z, (x, y)))
    )
    return *move, turn[0], turn[1], turn[2]


def _fastened(setting: Setting, link: Link, fastener: Fastener) -> _Tied:
    a, b = setting.part(link.first), setting.part(link.second)
    axes = [v for v in (b.frame.x, b.frame.y, b.frame.z) if abs(v.dot(link.normal)) < 0.5]
    density = 1.0
    for part in (a, b):
        row = setting.stuff(part).row
        assert row is not None
        density *= row.density
    k = slip_modulus(fastener.diameter, density**0.5)
    least = fastener.diameter
    one, two = (max(s / 2.0, least) for s in contact(a, b, link.normal))
    one, two = (one, two) if link.touching else (least, least)
    held = Held("fastener", link, fastener, "", (link.first, link.second), (two, one))
    stiff = (k, k, k, SOFT, k * two**2, k * one**2)
    return held, mouth(a, fastener), (link.normal, axes[0], axes[1]), stiff


def spans(member: Member) -> Iterator[tuple[float, float]]:
    """Stretches between neighbouring nodes."""
    return pairwise(member.places)
