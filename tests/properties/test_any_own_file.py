"""Composed and loose-parts files changed at random: refused with reasons, or built and judged."""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from flatpack import checks
from flatpack.batch.toml_text import toml_text
from flatpack.errors import FaultsError
from flatpack.finding import ORDER
from flatpack.parameters import read_design, template
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
FAMILIES = {key: PIECES[key] for key in ("composed", "loose-parts")}
RECORDS = {key: one.record for key, one in FAMILIES.items()}
FOLDER = Path(__file__).parents[2] / "profiles" / "pieces"
TEXTS = [
    *(template(one.record, key) for key, one in FAMILIES.items()),
    *((FOLDER / f"{name}.toml").read_text(encoding="utf-8")
      for name in ("plum-trug", "beanpole-rack", "shed-spares")),
]  # fmt: skip
FILES: list[dict[str, Any]] = [tomllib.loads(text) for text in TEXTS]
NUMBERS = (0, -5, 1, 3.5, 15, 45, 90, 300, 1e6, True)
WORDS = (
    "", "front", "up", "right", "none", "disc", "polygon", "slats", "round bar", "pair", "side.top",
    "leg.top", "piece.middle", "slat", "end.middle less 20", "side.front at 100", "x plus 5",
    "height less timber.thickness", "a less b less c", "screws", "bolts", "hinges", "halving",
    "wedged tenons", "bar", "wheels", "glue",
)  # fmt: skip
KEYS = (
    "front", "rear", "left", "right", "top", "bottom", "mid_depth", "mid_width", "mid_height",
    "leans", "leans_to", "leans_with", "turned", "pair", "copies", "step", "step_to", "length",
    "width", "like", "count", "loose", "on", "tenon", "diameter", "points", "slides", "hands",
    "slants",
)  # fmt: skip


def spots(values: Any) -> Iterator[tuple[Any, Any]]:
    """Every table and array with each of its keys."""
    for key in values if isinstance(values, dict) else range(len(values)):
        yield values, key
        if isinstance(values[key], (dict, list)):
            yield from spots(values[key])


def changed(raw: dict[str, Any], chance: Random) -> dict[str, Any]:
    """The file with one or two values replaced, taken away or added."""
    made = copy.deepcopy(raw)
    for _ in range(chance.choice((1, 1, 1, 2))):
        every = list(spots(made))
        holder, key = chance.choice(every)
        some_holder, some_key = chance.choice(every)
        some = copy.deepcopy(some_holder[some_key])
        value = chance.choice((chance.choice(NUMBERS), chance.choice(WORDS), some, []))
        if isinstance(holder, dict) and chance.random() < 0.3:
            key = chance.choice(KEYS)
        if isinstance(holder, dict) and chance.random() < 0.15:
            holder.pop(key, None)
        else:
            holder[key] = value
    return made


def read(text: str) -> tuple[list[Any], str, Any]:
    """What is wrong with a file, and what it holds."""
    try:
        family, record = read_design(RECORDS, text, "x.toml", known=PROFILES.known)
    except FaultsError as errors:
        return list(errors.faults), "", None
    return list(FAMILIES[family].conflicts(record, PROFILES)), family, record


@settings(
    deadline=None, derandomize=True, database=None, max_examples=120,
    suppress_health_check=list(HealthCheck),
)  # fmt: skip
@given(file=st.sampled_from(range(len(FILES))), seed=st.integers(0, 2**32))
def test_refused_with_reasons_or_built_and_judged(file: int, seed: int) -> None:
    text = toml_text(changed(FILES[file], Random(seed)))
    refused, family, record = read(text)
    for one in refused:
        assert one.message
        assert one.allowed or one.value
    if not refused:
        for finding in checks.run(FAMILIES[family].build(record, PROFILES)):
            assert finding.severity in ORDER
            assert finding.message


@pytest.mark.parametrize("file", range(len(FILES)))
def test_the_files_themselves_are_sound(file: int) -> None:
    family, record = read_design(RECORDS, toml_text(FILES[file]), "x", known=PROFILES.known)
    assert list(FAMILIES[family].conflicts(record, PROFILES)) == []
