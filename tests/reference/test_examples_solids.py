"""All examples against two general-purpose libraries that share no code with the product.

manifold3d builds every part, bar and fastener as a solid and intersects all pairs: nothing shares
room but what is meant to (a fastener lists the parts it may lie in).  shapely measures areas and
lengths of every outline at a fine sagitta.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import NamedTuple

import manifold3d
import numpy as np
import pytest
from shapely import Polygon

from flatpack.geometry import Frame, Outline, Vec
from flatpack.geometry.shapes import disc
from flatpack.mechanism.study import Study, study
from flatpack.model import Assembly, Part, posed, volume
from flatpack.parameters import read_design
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts, read_text
from flatpack.profiles import load

from .sawn_solids import trimmed

FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"
NAMES = sorted(path.stem for path in FOLDER.glob("*.toml"))
SEATS = [name for name in NAMES if name.endswith(("-bench", "-lounger"))]
LIFTED = [name for name in NAMES if name.endswith(("-lounger", "-box"))]
SAGITTA = 0.004
"""Chords lie this near to true arcs, mm; the least play of a hole is 0.1 mm a side."""
TOUCHING = 1.0
"""Volume that two solids may share by the chords of their arcs alone, mm3."""


class Body(NamedTuple):
    owner: str
    solid: manifold3d.Manifold
    inside: frozenset[str]


@cache
def piece(name: str) -> Assembly:
    profiles = load(profile_texts())
    records = {family: PIECES[family].record for family in PIECES}
    text = read_text(str(FOLDER / f"{name}.toml"))
    family, record = read_design(records, text, name, known=profiles.known)
    return PIECES[family].build(record, profiles)


@cache
def studied(name: str) -> Study:
    made = study(piece(name))
    assert made is not None
    return made


@cache
def prism(outline: Outline, low: float, high: float) -> manifold3d.Manifold:
    points = np.array(outline.sampled(SAGITTA), dtype=np.float64)
    section = manifold3d.CrossSection([points])
    return manifold3d.Manifold.extrude(section, high - low).translate((0.0, 0.0, low))


def placed(solid: manifold3d.Manifold, frame: Frame) -> manifold3d.Manifold:
    return solid.transform(np.array((frame.x, frame.y, frame.z, frame.origin)).T)


def part_solid(part: Part) -> manifold3d.Manifold:
    """The board less its openings, all that is cut square to its faces, and its slanting cuts."""
    made = prism(part.outline, 0.0, part.thickness)
    for opening in part.openings:
        made -= prism(opening, -1.0, part.thickness + 1.0)
    for feature in part.features:
        for cut in feature.cuts(part.thickness):
            low = cut.low - (1.0 if cut.low <= 0.0 else 0.0)
            made -= prism(cut.outline, low, cut.high + (1.0 if cut.high >= part.thickness else 0.0))
    return trimmed(made, part)


def bodies(whole: Assembly) -> Iterator[Body]:
    for part in whole.parts.values():
        yield Body(part.key, placed(part_solid(part), part.frame), frozenset())
    for bar in whole.bars.values():
        round_bar = prism(disc(bar.stock.diameter / 2.0), 0.0, bar.length)
        yield Body(bar.key, placed(round_bar, bar.frame), frozenset())
    for fastener in whole.fasteners:
        for solid in fastener.solids:
            made = placed(prism(solid.outline, solid.low, solid.high), solid.frame)
            yield Body(fastener.key, made, frozenset(fastener.inside))


def sharing(whole: Assembly) -> tuple[dict[str, float], int]:
    """Pairs of owners that share more than a touch, with the volume; how many were near."""
    some = list(bodies(whole))
    boxes = np.array([body.solid.bounding_box() for body in some])
    found: dict[str, float] = {}
    pressed = {frozenset((f.part, f.onto)) for f in whole.fits if f.clearance < 0.0}
    near = 0
    for i, a in enumerate(some):
        close = (boxes[i + 1 :, :3] < boxes[i, 3:] + 0.1) & (
            boxes[i, :3] < boxes[i + 1 :, 3:] + 0.1
        )
        for j in np.nonzero(close.all(axis=1))[0] + i + 1:
            b = some[j]
            if a.owner == b.owner or a.owner in b.inside or b.owner in a.inside:
                continue
            near += 1
            shared = (a.solid ^ b.solid).volume()
            # How much pressed parts share is tested with the fits.
            if shared > TOUCHING and frozenset((a.owner, b.owner)) not in pressed:
                found[f"{a.owner} / {b.owner}"] = shared
    return found, near


@pytest.mark.parametrize("name", NAMES)
def test_nothing_shares_room(name: str) -> None:
    whole = piece(name)
    found, near = sharing(whole)
    assert found == {}
    # Each part of a piece touches another one; loose parts lie apart.
    assert near == 0 if whole.loose else near >= len(whole.parts) - 1


@pytest.mark.parametrize("name", LIFTED)
@pytest.mark.parametrize("stop", [0, -1])
def test_nothing_shares_room_with_the_back_up(name: str, stop: int) -> None:
    at = studied(name).found.stops[stop]
    found, near = sharing(posed(piece(name), at.angle, at.rod))
    assert found == {}
    assert near > 30


@pytest.mark.parametrize("name", SEATS)
def test_a_slat_let_in_by_0_2_mm_is_seen(name: str) -> None:
    """Its whole bearing 0.2 deep: boards' thickness x slat's width on each side."""
    whole = piece(name)
    slat = whole.parts["slat-2"]
    lower = replace(slat, frame=replace(slat.frame, origin=slat.frame.origin.plus(Vec(0, 0, -0.2))))
    found, _ = sharing(replace(whole, parts={**whole.parts, "slat-2": lower}))
    under = [pair for pair in found if "slat-2" in pair.split(" / ") and "/" in pair]
    parts = [p for p in under if all(side in whole.parts for side in p.split(" / "))]
    assert parts
    for pair in parts:
        other = whole.parts[next(key for key in pair.split(" / ") if key != "slat-2")]
        assert found[pair] <= 0.2 * slat.width * other.thickness + TOUCHING


@pytest.mark.parametrize("name", NAMES)
def test_areas_and_lengths_of_all_outlines(name: str) -> None:
    """At a sagitta of 0.0001 mm a chord's area falls short by less than two thirds of it a mm."""
    sagitta = 1e-4
    for part in piece(name).parts.values():
        polygon = Polygon(part.outline.sampled(sagitta))
        length = sum(segment.length for segment in part.outline)
        assert part.outline.area == pytest.approx(polygon.area, abs=sagitta * length)
        assert length == pytest.approx(polygon.length, abs=0.01)
        assert polygon.exterior.is_ccw
        assert polygon.is_valid


@pytest.mark.parametrize("name", NAMES)
def test_volumes_of_parts(name: str) -> None:
    """The wood as weighed, less round holes through: pi d^2 / 4 by thickness each."""
    for part in piece(name).parts.values():
        through = [f for f in part.features if f.operation == "drill-through"]
        if len(through) == sum(bool(f.cuts(part.thickness)) for f in part.features):
            holes = sum(np.pi / 4.0 * f.diameter**2 for f in through)  # type: ignore[attr-defined]  # a hole
            by_hand = volume(part) - holes * part.thickness
            assert part_solid(part).volume() == pytest.approx(by_hand, rel=2e-4)
