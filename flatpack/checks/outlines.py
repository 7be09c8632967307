"""Outlines: simple, anticlockwise, openings inside, and the part comes out of a board as sold."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.setting import Setting, alike
from flatpack.finding import Finding
from flatpack.geometry.polygon import is_simple, polygon
from flatpack.model import Part
from flatpack.profiles import Board

FITS = 1e-6
SOLD = "sizes in the board's profile"


def check_outlines(setting: Setting) -> Iterator[Finding]:
    """Each outline encloses an area once, anticlockwise, with its openings inside."""
    for part, keys in setting.distinct:
        if part.outline.area <= 0.0:
            yield _fault("outline-clockwise", part, "the outline runs clockwise", keys)
        if not is_simple(part.outline):
            yield _fault("outline-not-simple", part, "the outline crosses or touches itself", keys)
        else:
            yield from _openings(setting, part, keys)


def _openings(setting: Setting, part: Part, keys: tuple[str, ...]) -> Iterator[Finding]:
    whole = polygon(part.outline)
    for number, opening in enumerate(part.openings, 1):
        if not is_simple(opening):
            yield _fault("opening-not-simple", part, f"opening {number} crosses itself", keys)
        elif not whole.contains_properly(polygon(opening)):
            text = f"opening {number} runs out of the outline"
            yield _fault("opening-outside", part, text, keys)
        else:
            wall = whole.boundary.distance(polygon(opening))
            limit = setting.limits.wall_least
            if wall < limit.value:
                yield Finding(
                    "opening-wall", "fault", part.key,
                    f"opening {number} leaves {wall:.1f} of wood to the edge{alike(keys)}",
                    wall, limit.value, "mm", limit.source,
                )  # fmt: skip


def _fault(code: str, part: Part, message: str, keys: tuple[str, ...]) -> Finding:
    return Finding(code, "fault", part.key, message + alike(keys))


def check_boards(setting: Setting) -> Iterator[Finding]:
    """Each part fits a board that is sold, with the grain along it; planed widths are sold."""
    for part, keys in setting.distinct:
        if part.board.kind == "sheet":
            yield from _from_sheet(part, keys)
        else:
            yield from _from_planed(part, keys)


def _from_sheet(part: Part, keys: tuple[str, ...]) -> Iterator[Finding]:
    board = part.board
    if not board.sheets:
        yield _not_sold(board, part, "sheet sizes")
    elif not any(_fits(part, sheet, board.grain) for sheet in board.sheets):
        largest = max(board.sheets)
        yield Finding(
            "larger-than-sheet", "fault", part.key,
            f"{part.length:.0f} along the grain x {part.width:.0f} fits no sheet of {board.name}; "
            f"the longest is {largest[0]:g} x {largest[1]:g}{alike(keys)}",
            part.length, largest[0], "mm", SOLD, "make it of two parts, or choose another board",
        )  # fmt: skip


def _fits(part: Part, sheet: tuple[float, float], grain: bool) -> bool:
    """Along the sheet's grain, or either way round where the grain doesn't matter."""
    ways = (sheet,) if grain else (sheet, sheet[::-1])
    return any(part.length <= a + FITS and part.width <= b + FITS for a, b in ways)


def _from_planed(part: Part, keys: tuple[str, ...]) -> Iterator[Finding]:
    board = part.board
    if not board.widths or not board.lengths:
        yield _not_sold(board, part, "widths or lengths")
        return
    if part.length > max(board.lengths) + FITS:
        yield Finding(
            "longer-than-board", "fault", part.key,
            f"{part.length:.0f} long; {board.name} is sold up to {max(board.lengths):g}"
            f"{alike(keys)}",
            part.length, max(board.lengths), "mm", SOLD, "shorten the piece or join two lengths",
        )  # fmt: skip
    if part.width > max(board.widths) + FITS:
        yield Finding(
            "wider-than-board", "fault", part.key,
            f"{part.width:.1f} wide; {board.name} is sold up to {max(board.widths):g} wide"
            f"{alike(keys)}",
            part.width, max(board.widths), "mm", SOLD, "choose a narrower width",
        )  # fmt: skip
    elif not any(abs(part.width - w) < FITS for w in board.widths):
        wider = min(w for w in board.widths if w > part.width - FITS)
        yield Finding(
            "width-not-sold", "note", part.key,
            f"{part.width:.1f} wide must be ripped from {wider:g}{alike(keys)}",
            part.width, wider, "mm", SOLD,
        )  # fmt: skip


def _not_sold(board: Board, part: Part, what: str) -> Finding:
    text = f"the profile of {board.name} gives no {what}, so whether it fits is unknown"
    return Finding("fits-board", "not done", part.key, text)
