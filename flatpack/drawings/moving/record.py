"""What a page that moves is made of: data only, no file format."""

from __future__ import annotations

from typing import NamedTuple

from flatpack.drawings.boxes import Box
from flatpack.drawings.moving.views import Seen
from flatpack.drawings.page import Table
from flatpack.frozen import frozen
from flatpack.geometry import Point


class Place(NamedTuple):
    """Where things stand: back angle and arm's heading in degrees, pivot in the hinge frame."""

    back: float
    heading: float
    pivot: Point


class Moment(NamedTuple):
    """One position of the travel.

    `state` is a key of the words for the rod's state; `stop` the number of the stop at which it
    rests, 0 for none.  `gaps` are those of the named pairs, mm; `near` is the number of the
    nearest of them, and `where` the place of its gap (None: no pairs).
    """

    place: Place
    state: str
    stop: int
    gaps: tuple[float, ...]
    near: int
    where: Point | None


class NamedPair(NamedTuple):
    """Two bodies by their keys, what they are called, and their least gap on the whole travel."""

    first: str
    second: str
    title: str
    least: float
    at: str


class StopPicture(NamedTuple):
    """One picture of the strip: its name, the lines under it, and the moment it shows."""

    name: str
    lines: tuple[str, ...]
    moment: int


@frozen
class MovingPage:
    """A page with the back moving: the bodies, the travel, the strip of stops, their table.

    `box` is the hinge frame's part that the pictures show and `ground` its level, mm; `arm` the
    length from pivot to rod; `notes` explain the table; `panel` and `rest` are the words for what
    lifts and how it lies at 0 degrees.  Moments follow one another on the way.
    """

    name: str
    title: str
    facts: tuple[tuple[str, str], ...]
    bodies: tuple[Seen, ...]
    arm: float
    box: Box
    ground: float
    moments: tuple[Moment, ...]
    pairs: tuple[NamedPair, ...]
    stops: tuple[StopPicture, ...]
    table: Table
    notes: tuple[str, ...] = ()
    warning: str = ""
    panel: str = "back"
    rest: str = "flat"
