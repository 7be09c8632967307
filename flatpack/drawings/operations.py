"""Operations of a part for the shop: what is done on each layer, how deep, how often."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.faces import one_sided, worked_faces
from flatpack.drawings.figures import mm
from flatpack.drawings.holes import depth_of, size_of
from flatpack.drawings.marks import PartGroup
from flatpack.frozen import frozen
from flatpack.model import Feature
from flatpack.wording import english as words


@frozen(kw_only=False)
class Operation:
    """Like features of a part: layer key, face, words, diameter and depth as shown, how many."""

    layer: str
    face: str
    what: str
    diameter: str
    depth: str
    count: int
    fit: str
    purposes: tuple[str, ...]

    def brief(self) -> str:
        """E.g. 'drill through Ø8.5 (2)'."""
        size = f" Ø{self.diameter}" if self.diameter else ""
        deep = f" x {self.depth}" if self.depth[:1].isdigit() else ""
        return f"{self.what}{size}{deep} ({self.count})"


def distinct_features(group: PartGroup) -> tuple[Feature, ...]:
    """Features of a part, a hole that two joints share counted once."""
    return tuple({f.key(): f for f in group.part.features}.values())


def operations(group: PartGroup, mark_show_face: bool = False) -> tuple[Operation, ...]:
    """Outline and openings first, then features by layer, face, size and depth.

    A mark is engraved where the back face lies up, on show faces only with `mark_show_face`.
    """
    return (*_edges(group), *_mark(group, mark_show_face), *_features(group))


def _edges(group: PartGroup) -> Iterator[Operation]:
    part = group.part
    through = mm(part.thickness)
    face = worked_faces(part)[0]
    yield Operation("outline", face, words.OPERATIONS["outline"], "", through, 1, "", ())
    if part.openings:
        many = len(part.openings)
        yield Operation("opening", face, words.OPERATIONS["opening"], "", through, many, "", ())
    if part.arris:
        what = words.ease(mm(part.arris))
        yield Operation("arris", words.BOTH, what, "", "", 1, "", ())


def _mark(group: PartGroup, mark_show_face: bool) -> Iterator[Operation]:
    face = worked_faces(group.part)[0]
    if mark_show_face or face == "back":
        yield Operation("part-mark", face, words.OPERATIONS["part-mark"], "", "", 1, "", ())


def _features(group: PartGroup) -> Iterator[Operation]:
    alike: dict[tuple[str, ...], list[Feature]] = {}
    for feature in distinct_features(group):
        alike.setdefault(_kind(feature), []).append(feature)
    for (layer, face, size, depth, fit, said), same in sorted(alike.items()):
        purposes = tuple(dict.fromkeys(f.purpose for f in same if f.purpose))
        what = ": ".join(t for t in (words.OPERATIONS.get(layer, layer), said) if t)
        yield Operation(layer, face, what, size, depth, len(same), fit, purposes)


def _kind(feature: Feature) -> tuple[str, ...]:
    size = size_of(feature)
    face = feature.face if one_sided(feature) else words.EITHER
    fit = str(getattr(feature, "fit", ""))
    said = feature.callout() if feature.operation == "bevel" else ""
    return feature.operation, face, "" if size is None else mm(size), depth_of(feature), fit, said
