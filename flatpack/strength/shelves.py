"""Load cases of a stand with shelves on which pots and their like stand; nobody sits on it."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec
from flatpack.strength.setting import Setting
from flatpack.strength.spreading import Rectangle, on_part, spread
from flatpack.strength.surfaces import Surface, shelves_of
from flatpack.strength.use_cases import Use, case_of, lifted, pushed
from flatpack.strength.whole import Push


def stand(setting: Setting) -> Iterator[Use]:
    """Shelves full, the top one's front half alone, a heavy pot anywhere, a pull, lifting it."""
    shelves, loads = shelves_of(setting.assembly), setting.loads
    if not shelves:
        return
    top = shelves[-1]
    full = tuple(p for s in shelves for p in _filled(setting, s, Rectangle(s.x, s.y)))
    words = f"every shelf full, {loads.top_load:g} N/m2"
    yield case_of("full", words, full, loads.gamma_live, "long", lasting=loads.lasting_share)
    half = Rectangle((top.x[0], top.middle.x), top.y)
    words = f"{loads.top_load:g} N/m2 on the front half of the top shelf alone"
    yield case_of("front half", words, _filled(setting, top, half), loads.gamma_live, "long")
    yield from _pots(setting, shelves)
    yield from pushed(setting, top, full)
    yield from lifted(setting, top, ())


def _filled(setting: Setting, shelf: Surface, area: Rectangle) -> tuple[Push, ...]:
    loads = setting.loads
    plan = (area.x[1] - area.x[0]) * (area.y[1] - area.y[0])
    down = loads.top_load * plan * 1e-6 * loads.gamma_live
    return tuple(spread(shelf, area, Vec(0.0, 0.0, -down)))


def _pots(setting: Setting, shelves: tuple[Surface, ...]) -> Iterator[Use]:
    """The heaviest pot on each board of each shelf, in its middle and at its ends."""
    loads = setting.loads
    down = Vec(0.0, 0.0, -loads.table_edge * loads.gamma_live)
    words = f"a pot of {loads.table_edge:g} N on one board, the worst place"
    for part in (p for shelf in shelves for p in shelf.parts):
        for share in (0.0, 0.5, 1.0):
            pushes = on_part(part, share, loads.spot_size, down)
            yield case_of("pot", words, pushes, loads.gamma_live, "long", tips=False)
