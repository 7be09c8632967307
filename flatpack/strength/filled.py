"""Load cases of a planter full of soil, and of a box whose lid is sat on."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, Z
from flatpack.model import Assembly
from flatpack.strength.layout import middle, reach
from flatpack.strength.setting import GRAVITY, Setting
from flatpack.strength.spreading import Rectangle, on_part, spread
from flatpack.strength.surfaces import (
    Surface,
    floor_of,
    level_surfaces,
    surface,
    top_of,
    walls,
)
from flatpack.strength.use_cases import Use, case_of, down_by, lifted, pushed, sitting, spots
from flatpack.strength.whole import Push


def soil(setting: Setting) -> Iterator[Use]:
    """Wet soil in it, somebody on its rim or against it, and lifting it empty."""
    floor, loads = floor_of(setting.assembly), setting.loads
    if floor is None:
        return
    earth = tuple(_earth(setting, floor))
    words = f"filled with wet soil of {loads.soil_density:g} kg/m3"
    yield case_of("soil", words, earth, loads.gamma_dead, "permanent", tips=False, lasting=1.0)
    rim = level_surfaces(setting.assembly)[-1]
    if rim.top <= floor.top:
        rim = _walls_rim(setting, floor)
    x, y, _ = rim.middle
    down, size = down_by(setting, loads.edge_share), loads.spot_size
    for name, a, b in (("front rim", rim.x[0], y), ("left rim", x, rim.y[0])):
        at = Rectangle.about(a, b, size, size, rim)
        words = f"{loads.edge_share:g} of a person on the {name}"
        yield case_of(name, words, (*earth, *spread(rim, at, down)), loads.gamma_live)
    yield from pushed(setting, rim, earth, tips=True)
    yield from lifted(setting, rim, ())


def _walls_rim(setting: Setting, floor: Surface) -> Surface:
    # Boards that lie: a post may stand up above them to carry a lid.
    found = [p for p, _ in walls(setting.assembly) if abs(p.frame.x.z) < 0.5]
    top = max((reach(p, Z)[1] for p in found), default=floor.top)
    high = [p for p in found if reach(p, Z)[1] > top - 1.0]
    return surface(high) if high else floor


def room_for_soil(assembly: Assembly, floor: Surface) -> tuple[float, float]:
    """Volume above the floor up to the walls' top, mm3, and the height of that top, mm."""
    top = max((reach(p, Z)[1] for p, _ in walls(assembly)), default=floor.top)
    plan = (floor.x[1] - floor.x[0]) * (floor.y[1] - floor.y[0])
    return plan * (top - floor.top), top


def _earth(setting: Setting, floor: Surface) -> Iterator[Push]:
    """Soil on the floor and against the walls: density x g x depth, sideways times its share."""
    loads, around = setting.loads, list(walls(setting.assembly))
    inside, top = room_for_soil(setting.assembly, floor)
    weight = loads.soil_density * GRAVITY * 1e-9 * loads.gamma_dead
    yield from spread(floor, Rectangle(floor.x, floor.y), Vec(0.0, 0.0, -weight * inside))
    for part, out in around:
        depth = top - max(middle(part).z, floor.top)
        if depth > 0.0 and reach(part, Z)[1] > floor.top:
            force = weight * loads.soil_pressure * depth * abs(part.outline.area)
            yield from on_part(part, 0.5, max(part.length, part.width),
                               Vec(*(force * v for v in out)))  # fmt: skip


def lid(setting: Setting) -> Iterator[Use]:
    """Somebody sits on its lid; it is filled, pushed, and lifted by its walls."""
    top, floor, loads = top_of(setting.assembly), floor_of(setting.assembly), setting.loads
    if top is None or floor is None:
        return
    weight = Vec(0.0, 0.0, -loads.contents * GRAVITY * loads.gamma_live)
    filled = spread(floor, Rectangle(floor.x, floor.y), weight) if floor is not top else ()
    yield from (*sitting(setting, top), *spots(setting, top))
    if filled:
        words = f"filled with {loads.contents:g} kg"
        yield case_of("filled", words, filled, loads.gamma_live, "long", tips=False)
    rim = _walls_rim(setting, floor)  # nobody lifts a box by its lid
    yield from pushed(setting, rim)
    yield from lifted(setting, rim, filled)
