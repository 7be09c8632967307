"""All windows of a piece as panels: a face's together, like parts once, large ones tiled."""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterable, Iterator
from itertools import groupby

from flatpack.drawings.boxes import Box
from flatpack.drawings.faces import worked_faces
from flatpack.drawings.figures import mm
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.templates.hole_table import table_rows
from flatpack.drawings.templates.in_piece import InPiece
from flatpack.drawings.templates.panel import INSET, Panel, Shown
from flatpack.drawings.templates.tiles import OVERLAP, Tile, steps, tiles
from flatpack.drawings.templates.view import LEFT, RIGHT
from flatpack.drawings.templates.windows import Window, windows
from flatpack.frozen import replace

Room = tuple[float, float]


def panels(
    found: tuple[PartGroup, ...], told: InPiece, room: Room
) -> tuple[tuple[Panel, ...] | None, ...]:
    """Panels of each worked face that fit a content of that width and height.

    None stands for a face of which a window can't be made to fit, not even in tiles.
    """
    return tuple(_fitting(same, room) for same in _alike(found, told, room))


def _alike(found: tuple[PartGroup, ...], told: InPiece, room: Room) -> Iterable[Panel]:
    """A panel for each face of each part; one for those whose paper is the same."""
    widest = room[0] - LEFT - RIGHT - 2.0 * INSET
    same: dict[Hashable, Panel] = {}
    for group in found:
        for _, of_face in groupby(windows(group, widest), key=lambda w: w.face):
            shown = tuple(Shown(w, Tile(w.box)) for w in of_face)
            panel = Panel(shown=shown, groups=(group,), most=room[0], told=told,
                          others=_others(group, found))  # fmt: skip
            known = same.setdefault(_look(panel), panel)
            if known is not panel:
                same[_look(panel)] = replace(known, groups=(*known.groups, group))
    return same.values()


def _look(panel: Panel) -> Hashable:
    """All that is on the paper but marks and hands."""
    window = panel.window
    part = window.part
    facts = (part.name, window.face, window.first, window.left, part.length, part.thickness)
    edges = tuple(tuple(round(v, 3) for v in (*s.start, s.bulge)) for s in part.outline)
    holes = frozenset(f.key() for f in part.features)
    boxes = tuple(one.tile.box for one in panel.shown)
    return (*facts, table_rows(panel, meets=False), edges, holes, boxes, part.openings)


def _others(group: PartGroup, found: tuple[PartGroup, ...]) -> tuple[str, ...]:
    """Marks of the other hand."""
    hand = group.part.hand
    if not hand:
        return ()
    stem = group.mark.rsplit("-", 1)[0]
    return tuple(
        g.mark for g in found
        if g.part.name == group.part.name and g.part.hand not in ("", hand)
        and g.mark.rsplit("-", 1)[0] == stem
    )  # fmt: skip


def _fitting(panel: Panel, room: Room) -> tuple[Panel, ...] | None:
    """The panel split into as few as fit the page; a window too large by itself is tiled."""
    made: list[Panel] = []
    last: Panel | None = None
    for one in panel.shown:
        if last and (more := _fitted(replace(last, shown=(*last.shown, one)), room)):
            last = more
            continue
        made += [last] if last else []
        last = _fitted(replace(panel, shown=(one,)), room)
        if last is None:
            tiled = _tiled(panel, one.window, room)
            if tiled is None:
                return None
            made += tiled
    return (*made, last) if last else tuple(made)


def _fitted(panel: Panel, room: Room) -> Panel | None:
    """The panel, or the same as wide as the page, if that fits."""
    tries = (replace(panel, wide=False), replace(panel, wide=True))
    return next((p for p in tries if p.size[0] <= room[0] + 1e-9 and p.size[1] <= room[1] + 1e-9),
                None)  # fmt: skip


def _tiled(panel: Panel, window: Window, room: Room) -> list[Panel] | None:
    """One panel a tile, in as few rows as fit: fewer marks a tile make its table shorter."""
    box = window.box
    width = room[0] - LEFT - RIGHT - 2.0 * INSET
    for rows in range(1, 40):
        high = (box[3] - box[1] - OVERLAP) / rows + OVERLAP
        cut = tiles(box, (width, high))
        made = [_fitted(replace(panel, shown=(Shown(window, tile),)), room) for tile in cut]
        if high > OVERLAP + 10.0 and all(made):
            return [panel for panel in made if panel]
    return None


def plain_pages(found: tuple[PartGroup, ...], room: Room) -> int:
    """Pages that plain tiling takes: every worked face whole, tile by tile, without words."""
    count = 0
    for group in found:
        part = group.part
        if windows(group, math.inf):
            across, up = len(steps(part.length, room[0])), len(steps(part.width, room[1]))
            count += across * up * len(worked_faces(part))
    return count


def reach(box: Box) -> str:
    """Size of a window, for a finding."""
    return f"{mm(box[2] - box[0])} x {mm(box[3] - box[1])}"


def tiled(every: Iterable[Panel]) -> Iterator[Panel]:
    """The first tile of each window that takes several sheets."""
    return (p for p in every if p.shown[0].tile.sheets > 1 and p.shown[0].tile.place[::2] == (1, 1))
