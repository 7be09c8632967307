"""The travel for the page's script: each moment as a short row of rounded numbers."""

from __future__ import annotations

import json

from flatpack.drawings.moving import MovingPage
from flatpack.drawings.moving.record import Moment, NamedPair
from flatpack.wording import english_moving as words
from flatpack.writers.moving_svg import CARRIERS, body_ids

STATES = tuple(words.STATES)


def travel(page: MovingPage) -> str:
    """JSON that is safe inside an element: back, pivot, heading, state, stop, gaps, nearest, place.

    Raises:
        ValueError: a number isn't finite.
    """
    ids, carriers = body_ids(page), {b.name: b.carrier.value for b in page.bodies}
    found = {
        "states": [words.told(text, page) for text in words.STATES.values()],
        "stops": [s.lines[1] for s in page.stops[1:]],
        "far": words.ALL_FAR,
        "near": words.NEAREST_MARK,
        "overlap": words.OVERLAP,
        "pairs": [_pair(pair, ids, carriers) for pair in page.pairs],
        "moments": [_row(m) for m in page.moments],
    }
    text = json.dumps(found, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return text.replace("<", "\\u003c")


def _pair(pair: NamedPair, ids: dict[str, str], carriers: dict[str, str]) -> dict[str, str]:
    """The pair's name, and its two shapes by the group that each moves with."""
    shapes = {CARRIERS[carriers[n]]: ids[n] for n in (pair.first, pair.second) if n in ids}
    return {"title": pair.title, **shapes}


def _row(m: Moment) -> list[object]:
    state = 0 if m.stop else STATES.index(m.state)
    where = None if m.where is None else [_r(m.where.x, 1), _r(m.where.y, 1)]
    pivot = [_r(m.place.pivot.x, 3), _r(m.place.pivot.y, 3)]
    gaps = [_r(g, 2) for g in m.gaps]
    return [_r(m.place.back, 4), pivot, _r(m.place.heading, 4), state, m.stop, gaps, m.near, where]


def _r(value: float, places: int) -> float:
    return round(value, places) + 0.0
