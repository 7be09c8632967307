"""The overview: read without a script, and sorted in a browser without a network."""

from __future__ import annotations

import re
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest

from flatpack.batch import report, running
from flatpack.writers.overview_html import Line, line
from tests.batch.conftest import held

Batch = Callable[..., running.Outcome]


class Cells(HTMLParser):
    """Text of every cell, row by row, and every address in the page."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.rows: list[list[str]] = []
        self.addresses: list[str] = []
        self._open = False
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.addresses += [str(v) for k, v in attrs if k in ("href", "src")]
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")
            self._open = True

    def handle_endtag(self, tag: str) -> None:
        self._open = self._open and tag not in ("td", "th")

    def handle_data(self, data: str) -> None:
        if self._open:
            self.rows[-1][-1] += data


@pytest.fixture
def page(batch: Batch, sizes: Path, tmp_path: Path) -> Path:
    (sizes.parent / "recliner.toml").write_text('family = "lounger"\nname = "Recliner"\n')
    rows = ["no family,,,", "far,bench.toml,9999,", "recliner,recliner.toml,,"]
    table = sizes.read_text().replace("bench 1200", "Größe & mehr")
    sizes.write_text(table + "\n".join(rows) + "\n", encoding="utf-8")
    batch(sizes, tmp_path / "out", stock="marrow-yard")
    return tmp_path / "out" / "overview.html"


def test_it_tells_all_without_a_script(page: Path) -> None:
    found = Cells(page.read_text(encoding="utf-8"))
    head, *rows = found.rows
    told = [dict(zip(head, row, strict=True)) for row in rows]
    assert [row["State"] for row in told] == ["made"] * 5 + ["refused"] * 2 + ["made"]
    assert told[2]["Variant"] == "Größe & mehr"
    assert [row["Length mm"] for row in told[:5]] == ["1100", "1150", "1200", "1250", "1300"]
    assert len(told[7]["Stops degrees"].split(";")) >= 2
    assert "size.length" in told[6]["What is the matter"]
    prices = [float(row["Price"]) for row in told[:5]]
    assert prices == sorted(prices)
    assert all(0.0 < float(row["Waste %"]) < 100.0 for row in told[:5])
    # Every address is a folder beside it, and nothing else is fetched.
    assert all((page.parent / Path(*_plain(a))).is_dir() for a in found.addresses)
    assert len(found.addresses) == 6
    assert not re.search(r"https?://(?!www\.w3\.org/2000/svg)", page.read_text(encoding="utf-8"))


def _plain(address: str) -> tuple[str, ...]:
    from urllib.parse import unquote

    return Path(unquote(address)).parts


def test_pictures_are_whole_svg(page: Path) -> None:
    for name, content in held(page.parent).items():
        if name.endswith("thumbnail.svg"):
            root = ElementTree.fromstring(content)
            assert len(root.findall(".//{*}path")) > 10
            assert content.decode().strip() in page.read_text(encoding="utf-8")


def test_what_a_name_holds_is_no_markup() -> None:
    text = '"><script>alert(1)</script>'
    row = Line(name=text, link=text, state=text, bad=True, cells=(text,), problem=text, picture="")
    assert b"<script" not in line(row)
    assert b'">"' not in line(row)


def test_sorted_in_a_browser(page: Path) -> None:
    """Numbers by size, either way; rows without a value last; by the keyboard alone."""
    playwright = pytest.importorskip("playwright.sync_api")
    from shutil import which

    browser_path = which("chromium") or which("chromium-browser")
    if browser_path is None:
        pytest.skip("no browser")
    with playwright.sync_playwright() as run:
        browser = run.chromium.launch(executable_path=browser_path, args=["--no-sandbox"])
        shown = browser.new_page(offline=True)
        troubles: list[str] = []
        shown.on("pageerror", lambda error: troubles.append(str(error)))
        shown.goto(page.as_uri())
        read = "rows => rows.map(row => row.cells[6].textContent)"
        head = shown.get_by_role("button", name="Length mm")
        head.focus()
        shown.keyboard.press("Enter")
        up = shown.eval_on_selector_all("tbody tr", read)
        shown.keyboard.press("Enter")
        down = shown.eval_on_selector_all("tbody tr", read)
        way = shown.locator("th", has=head).get_attribute("aria-sort")
        browser.close()
    numbers = [float(text) for text in up if text]
    assert numbers == sorted(numbers)
    assert len(set(numbers)) == 6
    assert [float(text) for text in down if text] == numbers[::-1]
    assert up[-2:] == down[-2:] == ["", ""]
    assert way == "descending"
    assert troubles == []


def test_a_long_table_has_several_pages(
    batch: Batch, sizes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(report, "PAGE", 2)
    out = tmp_path / "out"
    batch(sizes, out)
    pages = sorted(path.name for path in out.glob("overview*"))
    assert pages == ["overview-2.html", "overview-3.html", "overview.html"]
    found = [Cells((out / name).read_text(encoding="utf-8")) for name in pages]
    assert [len(one.rows) - 1 for one in found] == [2, 1, 2]
    assert all(set(pages) <= set(one.addresses) for one in found)
    monkeypatch.setattr(report, "PAGE", 500)
    batch(sizes, out)
    assert [path.name for path in out.glob("overview*")] == ["overview.html"]
