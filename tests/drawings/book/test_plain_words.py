"""What the book says of loads, sizes and glue, by what the piece is."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from flatpack import job
from flatpack.drawings.book import front, whole_book
from flatpack.drawings.book.content import Caution, Para
from flatpack.drawings.book.matter import Matter, matter
from flatpack.drawings.book.settings import BookSettings
from flatpack.drawings.book.steps import build_steps
from flatpack.drawings.book.work import work
from flatpack.drawings.settings import Settings
from flatpack.model import placed_corners
from flatpack.profile_files import profile_texts, read_text
from flatpack.profiles import load
from flatpack.wording import book_english_safety as words
from flatpack.wording import book_english_steps as said

FOLDER = Path(__file__).parents[3] / "profiles" / "pieces"
STANDING = ["compost-table", "gate-planter", "shed-spares", "cabin-box"]
SAT_ON = ["harvest-bench", "pond-lounger"]


@cache
def told(name: str) -> Matter:
    texts = profile_texts()
    made = job.with_strength(job.design(read_text(str(FOLDER / f"{name}.toml")), name, texts))
    drawing = Settings(
        workshop=load(texts).workshop("default"), code="QRST-1234", strength=made.strength
    )
    return matter(made.assembly, made.study, (), BookSettings(drawing=drawing))


def cautions(m: Matter) -> list[str]:
    return [b.text for b in front.safety(m).blocks if isinstance(b, Caution)]


@pytest.mark.parametrize("name", [*STANDING, *SAT_ON])
def test_loads_are_told_or_said_to_be_unknown(name: str) -> None:
    every = cautions(told(name))
    before, after = words.LOADS.split("{}")
    meant = [t[len(before) : -len(after)] for t in every if t.startswith(before)]
    assert all(len(t) > 5 for t in meant)
    assert len(meant) + every.count(words.NO_LOADS) == 1


def test_words_for_loads_come_from_what_lies_in_or_sits_on_the_piece() -> None:
    assert any("laid all over with" in t for t in cautions(told("compost-table")))
    assert any("wet soil" in t for t in cautions(told("gate-planter")))
    assert words.NO_LOADS in cautions(told("shed-spares"))
    assert any("persons" in t for t in cautions(told("harvest-bench")))


@pytest.mark.parametrize("name", STANDING)
def test_nobody_sits_on_a_piece_that_is_kept_off(name: str) -> None:
    m = told(name)
    every = cautions(m)
    assert words.USE_IT["standing"] in every
    said_of_test = next(t for t in every if t.startswith("The checks are sums"))
    assert "person who" not in said_of_test
    read = [b.text for b in front.about(m).blocks if isinstance(b, Para)]
    assert not any("sits on" in t or "{" in t for t in read)


def test_a_piece_is_as_wide_as_it_reaches_from_left_to_right() -> None:
    m = told("harvest-bench")
    corners = [c for p in m.assembly.parts.values() for c in placed_corners(p)]
    x, y = (max(c[i] for c in corners) - min(c[i] for c in corners) for i in (0, 1))
    assert y > x
    size = whole_book._facts(m)[4]
    assert size.startswith(f"{m.said(y)} wide from left to right, {m.said(x)} deep")


def test_only_steps_with_glue_speak_of_it() -> None:
    m = told("harvest-bench")
    for step in build_steps(m.assembly):
        every = tuple(work(m, step, False))
        glued = any(getattr(joint, "glue", False) for joint in step.joints)
        assert (said.DRY_FIT in every) == (glued and bool(step.new))
    bare = [replace(j, glue=False) if getattr(j, "glue", False) else j for j in m.assembly.joints]
    loose = m._replace(assembly=replace(m.assembly, joints=tuple(bare)))
    texts = [t for s in build_steps(loose.assembly) for t in work(loose, s, False)]
    assert said.CLAMP_FIRST in texts
    assert not any("without glue" in t for t in texts)
