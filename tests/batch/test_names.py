"""Names of folders: what every system takes, and which two are the same on some system."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from flatpack.batch.ledger import Ledger
from flatpack.batch.names import folded, name_fault

BAD = [
    "", ".", "..", "a/b", "/a", "..\\a", "a\\b", "C:", "C:a", "CON", "con.x", "nul", "Com1",
    "lpt9.toml", "a ", " a", "a.", ".hidden", "a\x00b", "a\nb", "a\tb", "\u202etxt", "a?", "a*",
    'a"', "<a>", "a|b", "x" * 121, "é" * 61, "summary.csv", "Overview.HTML", "overview-3.html",
    "batch.json", "\ud800",
]  # fmt: skip


@pytest.mark.parametrize("name", BAD, ids=[ascii(name)[:20] for name in BAD])
def test_names_that_some_system_refuses(name: str) -> None:
    """Reserved names and letters of Windows: from memory of its file naming rules."""
    assert name_fault(name)


@pytest.mark.parametrize("name", ["a", "Bank Größe 3", "長椅子", "x" * 120, "a.b", "-", "overview"])
def test_names_that_are_fine(name: str, tmp_path: Path) -> None:
    assert name_fault(name) == ""
    (tmp_path / name).mkdir()


@pytest.mark.parametrize(
    ("a", "b"),
    [("Bench", "bENCH"), ("\u00e9", "e\u0301"), ("\u00c9", "e\u0301"), ("STRASSE", "straße")],
)
def test_names_that_are_one_on_some_system(a: str, b: str) -> None:
    """Case is folded by the Unicode standard's default caseless matching, section 3.13, D145."""
    assert folded(a) == folded(b)


@settings(max_examples=150, deadline=None, derandomize=True, database=None)
@given(st.text(max_size=130))
def test_a_name_that_passes_makes_one_folder(
    tmp_path_factory: pytest.TempPathFactory, name: str
) -> None:
    if name_fault(name):
        return
    folder = tmp_path_factory.mktemp("any")
    (folder / name).mkdir()
    assert [p.name for p in folder.iterdir()] == [name]
    assert folded(unicodedata.normalize("NFD", name)) == folded(name)


def test_the_ledger_gives_a_name_once() -> None:
    ledger = Ledger()
    assert ledger.claim(1, "Bench", "t:2") == ""
    assert ledger.claim(2, "bench", "t:3") == "t:2"
    ledger.refuse(2, "bench", "t:3", "taken")
    ledger.settle(1, "made", "")
    assert [(e.number, e.state, e.own) for e in ledger] == [
        (1, "made", True),
        (2, "refused", False),
    ]
    assert ledger.holds("BENCH")
    assert not ledger.holds("bank")
    assert ledger.counts()["refused"] == 1
    ledger.close()
