"""What a cutting plan is made from: parts wanted, stock to cut them from, the saw.

All lengths are mm, prices are in the stock list's own currency.  These records know no file and
no other part of the program.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Grain = Literal["free", "along", "across"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A rectangular part wanted `count` times.

    `grain` says how the part's length lies to the grain of the stock: along it, across it, or
    either way.  A part cut from a board sold by length needs no width.
    """

    mark: str
    length: float
    width: float = 0.0
    count: int = 1
    grain: Grain = "along"


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLength:
    """A board sold by length, of one section.

    `available` None = as many as wanted; `price` None = not known.  Each defect is (start, end)
    measured from the end that the first cut is taken from.  `offcut` marks one left from before.
    """

    name: str
    length: float
    price: float | None = None
    available: int | None = None
    defects: tuple[tuple[float, float], ...] = ()
    offcut: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSheet:
    """A rectangular sheet; its grain runs along its length unless it has none."""

    name: str
    length: float
    width: float
    price: float | None = None
    available: int | None = None
    offcut: bool = False
    grain: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossSaw:
    """Saw that cuts boards to length: width of its cut, and what is cut off each end first.

    `trim` includes the cut itself.  A rest of `keep` or longer goes back to the rack.
    """

    kerf: float
    trim: float = 0.0
    keep: float = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelSaw:
    """Saw that cuts sheets straight through.

    `trim` is taken off all four edges first and includes the cut.  `stages` counts how often the
    direction of the cuts may change, the first direction included (2 or 3); with `recut`, a last
    trimming cut on a single part is allowed beyond that, as trades that count "stages without
    trimming" do.  A strip narrower than `narrowest` can't be held.  A rest of at least
    `keep_length` x `keep_width` goes back to the rack.
    """

    kerf: float
    trim: float = 0.0
    stages: int = 3
    recut: bool = False
    narrowest: float = 0.0
    keep_length: float = 300.0
    keep_width: float = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something that a plan can't do, or had to assume; the rest of the plan is still made.

    `code` is fixed for each kind of trouble; `mark` names the part and `stock` the stock that
    it concerns, either may be empty; `measured` and `limit` are mm (or a count) where they apply.
    """

    code: str
    text: str
    mark: str = ""
    stock: str = ""
    measured: float | None = None
    limit: float | None = None
    blocks: bool = True
