"""The page on which the back moves: what it shows, put together from the mechanism."""

from __future__ import annotations

import math
from collections.abc import Iterator

from flatpack.drawings.boxes import Box
from flatpack.drawings.figures import mm
from flatpack.drawings.moving.facts import StopFacts
from flatpack.drawings.moving.nearness import as_drawn, gaps, kept_pairs, named_pairs, nearest
from flatpack.drawings.moving.record import Moment, MovingPage, Place, StopPicture
from flatpack.drawings.moving.stops_layout import extent
from flatpack.drawings.moving.stops_table import degrees, short_table, table_notes
from flatpack.drawings.moving.travel import Step, steps
from flatpack.drawings.moving.views import Seen, seen_bodies, stands
from flatpack.mechanism.path import Path
from flatpack.mechanism.study import Study
from flatpack.mechanism.track import Stand
from flatpack.model import Assembly
from flatpack.wording import english as general
from flatpack.wording import english_moving as words

_MARGIN = 25.0


def moving_page(
    assembly: Assembly,
    made: Study,
    path: Path,
    facts: tuple[StopFacts, ...],
    code: str,
    faulty: bool = False,
) -> MovingPage:
    """The page of a piece whose back has at least one stop."""
    bodies = seen_bodies(made)
    pairs = named_pairs(made)
    moments = tuple(_moments(made, steps(made, path)))
    labels = general.FACTS
    return MovingPage(
        name=f"moving-{made.motion.panel}",
        title=f"{assembly.name}: {words.told(words.TITLE, made.motion).lower()}",
        facts=((labels["code"], code), (labels["date"], assembly.date)),
        bodies=bodies,
        arm=made.prop.arm,
        box=_box(bodies, (*stands(made), path.topmost), -made.motion.axis.z),
        ground=-made.motion.axis.z,
        moments=moments,
        pairs=as_drawn(pairs, made, bodies),
        stops=tuple(_pictures(made, facts, moments)),
        table=short_table(made, facts),
        notes=table_notes(made),
        warning=general.NOT_FOR_CUTTING if faulty else "",
        panel=made.motion.panel,
        rest=made.motion.rest,
    )


def _moments(made: Study, run: tuple[Step, ...]) -> Iterator[Moment]:
    """Each position with its gaps; one met twice is worked out once."""
    kept = kept_pairs(made, named_pairs(made))
    known: dict[Stand, Moment] = {}
    for stand, state, stop in run:
        if stand not in known:
            found = gaps(kept, stand)
            near, where = nearest(kept, found, stand)
            known[stand] = Moment(_place(stand), state, stop, found, near, where)
        yield known[stand]._replace(state=state, stop=stop)


def _place(stand: Stand) -> Place:
    return Place(stand.degrees, math.degrees(stand.heading), stand.pivot)


def _box(bodies: tuple[Seen, ...], positions: tuple[Stand, ...], ground: float) -> Box:
    """The moving parts and the frame near them, as on the sheet of stops."""
    x0, y0, x1, y1 = extent(bodies, positions).shown
    return x0, min(y0, ground) - _MARGIN, x1 + _MARGIN, y1 + _MARGIN


def _pictures(
    made: Study, facts: tuple[StopFacts, ...], moments: tuple[Moment, ...]
) -> Iterator[StopPicture]:
    flat, folded = (words.told(t, made.motion) for t in (words.FLAT, words.STATES["flat"]))
    yield StopPicture(flat, (folded,), 0)
    for f in facts:
        number = next(i for i, m in enumerate(moments) if m.stop == f.number)
        name = words.stop_button(f.number, degrees(f.stop.angle))
        yield StopPicture(name, tuple(_lines(f, made.motion.panel)), number)


def _lines(f: StopFacts, panel: str) -> Iterator[str]:
    yield words.spread(degrees(f.spread.low), degrees(f.spread.high))
    yield words.at_stop(f.number, f.notch)
    for place in f.places[:1]:
        yield words.rod_place(mm(place.x), mm(place.y))
    if f.release is None or f.release.clears is None:
        yield words.NO_RELEASE
    else:
        yield words.to_lower(degrees(f.release.raise_back), mm(f.release.lift), panel)
