"""A sample of every shape that a part can have, as it would stand in a parameter file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from flatpack.drawings.overview import plate
from flatpack.drawings.page import Table
from flatpack.drawings.shapes import Drawing
from flatpack.geometry import Outline
from flatpack.parameters import UNSET, Spec, read_record, specs_of
from flatpack.parameters.commenting import toml_value
from flatpack.parameters.describing import allowed
from flatpack.pieces.common.generators import GENERATORS, Shaped
from flatpack.profiles import Profiles
from flatpack.wording import english_gallery as words

SAMPLES: Mapping[str, str] = {
    "board": "length = 420\nwidth = 95\ncorners = [0, 0, 40, 0]",
    "slats": "length = 420\nwidth = 45\ngap = 12\ncount = 4",
    "rounded bar": 'length = 420\nwidth = 70\nends = "right"',
    "notched bar": "length = 420\nwidth = 95\nrod = 25\nat = [70, 150, 230]",
    "disc": "diameter = 300",
    "panel": "length = 420\nwidth = 220\nround = 30\nopenings = [\n"
    "    { at = [[130, 110]], diameter = 120 },\n"
    "    { at = [[300, 110]], length = 110, width = 36, round = 18 },\n]",
    "polygon": "points = [[0, 0], [420, 0], [340, 180], [80, 180]]\nround = [0, 0, 40, 40]",
    "profile": "points = [[0, 0], [420, 0], [420, 70], [0, 70]]\nrises = [0, 0, 55, 0]",
}
"""Generator -> its keys; figures invented for the picture."""


class Sample(NamedTuple):
    """One shape: its word, what it is, how it is written, its picture, its keys."""

    word: str
    does: str
    written: str
    drawing: Drawing
    keys: Table


def samples(profiles: Profiles) -> Iterator[Sample]:
    """Every generator in its order.

    Raises:
        KeyError: a generator has no sample (a bug).
    """
    for word, generator in GENERATORS.items():
        text = SAMPLES[word]
        record = read_record(generator.record, text, word, known=profiles.known)
        shaped = generator.make(record, profiles)
        drawing = plate(word, tuple(_repeated(shaped, record)), shaped.openings)
        written = f'[parts.{words.NAME_OF_PART}]\nshape = "{word}"\n{text}'
        yield Sample(word, generator.does, written, drawing, _table(word, generator.record))


def _repeated(shaped: Shaped, record: object) -> Iterator[Outline]:
    """A row of slats is several; every other shape is one."""
    pitch = getattr(record, "gap", 0.0) + getattr(record, "width", 0.0)
    for number in range(getattr(record, "count", None) or 1):
        yield shaped.outline.moved(0.0, number * pitch) if number else shaped.outline


def _table(word: str, record: object) -> Table:
    rows = tuple((key, allowed(spec), _left_out(spec), spec.does) for key, spec in _keys(record))
    return Table(name="keys", title=words.keys_of(word), header=words.KEYS_HEADER, rows=rows)


def _keys(record: object) -> Iterator[tuple[str, Spec]]:
    for key, spec in specs_of(record).items():
        yield key, spec
        if spec.record is not None:
            yield from ((f"{key}.{inner}", s) for inner, s in specs_of(spec.record).items())


def _left_out(spec: Spec) -> str:
    if spec.default is UNSET:
        return words.NEEDED
    return words.NOTHING if spec.default in (None, ()) else toml_value(spec.default)
