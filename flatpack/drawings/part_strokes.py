"""One part seen square on a face: outline, openings, what is worked, engraved mark."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.boxes import box_of
from flatpack.drawings.faces import one_sided
from flatpack.drawings.mark_place import placed_mark
from flatpack.drawings.shapes import Closed, Stroke
from flatpack.drawings.turned import Seen
from flatpack.model import Face, Feature, Part

_LEFT_ALONE = frozenset({"centre-line", "hidden-edge", "thin-line"})


def worked(part: Part, face: Face, seen: Seen) -> tuple[Stroke, ...]:
    """Everything cut or marked from `face`; work on the other face in hidden lines."""
    edges = (
        Stroke("outline", Closed(seen.outline(part.outline))),
        *(Stroke("opening", Closed(seen.outline(o))) for o in part.openings),
    )
    return (*edges, *_features(part, face, seen, first=True))


def second_face(part: Part, face: Face, seen: Seen) -> tuple[Stroke, ...]:
    """Only what is still to be worked from `face`, once the first face is done."""
    edges = (
        Stroke("thin-line", Closed(seen.outline(part.outline))),
        *(Stroke("thin-line", Closed(seen.outline(o))) for o in part.openings),
    )
    return (*edges, *_features(part, face, seen, first=False))


def mark_strokes(
    part: Part, mark: str, seen: Seen, strokes: tuple[Stroke, ...], layer: str
) -> tuple[Stroke, ...]:
    """The mark inside the part, on `layer`, clear of what is drawn."""
    taken = [box_of(s.shape) for s in strokes if s.layer not in ("outline", "thin-line")]
    taken += [seen.box(o.bounds) for o in part.openings]
    paths = placed_mark(mark, seen.outline(part.outline), taken, not seen.mirrored)
    return tuple(Stroke(layer, path) for path in paths)


def _features(part: Part, face: Face, seen: Seen, first: bool) -> Iterator[Stroke]:
    done: set[tuple[object, ...]] = set()
    for feature in part.features:
        key = feature.key()
        if key in done:  # two joints may share one hole
            continue
        done.add(key)
        for layer, shape in feature.shapes():
            yield Stroke(_layer(feature, layer, face, first), seen.shape(shape))


def _layer(feature: Feature, layer: str, face: Face, first: bool) -> str:
    if layer in _LEFT_ALONE:
        return layer
    if one_sided(feature):
        return layer if feature.face == face else "hidden-edge"
    return layer if first else "thin-line"
