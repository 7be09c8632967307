"""What every check is given: the piece, the limits, and what is worked out once for all checks."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import Any

from flatpack.checks.axes import Line, lines, offsets
from flatpack.checks.body import Body, bodies
from flatpack.checks.bored import Bored, bored
from flatpack.checks.footprint import footprint
from flatpack.checks.limits import Limits
from flatpack.frozen import frozen
from flatpack.geometry.polygon import grown, mended, polygon
from flatpack.mechanism.study import Study, study
from flatpack.model import Assembly, Fastener, Part, outline_at

DRAWN = 0.02
"""Chords of two arcs may stand this far apart though the arcs agree, mm."""


@frozen(kw_only=False)
class Setting:
    """The piece in one pose, and the limits it is held to."""

    assembly: Assembly
    limits: Limits
    known: Study | None = None

    @cached_property
    def study(self) -> Study | None:
        """All about its moving back; None for a piece that stands still."""
        return study(self.assembly) if self.known is None else self.known

    @cached_property
    def bored(self) -> dict[str, tuple[Bored, ...]]:
        """Holes of every part, by the part's key."""
        return {key: bored(part) for key, part in self.assembly.parts.items()}

    @cached_property
    def lines(self) -> tuple[tuple[Line, tuple[str, ...]], ...]:
        """Every fastener's and bar's axis with the parts that it passes."""
        return tuple(lines(self.assembly))

    @cached_property
    def bodies(self) -> tuple[Body, ...]:
        """Everything that takes up room."""
        return bodies(self.assembly, self.bored)

    @cached_property
    def offsets(self) -> dict[tuple[str, str], tuple[float, ...]]:
        """(axis's key, part's key) -> how far each of the part's holes stands off the axis, mm."""
        passing: dict[str, list[Line]] = {}
        for line, keys in self.lines:
            for key in keys:
                passing.setdefault(key, []).append(line)
        return {
            (line.key, key): found
            for key, some in passing.items()
            for line, found in zip(
                some, offsets(self.assembly.parts[key], self.bored[key], some), strict=True
            )
        }

    @cached_property
    def users(self) -> dict[tuple[str, int], Line]:
        """(part's key, feature's number) -> the axis that the hole lies on."""
        found: dict[tuple[str, int], Line] = {}
        for line, keys in self.lines:
            for key in keys:
                for hole, off in zip(self.bored[key], self.offsets[line.key, key], strict=True):
                    if off <= self.limits.in_line.value:
                        found.setdefault((key, hole.number), line)
        return found

    @cached_property
    def fasteners(self) -> dict[str, Fastener]:
        """Fasteners by key."""
        return {f.key: f for f in self.assembly.fasteners}

    @cached_property
    def joints(self) -> dict[str, Any]:
        """Joints by key."""
        return {joint.key: joint for joint in self.assembly.joints}

    @cached_property
    def distinct(self) -> tuple[tuple[Part, tuple[str, ...]], ...]:
        """Each kind of part once, with the keys of all that are alike in shape and work."""
        alike: dict[object, list[str]] = {}
        for key, part in self.assembly.parts.items():
            alike.setdefault(_shape_key(part), []).append(key)
        parts = self.assembly.parts
        return tuple((parts[keys[0]], tuple(keys)) for keys in alike.values())

    @cached_property
    def _polygons(self) -> dict[object, Any]:
        return {}

    def face(self, part: Part) -> Any:
        """Polygon of a part's face, openings taken out, in its own axes."""
        key = part.outline, part.openings
        found = self._polygons.get(key)
        if found is None:
            found = mended(polygon(part.outline, holes=part.openings))
            self._polygons[key] = found
        return found

    def edge(self, part: Part) -> Any:
        """Boundary of a part's face, openings included."""
        key = "edge", part.outline, part.openings
        found = self._polygons.get(key)
        if found is None:
            found = self._polygons[key] = self.face(part).boundary
        return found

    def wood(self, part: Part, *heights: float) -> Any:
        """Polygon of what is there of a part at all of some heights, openings taken out."""
        whole = self.face(part)
        if not part.planes:
            return whole
        key = "wood", part.key, heights
        found = self._polygons.get(key)
        if found is None:
            for height in heights:
                whole = whole.intersection(polygon(outline_at(part, height)))
            found = self._polygons[key] = whole
        return found

    def around(self, part: Part, heights: tuple[float, ...]) -> Any:
        """The same, larger by as much as chords of true arcs may stand off them."""
        key = "around", part.key, heights if part.planes else ()
        found = self._polygons.get(key)
        if found is None:
            found = self._polygons[key] = grown(self.wood(part, *heights), DRAWN)
        return found

    def rim(self, part: Part, *heights: float) -> Any:
        """Boundary of what is there at all of some heights, openings included."""
        return self.wood(part, *heights).boundary if part.planes else self.edge(part)

    def footprint(self, part: Part, hole: Bored) -> Any:
        """Polygon of a hole on its part's face."""
        key = part.key, hole.number
        found = self._polygons.get(key)
        if found is None:
            found = self._polygons[key] = footprint(part, hole)
        return found

    def __iter__(self) -> Iterator[Part]:
        """Parts in the order of the piece."""
        return iter(self.assembly.parts.values())


def _shape_key(part: Part) -> object:
    worked = tuple(f.key() for f in part.features)
    return part.name, part.hand, part.board.key, part.thickness, part.outline, part.openings, worked


def alike(keys: tuple[str, ...]) -> str:
    """Words for the parts that a finding also holds for."""
    return "" if len(keys) == 1 else f" (also {', '.join(keys[1:])})"
