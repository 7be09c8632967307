"""The chapter on strength and safety: it opens with what wasn't judged, whatever the piece is."""

from __future__ import annotations

from functools import cache

import pytest

from flatpack.checks import safety
from flatpack.checks.safety.asked import Asked
from flatpack.drawings.book.content import Caution, Chapter, Figure, Items, Para, Rows
from flatpack.drawings.book.holding import holding
from flatpack.drawings.book.matter import matter
from flatpack.drawings.book.settings import BookSettings
from flatpack.drawings.settings import Settings
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load
from flatpack.strength import Report, report
from flatpack.strength.basis import loads_of
from flatpack.wording import book_english_strength as words

FAMILIES = ["lounger", "bench", "side-table", "planter", "sheet-stool", "composed"]


@cache
def made(family: str, judged: bool = True) -> tuple[Chapter, Report]:
    profiles = load(profile_texts())
    piece = PIECES[family]
    record = piece.record()
    assembly = piece.build(record, profiles)
    found = report(assembly, record, profiles)
    loads = loads_of(assembly, record, profiles)
    told = tuple(safety.findings(Asked(assembly, None, profiles, found, loads)))
    drawing = Settings(
        workshop=profiles.workshop("default"), code="QRST-1234", strength=found if judged else None
    )
    settings = BookSettings(
        drawing=drawing, glue=profiles.get("glues", "pu-d4"),
        finish=profiles.get("finishes", "stain"), sealer=profiles.get("finishes", "sealer"),
    )  # fmt: skip
    return holding(matter(assembly, None, told, settings)), found


def table(chapter: Chapter, caption: str) -> Rows | None:
    return next((b for b in chapter.blocks if isinstance(b, Rows) and b.caption == caption), None)


@pytest.mark.parametrize("family", FAMILIES)
def test_it_opens_with_what_was_not_judged(family: str) -> None:
    chapter, found = made(family)
    first = chapter.blocks[0]
    assert isinstance(first, Para)
    assert f"{len(found.open_joints)} of {len(found.joints)} joints not judged" in first.text
    open_ = table(chapter, words.OPEN_CAPTION)
    assert open_ is not None
    assert chapter.blocks.index(open_) == 1
    assert all(row[2] for row in open_.rows), "every row tells what is missing"


@pytest.mark.parametrize("family", FAMILIES)
def test_it_tells_how_to_load_it_carefully(family: str) -> None:
    chapter, found = made(family)
    (steps,) = [b for b in chapter.blocks if isinstance(b, Items) and b.numbered]
    assert steps.items == words.load_test(bool(found.cases))
    told = table(chapter, words.LOADS_CAPTION)
    assert ("named above" in steps.items[1]) == (told is not None)
    assert "Nobody sits on it" in steps.items[0]
    cautions = [b.text for b in chapter.blocks if isinstance(b, Caution)]
    assert any("replaces testing" in text and "local rules" in text for text in cautions)


@pytest.mark.parametrize("family", [f for f in FAMILIES if f != "composed"])
def test_worst_uses_loads_and_picture(family: str) -> None:
    chapter, found = made(family)
    uses, loads = table(chapter, words.USES_CAPTION), table(chapter, words.LOADS_CAPTION)
    assert uses is not None
    assert loads is not None
    shares = [int(row[2].split()[0]) for row in uses.rows]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] == round(100.0 * max(c.use for c in found.checks if c.use is not None))
    assert [row[0] for row in loads.rows] == [case.key for case in found.cases]
    (picture,) = [b for b in chapter.blocks if isinstance(b, Figure)]
    assert picture.alt


def test_a_piece_without_loads_shows_no_use() -> None:
    chapter, _ = made("composed")
    assert table(chapter, words.USES_CAPTION) is None
    assert "nothing could be judged" in chapter.blocks[0].text  # type: ignore[union-attr]


def test_a_book_without_a_report_says_so() -> None:
    chapter, _ = made("bench", judged=False)
    assert [b.text for b in chapter.blocks if isinstance(b, Para)] == [words.NOT_WORKED_OUT]
