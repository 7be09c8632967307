"""The whole travel of each example lounger against a solid-modelling library at 50 positions.

manifold3d builds the pieces as solids, moved to 50 positions of the travel: up, over, lifted,
lowered and folded.  Its volumes in common and least gaps are compared with the sweep's continuous
ones: no pair may come nearer in any position than the sweep says it ever does, and where the
sweep says that a pair comes nearest, the library finds that gap.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import manifold3d
import numpy as np
import pytest

from flatpack.geometry import Frame, Outline
from flatpack.geometry.shapes import disc, rectangle
from flatpack.mechanism.path import Phase, Stand, at_angle
from flatpack.mechanism.study import Study, study
from flatpack.mechanism.sweep import Clash, Clearance
from flatpack.model import Assembly, posed
from flatpack.parameters import read_design
from flatpack.parameters import replace as changed
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts, read_text
from flatpack.profiles import load

FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"
LIFTED = sorted(
    path.stem for path in FOLDER.glob("*.toml") if path.stem.endswith(("-lounger", "-box"))
)
LOUNGERS = [name for name in LIFTED if name.endswith("-lounger")]
POSITIONS = 50
SAGITTA = 0.002
CLOSE = 0.01
"""Both ways, mm: twice the sagitta and what the library rounds."""
REACH = 12.0
"""Gaps up to this are measured, mm."""
SEEN = ("coach bolt", "hinge", "wheel")
Solids = Mapping[str, manifold3d.Manifold]


@cache
def piece(name: str, gap_less: float = 0.0) -> Assembly:
    profiles = load(profile_texts())
    records = {family: PIECES[family].record for family in PIECES}
    text = read_text(str(FOLDER / f"{name}.toml"))
    family, record = read_design(records, text, name, known=profiles.known)
    whole = PIECES[family].build(record, profiles)
    if gap_less:
        assert whole.motion is not None
        hinge = changed(record.hinge, gap=whole.motion.gap - gap_less)
        whole = PIECES[family].build(changed(record, hinge=hinge), profiles)
    return whole


@cache
def studied(name: str, gap_less: float = 0.0) -> Study:
    made = study(piece(name, gap_less))
    assert made is not None
    return made


@cache
def prism(outline: Outline, low: float, high: float) -> manifold3d.Manifold:
    points = np.array(outline.sampled(SAGITTA), dtype=np.float64)
    section = manifold3d.CrossSection([points])
    return manifold3d.Manifold.extrude(section, high - low).translate((0.0, 0.0, low))


def placed(solid: manifold3d.Manifold, frame: Frame) -> manifold3d.Manifold:
    return solid.transform(np.array((frame.x, frame.y, frame.z, frame.origin)).T)


def bodies(whole: Assembly) -> Iterator[tuple[str, manifold3d.Manifold]]:
    """Left half of the piece and all that crosses its middle; the right half is its mirror."""
    for part in whole.parts.values():
        if not part.key.endswith("-right"):
            yield part.key, placed(prism(part.outline, 0.0, part.thickness), part.frame)
    for bar in whole.bars.values():
        yield bar.key, placed(prism(disc(bar.stock.diameter / 2.0), 0.0, bar.length), bar.frame)
    for fastener in whole.fasteners:
        if fastener.kind in SEEN and "right" not in fastener.key:
            for solid in fastener.solids:
                made = prism(solid.outline, solid.low, solid.high)
                yield solid.name, placed(made, solid.frame)


def positions(made: Study) -> list[Stand]:
    """Evenly over the stretches of the travel, by angle and the rod's way."""
    assert made.path is not None
    dense = [s.at(k / 40.0) for s in made.path.stretches for k in range(41)]
    way = [0.0]
    for a, b in pairwise(dense):
        way.append(
            way[-1] + abs(a.degrees - b.degrees) * 4.0 + np.hypot(*np.subtract(a.rod, b.rod))
        )
    wanted = np.linspace(0.0, way[-1], POSITIONS)
    return [dense[int(np.searchsorted(way, w - 1e-9))] for w in wanted]


def gap(one: manifold3d.Manifold, other: manifold3d.Manifold) -> float:
    """Least gap, or less than 0 where the two share room."""
    a, b = np.array(one.bounding_box()), np.array(other.bounding_box())
    if (a[:3] > b[3:] + REACH).any() or (b[:3] > a[3:] + REACH).any():
        return REACH
    volume = (one ^ other).volume()
    return -volume if volume > 1.0 else float(one.min_gap(other, REACH))


def pairs(made: Study, there: Solids) -> Iterator[Any]:
    """The sweep's results for bodies that the library has, nearest first."""
    for result in made.swept:
        if result.first in there and result.second in there:
            yield result


def in_pose(whole: Assembly, stand: Stand) -> Solids:
    return dict(bodies(posed(whole, stand.degrees, stand.rod)))


@pytest.mark.parametrize("name", LIFTED)
def test_no_pair_comes_nearer_than_the_sweep_says(name: str) -> None:
    made, whole = studied(name), piece(name)
    compared = 0
    stands = positions(made)
    assert len(stands) == POSITIONS
    for stand in stands:
        there = in_pose(whole, stand)
        for result in pairs(made, there):
            assert isinstance(result, Clearance)
            found = gap(there[result.first], there[result.second])
            compared += found < REACH
            assert found >= min(result.least, REACH) - CLOSE, (result, stand)
    assert compared > 150


def of_parts(result: Any) -> bool:
    return not any(mark in result.first + result.second for mark in " /")


@pytest.mark.parametrize("name", LIFTED)
def test_the_nearest_place_is_where_the_sweep_says(name: str) -> None:
    """For gaps on the way up, where the position follows from the angle alone."""
    made, whole = studied(name), piece(name)
    assert made.path is not None
    some = [
        r for r in made.swept
        if isinstance(r, Clearance) and r.phase is Phase.RAISING and 0.0 < r.least < 10.0
        and not r.beyond and of_parts(r) and not (r.first + r.second).endswith("right")
    ]  # fmt: skip
    checked = 0
    for result in some:
        there = in_pose(whole, at_angle(made.path, result.degrees))
        if result.first in there and result.second in there:
            checked += 1
            found = gap(there[result.first], there[result.second])
            assert found == pytest.approx(result.least, abs=0.05), result
    assert checked > 1


@pytest.mark.parametrize("name", LOUNGERS)
def test_a_gap_4_mm_less_clashes_for_both(name: str) -> None:
    made, whole = studied(name, 4.0), piece(name, 4.0)
    clashes = [r for r in made.swept if isinstance(r, Clash)]
    assert [r.second for r in clashes] == ["back-slat-1"]
    assert made.path is not None
    (clash,) = clashes
    there = in_pose(whole, at_angle(made.path, clash.degrees))
    assert gap(there[clash.first], there[clash.second]) < 0.0
    before = in_pose(whole, at_angle(made.path, clash.starts - 0.2))
    assert 0.0 <= gap(before[clash.first], before[clash.second]) < 0.2


def test_a_part_in_the_way_is_found_by_both() -> None:
    """The left brace made 20 mm deeper runs into the rod."""
    whole = piece("pond-lounger")
    brace = whole.parts["brace-left"]
    x0, y0, x1, y1 = brace.outline.bounds
    deeper = replace(brace, outline=rectangle(x1 - x0, y1 - y0 + 20.0, x0, y0 - 20.0))
    broken = replace(whole, parts={**whole.parts, brace.key: deeper})
    made = study(broken)
    assert made is not None
    found = {frozenset((r.first, r.second)) for r in made.swept if isinstance(r, Clash)}
    by_library = set()
    for stand in positions(made)[::7]:
        there = in_pose(broken, stand)
        if gap(there["brace-left"], there["rod"]) < 0.0:
            by_library.add(frozenset(("brace-left", "rod")))
    assert by_library == {frozenset(("brace-left", "rod"))}
    assert by_library <= found
