"""The gallery: a picture of every example by family, and of every shape that a part can have."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import PurePosixPath
from typing import Any

from flatpack import job
from flatpack.batch.row import sizes
from flatpack.drawings.gallery import Entry, Gallery, Picture, Section
from flatpack.drawings.overview import thumbnail
from flatpack.gallery.shapes import Sample, samples
from flatpack.manifest import NAME as MANIFEST
from flatpack.manifest import File, manifest
from flatpack.pieces import PIECES
from flatpack.poses import poses
from flatpack.profiles import load
from flatpack.wording import english_gallery as words
from flatpack.writers import gallery_html, svg_inline
from flatpack.writers.numerals import short

ROOM = (76.0, 52.0)
"""Width and height that a picture of a piece may take, mm."""
PAGE = "gallery.html"


def files(examples: Mapping[str, str], profiles: Mapping[str, str]) -> dict[str, File]:
    """Path -> file: the page, and each picture by itself.

    Args:
        examples: path -> text of the example pieces.
        profiles: path -> text of every profile.

    Raises:
        FlatpackError: an example can't be read.
    """
    gallery = _gallery(examples, profiles)
    made = {PAGE: File(gallery_html.render(gallery), words.TITLE)}
    pictures = (p for s in gallery.sections for e in s.entries for p in e.pictures)
    for picture in pictures:
        content = svg_inline.render(picture.drawing)
        made[f"pictures/{picture.file}.svg"] = File(content, picture.drawing.title)
    made[MANIFEST] = File(manifest(made, {"piece": words.TITLE}), "what each file is for")
    return made


def _gallery(examples: Mapping[str, str], profiles: Mapping[str, str]) -> Gallery:
    by_family: dict[str, list[Picture]] = {family: [] for family in PIECES.sound()}
    for path in sorted(examples):
        made = job.design(examples[path], path, profiles)
        by_family.setdefault(made.family, []).append(_picture(PurePosixPath(path).stem, made))
    pieces = Section(words.PIECES, (), tuple(_families(by_family)))
    shapes = tuple(map(_shape, samples(load(profiles))))
    return Gallery(
        words.TITLE,
        words.LINES,
        (pieces, Section(words.SHAPES, words.SHAPES_LINES, shapes)),
    )


def _shape(sample: Sample) -> Entry:
    picture = Picture(f"shape-{sample.word.replace(' ', '-')}", sample.drawing)
    title = sample.does[:1].upper() + sample.does[1:]
    return Entry(sample.word, title, "", (picture,), sample.keys, sample.written)


def _families(by_family: Mapping[str, list[Picture]]) -> Iterator[Entry]:
    for family, pictures in by_family.items():
        line = words.how_to_begin(family)
        yield Entry(family, PIECES[family].title, line, tuple(pictures))


def _picture(stem: str, made: job.Design) -> Picture:
    drawing = thumbnail(made.assembly, poses(made.assembly, made.study), ROOM)
    size: dict[str, Any] = sizes(made.assembly)
    overall = words.sizes(*(short(round(size[k])) for k in ("length", "width", "height")))
    boards = dict.fromkeys(part.board.name for part in made.assembly.parts.values())
    # Single parts are only laid out for the picture.
    caption = (made.assembly.name, *(() if made.assembly.loose else (overall,)), *boards)
    return Picture(f"piece-{stem}", drawing, caption)
