"""A stock list: what can be bought and at what price, what lies in the rack, who saws it and how.

Prices are in one currency of the maker's choice.  A row that gives no price leaves the cost open;
it doesn't keep a plan from being made.
"""

from __future__ import annotations

from flatpack.parameters import (
    UNSET,
    choice,
    count,
    flag,
    item,
    notes,
    number,
    pairs,
    record,
    table,
    tables,
    text,
)
from flatpack.parameters import length as mm  # a key named `length` would hide it


@record
class LengthRow:
    """A board sold by length, of one planed width; or an offcut of one.

    `length` left out stands for every length in which the board is sold: `per_metre` then prices
    them all.  `defects` are (start, end) from the end that is cut first.
    """

    board: str = item("boards", UNSET, does="the board")
    width: float = mm(UNSET, least=5, most=3000, does="planed width")
    length: float | None = mm(None, least=50, does="length; left out: all that are sold")
    price: float | None = number(None, least=0, most=1e6, does="price of one")
    per_metre: float | None = number(None, least=0, most=1e6, does="price of a metre")
    available: int | None = count(None, does="how many there are; left out: enough")
    defects: tuple[tuple[float, float], ...] = pairs((), does="places to cut out")
    offcut: bool = flag(False, does="left over from before: used first, costs nothing")


@record
class SheetRow:
    """A sheet, or an offcut of one; `outline` (corner points) only a router or laser can use."""

    board: str = item("boards", UNSET, does="the board")
    length: float = mm(UNSET, least=50, does="along the face grain")
    width: float = mm(UNSET, least=20, does="across it")
    price: float | None = number(None, least=0, most=1e6, does="price of one")
    available: int | None = count(None, does="how many there are; left out: enough")
    offcut: bool = flag(False, does="left over from before: used first, costs nothing")
    outline: tuple[tuple[float, float], ...] = pairs((), does="corners in order, if no rectangle")


@record
class RodRow:
    """A round bar sold by length; every length sold when `length` is left out."""

    rod: str = item("rods", UNSET, does="the bar")
    length: float | None = mm(None, least=50, does="length; left out: all that are sold")
    price: float | None = number(None, least=0, most=1e6, does="price of one")
    per_metre: float | None = number(None, least=0, most=1e6, does="price of a metre")
    available: int | None = count(None, does="how many there are; left out: enough")
    offcut: bool = flag(False, does="left over from before: used first, costs nothing")


@record
class PackRow:
    """Hardware in packs: item and size as they stand in the list of hardware."""

    item: str = text(UNSET, does="name in the list of hardware", longest=80)
    size: str | None = text(None, does="size in that list; left out: every size", longest=40)
    pieces: int = count(1, least=1, most=10_000, does="pieces in a pack")
    price: float | None = number(None, least=0, most=1e6, does="price of a pack")


@record
class TinRow:
    """Glue or finish in a bottle or tin: `holds` grams of glue or litres of finish."""

    glue: str | None = item("glues", None, does="the glue")
    finish: str | None = item("finishes", None, does="or the finish")
    holds: float = number(UNSET, least=0.001, most=1e6, does="grams of glue or litres of finish")
    price: float | None = number(None, least=0, most=1e6, does="price of one")


@record
class Saws:
    """What the merchant's saws and the maker's own can do.

    `trim` includes the cut itself.  `stages` counts how often the direction of cuts may change on
    the panel saw.  Rests of the sizes kept go into the stock file for next time.
    """

    kerf: float = mm(3.2, least=0, most=20, does="width of the panel saw's cut")
    trim: float = mm(10.0, least=0, most=100, does="taken off each edge of a sheet first")
    stages: int = count(3, least=2, most=3, does="directions in turn on the panel saw")
    narrowest: float = mm(40.0, least=0, most=500, does="narrowest strip that can be held")
    longest: float = mm(0.0, least=0, does="longest sheet that fits; 0: any")
    widest: float = mm(0.0, least=0, does="widest sheet that fits; 0: any")
    tolerance: float = mm(1.0, least=0, most=10, does="what the saw holds to")
    free_cuts: int = count(0, does="cuts in the price of the sheets")
    per_cut: float | None = number(None, least=0, most=1e4, does="price of each further cut")
    cross_kerf: float = mm(3.0, least=0, most=20, does="width of the cross-cut saw's cut")
    end_trim: float = mm(10.0, least=0, most=200, does="taken off each end of a board first")
    keep_length: float = mm(300.0, least=50, does="shortest rest that is kept")
    keep_width: float = mm(100.0, least=20, does="narrowest rest of a sheet that is kept")


@record
class Rates:
    """Minutes that each operation takes at this bench, and spares; change them to your own."""

    setting: float = number(2.0, least=0, most=240, unit="min", does="setting a fence or stop")
    saw_cut: float = number(0.7, least=0, most=240, unit="min", does="a cut")
    curve: float = number(4.0, least=0, most=240, unit="min", does="a metre of shaped outline")
    hole: float = number(0.7, least=0, most=240, unit="min", does="a hole marked and drilled")
    pocket: float = number(0.9, least=0, most=240, unit="min", does="a pocket hole")
    screw: float = number(0.5, least=0, most=240, unit="min", does="a screw driven")
    bolt: float = number(2.0, least=0, most=240, unit="min", does="a bolt, hinge or wheel fitted")
    joint: float = number(3.0, least=0, most=240, unit="min", does="a joint laid out and glued")
    sanding: float = number(8.0, least=0, most=240, unit="min/m2", does="sanding")
    coat: float = number(6.0, least=0, most=240, unit="min/m2", does="one coat of finish")
    spare_percent: float = number(5.0, least=0, most=100, unit="%", does="spare small hardware")
    spare_least: int = count(1, most=100, does="least spares of each kind")


@record
class Stock:
    """A stock list with a merchant's limits and a bench's rates.

    Boards that no row names are taken in the sizes that their profile gives, without a price.
    `bundle` is the most that a packed bundle shall weigh.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands on the order", longest=60)
    currency: str = text("", does="unit of all prices", longest=10)
    boards: tuple[LengthRow, ...] = tables(LengthRow, does="boards sold by length")
    sheets: tuple[SheetRow, ...] = tables(SheetRow, does="sheets")
    rods: tuple[RodRow, ...] = tables(RodRow, does="round bars")
    packs: tuple[PackRow, ...] = tables(PackRow, does="hardware in packs")
    tins: tuple[TinRow, ...] = tables(TinRow, does="glue and finish")
    bundle: float = number(13.0, least=1, most=100, unit="kg", does="heaviest packed bundle")
    lifter: str = choice("women", ("men", "women"), does="whose lifting figures count")
    saws: Saws = table(Saws, does="the saws")
    rates: Rates = table(Rates, does="minutes and spares")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")
