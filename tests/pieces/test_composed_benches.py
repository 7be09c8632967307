"""The workshop-made benches rebuilt in TOML: equal parts, features, fasteners, bill and findings.

The referee is the bench's own family: another program path that was checked against solids, hand
sums and published limits of its own.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from flatpack import checks
from flatpack.batch.toml_text import toml_text
from flatpack.model import Assembly, Fastener, Part
from flatpack.parameters import read_design
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

HERE = Path(__file__).parent / "composed"
FAMILY = HERE / "family"
PROFILES = load(profile_texts())
BENCHES = ("crew-bench", "sprout-bench")
CLOSE = 1e-6


def built(raw: dict[str, Any]) -> Assembly:
    records = {key: PIECES[key].record for key in ("bench", "composed")}
    family, record = read_design(records, toml_text(raw), "x.toml", known=PROFILES.known)
    assert list(PIECES[family].conflicts(record, PROFILES)) == []
    return PIECES[family].build(record, PROFILES)


@cache
def both(name: str, measured: float | None = None) -> tuple[Assembly, Assembly]:
    """The family's bench and the composed one, their first board measured anew where told."""
    pair = []
    for folder in (FAMILY, HERE):
        raw = tomllib.loads((folder / f"{name}.toml").read_text(encoding="utf-8"))
        if measured is not None:
            boards = raw["boards"]
            for key in ("timber", "frames"):
                if key in boards:
                    boards[key] = {"profile": boards[key], "measured": measured}
        pair.append(built(raw))
    return pair[0], pair[1]


def numbers(part: Part) -> list[float]:
    f = part.frame
    rows: list[tuple[float, ...]] = [(*s.start, *s.end, s.bulge) for s in part.outline]
    return [n for row in (*rows, f.origin, f.x, f.y, f.z) for n in row]


def said(part: Part) -> tuple[object, ...]:
    return part.name, part.hand, part.group, part.board, part.arris, part.openings


def worked(part: Part) -> list[str]:
    return sorted(str(feature.key()) for feature in part.features)


def placed(f: Fastener) -> tuple[object, ...]:
    where = (round(n, 5) + 0.0 for n in (*f.start, *f.direction, f.length, f.bite or 0.0))
    return f.kind, f.item, f.size, f.passes, f.step, *where


def told(assembly: Assembly) -> list[tuple[object, ...]]:
    """Findings without joints' names, and without the key that a measure of comfort names."""
    names = {
        f.key: str((f.passes, *(round(n, 4) + 0.0 for n in f.start))) for f in assembly.fasteners
    }
    rows = []
    for f in checks.run(assembly):
        text = f"{'' if f.code == 'comfort' else f.part}: {f.message}"
        for key, place in names.items():
            text = text.replace(key, place)
        rows.append((f.severity, f.code, text, f.measured, f.limit, f.unit, f.source))
    return sorted(rows, key=str)


def differences(one: Assembly, other: Assembly) -> list[str]:
    """What isn't equal, in words."""
    found = [f"only one has {key}" for key in sorted(one.parts.keys() ^ other.parts.keys())]
    for key in one.parts.keys() & other.parts.keys():
        a, b = one.parts[key], other.parts[key]
        if numbers(a) != pytest.approx(numbers(b), abs=CLOSE):
            found.append(f"{key}: outline or place")
        if said(a) != said(b):
            found.append(f"{key}: {said(a)} / {said(b)}")
        if worked(a) != worked(b):
            found.append(f"{key}: features")
    rows, others = (sorted(map(str, map(placed, a.fasteners))) for a in (one, other))
    if rows != others:
        found.append("fasteners")
    if one.hardware != other.hardware:
        found.append("hardware")
    if told(one) != told(other):
        found.append("findings")
    return found


@pytest.mark.parametrize("name", BENCHES)
def test_composed_bench_equals_the_familys_own(name: str) -> None:
    one, other = both(name)
    assert len(one.parts) > 20
    assert len(one.fasteners) > 60
    assert differences(one, other) == []


@pytest.mark.parametrize(("name", "measured"), [("crew-bench", 25.5), ("sprout-bench", 18.4)])
def test_both_follow_the_measured_thickness_alike(name: str, measured: float) -> None:
    one, other = both(name, measured)
    assert differences(one, other) == []
    assert differences(one, both(name)[0]) != []


@pytest.mark.parametrize(
    ("table", "key", "value"),
    [
        ("post", "leans", 13.9),
        ("cleat", "rear", "post.front at seat-rail.bottom less 7.1"),
        ("slat", "gap", 30),
        ("arm", "top", "arm-top plus 1"),
    ],
)
def test_one_wrong_value_is_seen(table: str, key: str, value: object) -> None:
    raw = tomllib.loads((HERE / "crew-bench.toml").read_text(encoding="utf-8"))
    raw["parts"][table][key] = value
    records = {"composed": PIECES["composed"].record}
    _, record = read_design(records, toml_text(raw), "x.toml", known=PROFILES.known)
    if list(PIECES["composed"].conflicts(record, PROFILES)):
        return  # seen even sooner
    assert differences(both("crew-bench")[0], PIECES["composed"].build(record, PROFILES)) != []


def test_one_wrong_joint_is_seen() -> None:
    raw = tomllib.loads((HERE / "crew-bench.toml").read_text(encoding="utf-8"))
    raw["joints"][4]["height"] = ["lap-middle less 67", "under-seat less 38.075"]
    found = differences(both("crew-bench")[0], built(raw))
    assert "fasteners" in found
    assert "post-left: features" in found
