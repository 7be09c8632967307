"""Where each part lies: its axes, and its reach along each of them, from what the file states.

Along each of its own three axes a part needs one place (a side, or its middle), or two where its
length or width isn't given.  A place is a plane: a side of another part, or so far from the
ground, the front or the left end; what is added to a side runs along the part itself.  Where that
plane isn't square to the axis, as with leaning parts, it is the corner with the side stated for
the other axis that lies in it.
"""

from __future__ import annotations

from typing import NamedTuple

from flatpack.geometry import Vec, X, Z
from flatpack.parameters import nearest, quoted, words
from flatpack.pieces.composed import directions
from flatpack.pieces.composed.corners import end_plane, inset, is_side, value_of
from flatpack.pieces.composed.directions import (
    AXES,
    OTHER_HAND,
    WAYS,
    Plane,
    Triad,
    nearest_axis,
)
from flatpack.pieces.composed.faults import StuckError
from flatpack.pieces.composed.lengths import PIECE, Lengths
from flatpack.pieces.composed.part_records import MIDDLES, SIDES
from flatpack.pieces.composed.rows import Known, Row, Stated, is_copied, row_of, spread
from flatpack.pieces.composed.shaping import own_extent

PLACES = (*SIDES, "middle")
SQUARE = 1e-9


class Instance(NamedTuple):
    """One part of those that an entry stands for: which copy (from 0), and of which hand."""

    base: str
    number: int = 0
    hand: str = ""


class Layout(Lengths):
    """Places of all parts, each worked out when it is first asked for."""

    def axes(self, name: str) -> Triad:
        """A part's own axes as directions in the piece."""
        where = (f"parts.{name}.leans_with", self.parts[name].made.leans_with)
        return self.faults.once(("axes", name), name, where, lambda: self._axes(name))

    def _axes(self, name: str) -> Triad:
        degrees, to = self._lean(name)
        return directions.tipped(self.untipped(name), degrees, WAYS[to])

    def untipped(self, name: str) -> Triad:
        """A part's axes before it is tipped: its sides keep the names that they had then."""
        p = self.parts[name].made
        shows = WAYS[p.shows] if hasattr(p, "shows") else _aside(WAYS[p.runs])
        made = directions.triad(WAYS[p.runs], shows)
        if made is None:
            raise self.faults.stop(
                f"parts.{name}.shows", p.shows, f"a way square to {p.runs}",
                "its show face can't look the way its length runs",
            )  # fmt: skip
        return directions.turned(made, p.turned)

    def _lean(self, name: str) -> tuple[float, str]:
        p = self.parts[name].made
        if not p.leans_with:
            return p.leans, p.leans_to
        key = f"parts.{name}.leans_with"
        if p.leans_with not in self.parts:
            raise self.faults.unknown(key, p.leans_with, self.parts, "no such part")
        what, told = ("lean", p.leans_with), p.leans_with
        return self.faults.once(what, told, (key, told), lambda: self._lean(p.leans_with))

    def stated(self, name: str, axis: int) -> list[Stated]:
        """What is said about a part's place along one of its own axes."""
        made, axes, found = self.parts[name].made, self.axes(name), []
        ways = [WAYS[side] for side in SIDES] + list(AXES)
        for key, way in zip((*SIDES, *MIDDLES), ways, strict=True):
            said = getattr(made, key)
            if said is None or nearest_axis(axes, way)[0] != axis:
                continue
            share = 0.5 if key in MIDDLES else float(nearest_axis(axes, way)[1] > 0)
            found.append(Stated(share, said, f"parts.{name}.{key}"))
        return found

    def extent(self, name: str, axis: int) -> float:
        """A part's length, width or thickness, mm."""
        known = own_extent(self, name, axis)
        if known is not None:
            return known
        low, high = self.reach(name, axis)
        return high - low

    def reach(self, name: str, axis: int) -> tuple[float, float]:
        """Where a part (the first of its copies) lies along its own axis, mm."""
        told = f"{name} ({_way(self.axes(name)[axis])})"
        where = (f"parts.{name}", name)
        return self.faults.once(("reach", name, axis), told, where, lambda: self._reach(name, axis))

    def _reach(self, name: str, axis: int) -> tuple[float, float]:
        stated, known = self.stated(name, axis), own_extent(self, name, axis)
        if len(stated) == 1 and known is not None:
            low = self._end(name, axis, stated[0]) - stated[0].share * known
            return low, low + known
        if len(stated) == 2 and known is None:
            return self._between(name, axis, stated)
        if len(stated) == 2 and known is not None and is_copied(self, name):
            first = spread(self, name, stated, Known(axis, known))[1]
            return first, first + known
        raise self.ill_stated(name, axis, stated, known)

    def _between(self, name: str, axis: int, stated: list[Stated]) -> tuple[float, float]:
        one, two = sorted(stated, key=lambda s: s.share)
        if one.share == two.share:
            raise self.faults.stop(
                two.key, two.said, "one of the two", "this side's place is given twice"
            )
        a, b = self._end(name, axis, one), self._end(name, axis, two)
        whole = (b - a) / (two.share - one.share)
        low = a - one.share * whole
        if whole < 5.0:
            text = f"only {whole:.1f} mm are left for it between its two places"
            raise self.faults.stop(two.key, two.said, "places at least 5 mm apart", text)
        return low, low + whole

    def _end(self, name: str, axis: int, stated: Stated) -> float:
        """Where a stated end of the part's reach lies: beyond the corner of a slanting end."""
        at = self.value(name, axis, stated)
        if axis:
            return at
        beyond = inset(self, name, stated)
        return at + beyond if stated.share > 0.5 else at - beyond

    def ill_stated(
        self, name: str, axis: int, stated: list[Stated], known: float | None
    ) -> StuckError:
        """The fault of a part with too few or too many places along an axis."""
        way = _way(self.axes(name)[axis])
        keys = ", ".join(_keys(self.axes(name)[axis]))
        what = ("length", "width", "thickness")[axis]
        if known is None:
            return self.faults.stop(
                f"parts.{name}.{what}", "", f"a length, or two places of {keys}",
                f"its {what} is not given, nor two places {way} that it would follow from",
            )  # fmt: skip
        if not stated:
            return self.faults.stop(
                f"parts.{name}", "", f"one of {keys}", f"where it stands {way} is not said"
            )
        return self.faults.stop(
            stated[-1].key, stated[-1].said, "one place, or copies shared between two",
            f"its {what} is given, so one place {way} is enough",
        )  # fmt: skip

    def value(self, name: str, axis: int, stated: Stated) -> float:
        """Where the side stated lies along the part's own axis, mm."""
        what = ("value", name, stated.key)
        told = stated.key.removeprefix("parts.")
        where = (stated.key, stated.said)
        return self.faults.once(what, told, where, lambda: value_of(self, name, axis, stated))

    def plane(self, term: float | str, way: int, stated: Stated, owner: str = "none") -> Plane:
        """The plane that a term means for a place in one of the piece's three ways."""
        if not is_side(term):
            return Plane(AXES[way], self.term(term, stated.key, stated.said))
        whose, _, side = str(term).partition(".")
        if whose == PIECE:
            return self._of_piece(side, way, stated)
        one = self.instance(whose, stated.key, owner)
        if side not in PLACES:
            known = [f"{whose}.{s}" for s in PLACES]
            raise self.faults.unknown(stated.key, str(term), known, "no such side")
        return self.side(one, side, way, at_height=stated.said.at is not None and way < 2)

    def _of_piece(self, side: str, way: int, stated: Stated) -> Plane:
        width, depth = self.record.size.width, self.record.size.depth
        known = {"front": (0, 0.0), "rear": (0, depth), "left": (1, 0.0), "right": (1, width),
                 "bottom": (2, 0.0)}  # fmt: skip
        if side == "middle" and way < 2:
            return Plane(AXES[way], (depth, width)[way] / 2.0)
        if side not in known:
            names = [f"{PIECE}.{s}" for s in (*known, "middle")]
            raise self.faults.unknown(
                stated.key, f"{PIECE}.{side}", names, "no such side of the piece"
            )
        return Plane(AXES[known[side][0]], known[side][1])

    def side(self, one: Instance, side: str, way: int, *, at_height: bool = False) -> Plane:
        """The plane of a side of a part; `way` tells which middle is meant.

        At a height it is the side that had this name before the part was tipped: of a brace that
        leans by more than 45 its long edge, as of one that leans less, and not its end.
        """
        pair = self.parts[one.base].made.pair
        mirrored = one.hand != "" and one.hand != pair
        if mirrored:
            side = OTHER_HAND.get(side, side)
        axes = self.axes(one.base)
        direction = AXES[way] if side == "middle" else WAYS[side]
        axis, sense = nearest_axis(self.untipped(one.base) if at_height else axes, direction)
        row = self.row(one.base) if one.number else None
        along = row.step * one.number if row is not None and row.axis == axis else 0.0
        if axis == 0 and side != "middle":
            end = end_plane(self, one.base, high=sense > 0)
            made = Plane(end.normal, end.reach + along * end.normal.dot(axes[0]))
        else:
            low, high = self.reach(one.base, axis)
            at = (low + high) / 2.0 if side == "middle" else high if sense > 0 else low
            made = Plane(axes[axis], at + along)
        return made.mirrored(self.record.size.width) if mirrored else made

    def row(self, name: str) -> Row | None:
        """How a part's copies follow each other; None for a single one."""
        if not is_copied(self, name):
            return None
        where = (f"parts.{name}", name)
        told = f"{name} (its row)"
        return self.faults.once(("row", name), told, where, lambda: row_of(self, name))

    def instance(self, name: str, key: str, owner: str = "none") -> Instance:
        """The part that a name means: NAME, NAME-2, NAME-left, NAME-2-left.

        A pair's plain name means the one on the same side, a row's its first.
        """
        stem, hand, number = name, "", ""
        if stem not in self.parts and stem.rpartition("-")[2] in OTHER_HAND:
            stem, _, hand = stem.rpartition("-")
        if stem not in self.parts and stem.rpartition("-")[2].isdecimal():
            stem, _, number = stem.rpartition("-")
        if stem not in self.parts or (hand and self.parts[stem].made.pair == "none"):
            raise self.faults.stop(
                key, name, words(sorted(self.parts)), "no such part", self._meant(stem, name)
            )
        row = self.row(stem) if number else None
        if number and (row is None or not 1 <= int(number) <= row.pieces):
            count = f"1 to {row.pieces}" if row else "it is a single part"
            raise self.faults.stop(key, name, count, "no such part in its row")
        pair = self.parts[stem].made.pair
        hand = hand or ("" if pair == "none" else pair if owner == "none" else owner)
        return Instance(stem, int(number or 1) - 1, hand)

    def _meant(self, stem: str, name: str) -> str:
        """The part's name most like one that isn't known."""
        hands = [f"{p}-{h}" for p, one in self.parts.items() if one.made.pair != "none"
                 for h in OTHER_HAND]  # fmt: skip
        return quoted(stem) if stem in self.parts else nearest(name, [*self.parts, *hands])

    def copies(self, name: str) -> dict[str, Instance]:
        """The parts that one entry stands for."""
        pair = self.parts[name].made.pair
        hands = ("",) if pair == "none" else ("left", "right")
        row = self.row(name)
        return {
            "-".join(filter(None, (name, str(n + 1) if row else "", hand))): Instance(name, n, hand)
            for n in range(row.pieces if row else 1)
            for hand in hands
        }


def _aside(way: Vec) -> Vec:
    return X if abs(way.z) > 0.5 else Z


def _way(axis: Vec) -> str:
    return ("front to rear", "left to right", "upright")[nearest_axis(AXES, axis)[0]]


def _keys(axis: Vec) -> tuple[str, ...]:
    number = nearest_axis(AXES, axis)[0]
    return (*SIDES[2 * number : 2 * number + 2], MIDDLES[number])
