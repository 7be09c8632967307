"""Setting out a planter box: the boarded box, and the cap on top of it."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.pieces.common.boarded.carcass import Carcass, Timber, set_carcass
from flatpack.pieces.common.boarded.wish import wish_of
from flatpack.pieces.family import Workings, mm, sold_width
from flatpack.pieces.planter.parameters import Planter
from flatpack.pieces.planter.stock import Stock
from flatpack.profiles import Board


@frozen
class SettingOut:
    """The box, and the cap's board and width."""

    box: Carcass
    cap: Board
    cap_width: float


def set_out(p: Planter, stock: Stock, notes: Workings) -> SettingOut:
    """Derived dimensions of a planter box."""
    cap = stock.cap.thickness if p.cap.use else 0.0
    high = notes.add(
        "Side boards' top above ground",
        p.size.height - cap,
        f"{mm(p.size.height)} height" + (f" - {mm(cap)} cap" if cap else ""),
    )
    timber = Timber(
        sides=stock.sides,
        posts=stock.posts,
        bottom=stock.bottom,
        screw=stock.screw,
        tip_cover=p.fixings.tip_cover,
    )
    return SettingOut(
        box=set_carcass(wish_of(p, p.size.length, p.size.depth, high), timber, notes),
        cap=stock.cap,
        cap_width=sold_width(stock.cap, p.cap.width),
    )
