"""A page as HTML: read back with the standard library's parser."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest

from flatpack.drawings.page import Page, Table
from flatpack.writers import page_html

PAGE = Page(
    name="job-sheet",
    title='Job <sheet> & "more"',
    facts=(("piece", "Bänk <script>alert(1)</script>"), ("date of issue", "")),
    lines=("Unit millimetres.",),
    tables=(Table(name="t", title="Parts", header=("mark", "length"), rows=(("A & B", 84.5),)),),
    warning="NOT FOR CUTTING",
)
VOID = {"meta"}


class Reader(HTMLParser):
    """Tags must close in order; keeps (path of tags, text)."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.texts: list[tuple[str, str]] = []
        self.attributes: list[tuple[str, dict[str, str | None]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.attributes.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.texts.append((self.open[-1], data))


def read(page: Page) -> Reader:
    reader = Reader()
    reader.feed(page_html.render(page).decode("utf-8"))
    reader.close()
    assert reader.open == []
    return reader


def test_every_word_is_there_and_nothing_is_run() -> None:
    texts = read(PAGE).texts
    assert ("h1", 'Job <sheet> & "more"') in texts
    assert ("dd", "Bänk <script>alert(1)</script>") in texts
    assert [text for tag, text in texts if tag in ("th", "td")] == [
        "mark",
        "length",
        "A & B",
        "84.5",
    ]
    assert [text for tag, text in texts if tag == "dt"] == ["piece"]  # no label without a value
    assert ("p", "NOT FOR CUTTING") in texts
    assert "script" not in {tag for tag, _ in read(PAGE).attributes}


def test_it_needs_nothing_else() -> None:
    tags = read(PAGE).attributes
    assert all("src" not in found and "href" not in found for _, found in tags)
    assert b"http" not in page_html.render(PAGE)
    assert b"url(" not in page_html.render(PAGE)


def test_language_heads_and_regions_are_named_for_screen_readers() -> None:
    tags = read(PAGE).attributes
    assert ("html", {"lang": "en"}) in tags
    assert [found for tag, found in tags if tag == "th"] == [{"scope": "col"}] * 2
    assert (
        "div",
        {"class": "table", "role": "region", "aria-label": "Parts", "tabindex": "0"},
    ) in tags


def test_no_warning_where_there_is_none() -> None:
    bare = Page(name="x", title="x")
    assert [tag for tag, _ in read(bare).texts] == ["title", "style", "h1"]


def test_a_number_that_is_none_is_refused() -> None:
    table = Table(name="t", title="t", header=("x",), rows=((float("nan"),),))
    with pytest.raises(ValueError, match="can't be drawn"):
        page_html.render(Page(name="x", title="x", tables=(table,)))
