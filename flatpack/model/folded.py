"""A folding piece somewhere on its way: legs closed in part or wholly, the seat off or stowed."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from flatpack.frozen import replace
from flatpack.geometry import Frame, Z
from flatpack.model.assembly import Assembly, Fastener
from flatpack.model.sawn import placed_corners

Mover = Callable[[Frame], Frame]


def folded(assembly: Assembly, angle: float) -> Assembly:
    """The piece with its legs `angle` degrees apart; folded flat (0) with the seat stowed.

    On the way the seat is off: it, its fasteners and the mates with it are left out.

    Raises:
        ValueError: the piece doesn't fold.
    """
    f = assembly.folding
    if f is None:
        raise ValueError("this piece doesn't fold")
    turn = f.angle - angle
    flat = angle <= 0.0
    movers: dict[str, Mover] = dict.fromkeys(f.turning, lambda one: one.swung(f.pivot, turn))
    if flat:
        movers.update(dict.fromkeys(f.loose, _carried(f.seat_open, f.seat_stowed)))
    gone = frozenset() if flat else frozenset(f.loose)
    return replace(
        assembly,
        parts={
            k: replace(p, frame=movers[k](p.frame)) if k in movers else p
            for k, p in assembly.parts.items()
            if k not in gone
        },
        bars={
            k: replace(b, frame=movers[k](b.frame)) if k in movers else b
            for k, b in assembly.bars.items()
        },
        fasteners=tuple(
            _moved(one, movers) for one in assembly.fasteners if not gone.intersection(one.passes)
        ),
        mates=tuple(pair for pair in assembly.mates if not gone.intersection(pair)),
    )


def lying(assembly: Assembly) -> Assembly:
    """The piece folded flat and laid on the ground, the seat uppermost.

    Raises:
        ValueError: the piece doesn't fold.
    """
    flat = folded(assembly, 0.0)
    f = assembly.folding
    assert f is not None
    about, turn = f.pivot, 90.0 - f.angle / 2.0
    swung = (replace(p, frame=p.frame.swung(about, turn)) for p in flat.parts.values())
    low = min(place.z for part in swung for place in placed_corners(part))

    def move(frame: Frame) -> Frame:
        laid = frame.swung(about, turn)
        return replace(laid, origin=laid.origin.plus(Z, -low))

    every = dict.fromkeys((*flat.parts, *flat.bars), move)
    return replace(
        flat,
        parts={k: replace(p, frame=move(p.frame)) for k, p in flat.parts.items()},
        bars={k: replace(b, frame=move(b.frame)) for k, b in flat.bars.items()},
        fasteners=tuple(_moved(one, every) for one in flat.fasteners),
    )


def _carried(start: Frame, end: Frame) -> Mover:
    """The motion that brings one frame to another, for any frame fixed to it."""

    def move(frame: Frame) -> Frame:
        own = Frame(
            start.local(frame.origin),
            *(start.local_direction(v) for v in (frame.x, frame.y, frame.z)),
        )
        return own.within(end)

    return move


def _moved(fastener: Fastener, movers: Mapping[str, Mover]) -> Fastener:
    """Moved with the first of its parts where all of them move; a pivot's bolt stays."""
    if not fastener.passes or any(key not in movers for key in fastener.passes):
        return fastener
    move = movers[fastener.passes[0]]
    start = move(Frame(fastener.start)).origin
    tip = move(Frame(fastener.start.plus(fastener.direction))).origin
    return replace(
        fastener,
        start=start,
        direction=tip.minus(start),
        solids=tuple(replace(s, frame=move(s.frame)) for s in fastener.solids),
    )
