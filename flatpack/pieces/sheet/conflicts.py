"""What the keys of a stool or table from sheet may not be together, each with what would do."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from flatpack.parameters import Conflict
from flatpack.pieces.family import Workings, mm
from flatpack.pieces.sheet.parameters import Sheet
from flatpack.pieces.sheet.setting_out import SettingOut, set_out
from flatpack.profiles import Profiles

WOOD = 12.0
"""Least wood beside a tenon, a slot or a mortise, mm (common practice, no source)."""
EDGE = 8.0
"""Least wood between a mortise and the top's end, mm (common practice, no source)."""


def down(value: float) -> str:
    """A greatest value for a sentence: to 0.1 mm, never rounded up, never below 0."""
    return mm(max(math.floor(value * 10.0 + 1e-6) / 10.0, 0.0))


def up(value: float) -> str:
    """A least value for a sentence: to 0.1 mm, never rounded down."""
    return mm(math.ceil(value * 10.0 - 1e-6) / 10.0)


def conflicts(p: Sheet, profiles: Profiles) -> Iterable[Conflict]:
    """Keys that can't go together, each with what would do."""
    out = set_out(p, profiles, Workings())
    yield from _boards(p, out)
    yield from _legs(p, out)
    yield from _tenons(p, out)
    if out.crossed:
        yield from _halving(p, out)
    else:
        yield from _stretchers(p, out)
        yield from _wedges(p, out)


def _boards(p: Sheet, out: SettingOut) -> Iterator[Conflict]:
    """Planed boards split along the grain where a panel is slotted, and aren't that wide."""
    used = (("boards.top" if p.boards.top else "boards.timber", out.top),
            ("boards.legs" if p.boards.legs else "boards.timber", out.legs))  # fmt: skip
    for key, board in dict(used).items():
        if board.kind != "sheet":
            yield Conflict(key, board.key, "a board of kind sheet", "solid boards split at slots")


def _legs(p: Sheet, out: SettingOut) -> Iterator[Conflict]:
    leg = out.leg
    least = 2.0 * (out.legs.thickness + 2.0 * WOOD)
    if leg.top < least:
        most = (leg.top + 2.0 * _overhang(out) - least) / 2.0
        yield Conflict("top.overhang", _overhang(out), f"at most {down(most)}",
                       "the legs become too narrow for their tenons")  # fmt: skip
    if leg.foot > leg.floor / 2.0 - WOOD:
        yield Conflict("legs.foot", leg.foot, f"at most {down(leg.floor / 2.0 - WOOD)}",
                       "the two feet meet")  # fmt: skip
    lean = (leg.floor - leg.top) / 2.0 * min(leg.arch / leg.tall, 1.0)
    if leg.foot - lean < WOOD:
        yield Conflict("legs.foot", leg.foot, f"at least {up(WOOD + max(lean, 0.0))}",
                       "the sloping edges run into the arch between the feet")  # fmt: skip
    if leg.arch > leg.tall - 6.0 * WOOD:
        yield Conflict("legs.arch", leg.arch, f"at most {down(leg.tall - 6.0 * WOOD)}",
                       "too little wood above the arch")  # fmt: skip


def _overhang(out: SettingOut) -> float:
    return out.middle - out.leg.top / 2.0


def _tenons(p: Sheet, out: SettingOut) -> Iterator[Conflict]:
    leg = out.leg
    inner = out.legs.thickness / 2.0 + WOOD if out.crossed else WOOD
    room = leg.top / 2.0 - inner - WOOD
    if leg.tenon > room:
        yield Conflict("top.tenon", leg.tenon, f"at most {down(room)}",
                       "two tenons and the wood beside them don't fit on the leg")  # fmt: skip
    if p.top.shy > out.top.thickness / 2.0:
        yield Conflict("top.shy", p.top.shy, f"at most {down(out.top.thickness / 2.0)}",
                       "half of the tenon is missing")  # fmt: skip


def _halving(p: Sheet, out: SettingOut) -> Iterator[Conflict]:
    """The slot of the upper leg opens in the level part of the arch."""
    leg = out.leg
    level = leg.floor - 2.0 * (leg.foot + leg.rounding)
    wanted = out.legs.thickness + out.fitting.push + 2.0
    if level < wanted:
        most = (leg.floor - wanted) / 2.0 - leg.rounding
        yield Conflict(
            "legs.foot",
            leg.foot,
            f"at most {down(most)}",
            "the slot needs a level stretch of the arch between the roundings",
        )


def _stretchers(p: Sheet, out: SettingOut) -> Iterator[Conflict]:
    s, leg, t = out.stretchers, out.leg, out.legs.thickness
    if s.length < 4.0 * WOOD:
        most = p.size.length / 2.0 - t - 2.0 * WOOD
        yield Conflict("top.ends", out.faces[0], f"at most {down(most)}",
                       "the sides leave no room between them")  # fmt: skip
    mortise = s.low + p.stretcher.shoulder
    if mortise < leg.arch + 2.0 * WOOD:
        most = p.stretcher.drop + mortise - leg.arch - 2.0 * WOOD
        if most >= 0.0:
            yield Conflict(
                "stretcher.drop",
                p.stretcher.drop,
                f"at most {down(most)}",
                "the stretcher comes down to the arch",
            )
        else:
            yield Conflict(
                "stretcher.width",
                s.width,
                f"at most {down(s.width + most)}",
                "the stretcher comes down to the arch",
            )
    aside = max(abs(x - out.middle) for x in s.places) + t / 2.0 + 2.0 * WOOD
    if aside > min(leg.top, leg.floor) / 2.0:
        yield Conflict("stretcher.apart", s.places[-1] - s.places[0],
                       "stretchers nearer together, or fewer, or legs with less overhang",
                       "the outer stretchers' mortises run out of the sides")  # fmt: skip
    if out.faces[0] < EDGE:
        yield Conflict("top.ends", out.faces[0], f"at least {up(EDGE)}",
                       "no wood is left outside the mortises in the top")  # fmt: skip
    between = s.places[1] - s.places[0] if len(s.places) > 1 else p.size.depth
    needed = 2.0 * (out.wedge.head + out.wedge.foot) + t if len(s.places) > 1 else 0.0
    if between < needed:
        yield Conflict("stretcher.apart", between, f"at least {up(needed)}",
                       "the wedges of neighbouring stretchers meet")  # fmt: skip


def _wedges(p: Sheet, out: SettingOut) -> Iterator[Conflict]:
    s, t = out.stretchers, out.legs.thickness
    least = t + out.fitting.slide + 2.0 * WOOD
    if s.tenon < least:
        yield Conflict("stretcher.shoulder", p.stretcher.shoulder,
                       f"at most {down((s.width - least) / 2.0)}, or a wider stretcher",
                       "the tenon is too narrow for the wedge's slot")  # fmt: skip
    if out.wedge.thin_end < 6.0:
        wider = p.wedge.width + 6.0 - out.wedge.thin_end
        yield Conflict("wedge.width", p.wedge.width, f"at least {up(wider)}",
                       "the wedge runs out to a point before it is through")  # fmt: skip
