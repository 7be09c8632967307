"""Copies of a part in a row: shared evenly between two places, or every so far."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from flatpack.parameters import Sum
from flatpack.pieces.composed.directions import AXES, WAYS, nearest_axis
from flatpack.pieces.composed.shaping import own_extent
from flatpack.pieces.family import even_gap, slat_count

if TYPE_CHECKING:
    from flatpack.pieces.composed.layout import Layout


class Stated(NamedTuple):
    """One place of a part: which share of its reach (0, 0.5, 1), what is said, under which key."""

    share: float
    said: Sum
    key: str


class Row(NamedTuple):
    """Copies of a part along its own axis: how many, from one to the next, gap between them."""

    axis: int
    pieces: int
    step: float
    gap: float | None = None


class Known(NamedTuple):
    """A part's length, width or thickness, mm, and which of them."""

    axis: int
    extent: float


def is_copied(layout: Layout, name: str) -> bool:
    """Whether an entry stands for a row of parts."""
    return layout.parts[name].kind == "slats" or layout.parts[name].made.copies is not None


def row_of(layout: Layout, name: str) -> Row:
    """The row of a part's copies.

    Raises:
        StuckError: it can't be worked out.
    """
    made = layout.parts[name].made
    if layout.parts[name].kind != "slats" and made.step is not None:
        axis, sense = nearest_axis(layout.axes(name), WAYS[made.step_to])
        step = layout.length(made.step, f"parts.{name}.step")
        return Row(axis, made.copies, sense * step)
    for axis in range(3):
        stated, known = layout.stated(name, axis), own_extent(layout, name, axis)
        if len(stated) == 2 and known is not None:
            return spread(layout, name, stated, Known(axis, known))[0]
    raise layout.faults.stop(
        f"parts.{name}", "", "two places, such as front and rear, or copies and step",
        "its row has no two places to be shared between",
    )  # fmt: skip


def spread(layout: Layout, name: str, stated: list[Stated], known: Known) -> tuple[Row, float]:
    """The row between two places, and where its first part begins.

    Raises:
        StuckError: it can't be worked out.
    """
    axis, extent = known
    one, two = sorted(stated, key=lambda s: s.share)
    if (one.share, two.share) != (0.0, 1.0):
        raise layout.faults.stop(two.key, two.said, "two opposite sides", "the row needs two ends")
    low, high = layout.value(name, axis, one), layout.value(name, axis, two)
    pieces = _pieces(layout, name, high - low, extent)
    if pieces == 1:
        return Row(axis, 1, extent), (low + high - extent) / 2.0
    gap = even_gap(high - low, extent, pieces)
    if gap < -1e-9:
        room = f"at most {max(int((high - low) / extent), 0)}, in {high - low:.1f} mm"
        raise layout.faults.stop(f"parts.{name}", pieces, room, "more in the row than fit")
    sense = nearest_axis(AXES, layout.axes(name)[axis])[1]
    row = Row(axis, pieces, sense * (extent + gap), gap)
    return row, low if sense > 0 else high - extent


def _pieces(layout: Layout, name: str, covered: float, width: float) -> int:
    made = layout.parts[name].made
    if layout.parts[name].kind != "slats":
        return int(made.copies)
    asked = made.count or made.copies
    if asked:
        return int(asked)
    fit = int((covered + 1e-6) / width)
    if fit < 1:
        text = f"not even one fits between the row's places, {covered:.1f} mm apart"
        raise layout.faults.stop(f"parts.{name}", f"{width:.1f} mm wide", "more room", text)
    return min(slat_count(covered, width, layout.length(made.gap, f"parts.{name}.gap")), fit)
