"""The content code counts what strength is judged by: loads and materials."""

from __future__ import annotations

from pathlib import Path

import pytest

from flatpack import job
from flatpack.profile_files import profile_texts, read_text

BENCH = Path(__file__).parents[2] / "profiles" / "pieces" / "sprout-bench.toml"


def code(**edits: tuple[str, str]) -> str:
    """Content code with some profile's text changed: its file's end -> (old, new)."""
    texts = dict(profile_texts())
    for end, (old, new) in edits.items():
        (path,) = (p for p in texts if p.endswith(end))
        assert old in texts[path]
        texts[path] = texts[path].replace(old, new, 1)
    return job.design(read_text(str(BENCH)), BENCH.name, texts).code


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("loads/bench.toml", "person = 110", "person = 120"),
        ("materials/c14.toml", "bending = 14", "bending = 13"),
        ("materials/screw-wire.toml", "tensile = 600", "tensile = 700"),
        ("materials/bolt-4-6.toml", "proof = 240", "proof = 230"),
    ],
)
def test_another_load_or_strength_has_another_code(file: str, old: str, new: str) -> None:
    assert code(**{file: (old, new)}) != code()


def test_what_the_piece_has_no_use_for_leaves_the_code() -> None:
    # The bench is of solid softwood, and no lounger.
    assert code(**{"materials/d40.toml": ("bending = 40", "bending = 41")}) == code()
    assert code(**{"loads/lounger.toml": ("person = 110", "person = 120")}) == code()
