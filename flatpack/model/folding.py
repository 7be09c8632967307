"""A piece that folds about one pivot: what turns with it, and where the loose seat is stowed."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.geometry import Frame, Vec


@frozen
class Folding:
    """Data of a folding piece; lengths mm, angles degrees.

    `pivot` is a point of the axis, which runs across the piece.  `turning` are the keys of the
    parts and bars that turn about it by `angle` until they lie in line with the rest; `loose`
    those that are lifted off first and then laid from `seat_open` to `seat_stowed`.  The legs'
    measures are those of `mechanism.scissor`: `low`, `long`, `short`, `half`, `end`, `bar`,
    `rail`, `slot`; `front` and `rear` are the seat's edges from the pivot.  `keys` names the
    parameter behind a number, for remedies.
    """

    pivot: Vec
    angle: float
    turning: tuple[str, ...]
    loose: tuple[str, ...]
    seat_open: Frame
    seat_stowed: Frame
    low: float
    long: float
    short: float
    apart: float
    half: float
    end: float
    bar: float
    rail: float
    slot: tuple[float, float]
    front: float
    rear: float
    keys: tuple[tuple[str, str], ...] = ()
