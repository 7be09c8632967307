"""Templates, story sticks and labels of the lounger as PDF and SVG, beside its whole DXF set."""

from __future__ import annotations

import pytest

from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.registry import drawings
from flatpack.drawings.settings import Settings
from flatpack.drawings.templates import PrintSettings, template_sheets
from flatpack.model import Assembly
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import Workshop, load
from flatpack.writers.registry import render


@pytest.fixture(scope="module")
def made() -> tuple[Assembly, Workshop]:
    profiles = load(profile_texts())
    record = PIECES["lounger"].record()
    return PIECES["lounger"].build(record, profiles), profiles.workshop(record.workshop)


def templates(piece: Assembly, form: str) -> int:
    files, _ = template_sheets(piece, PrintSettings())
    return sum(len(render(f, DEFAULT_LAYERS, "R2010")) for f in files if f.format == form)


@pytest.mark.parametrize("form", ["pdf", "svg"])
def test_templates_of_the_lounger(benchmark, made, form: str) -> None:
    assert benchmark(templates, made[0], form) > 100_000


def dxf_set(piece: Assembly, shop: Workshop) -> int:
    sheets = [s for s in drawings(piece, Settings(workshop=shop)) if s.format == "dxf"]
    return sum(len(render(s, DEFAULT_LAYERS, "R2010")) for s in sheets)


def test_dxf_set_of_the_lounger(benchmark, made) -> None:
    assert benchmark(dxf_set, *made) > 100_000
