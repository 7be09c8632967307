"""The book's HTML and PDF: whole in themselves, the same each time, sound for every reader."""

from __future__ import annotations

import importlib.util
import json
import re
import shutil
import subprocess
from functools import cache
from html.parser import HTMLParser
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest

from flatpack import checks
from flatpack.drawings.book import BookSettings, book
from flatpack.drawings.settings import Settings
from flatpack.finding import in_order
from flatpack.mechanism.study import study
from flatpack.model import posed
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load
from flatpack.writers import book_html, book_pdf

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
CHECKER = importlib.util.find_spec("axe_core_python")
VOID = {"meta", "br", "path", "circle", "line"}


@cache
def made(family: str, faulty: bool = False):
    profiles = load(profile_texts())
    piece = PIECES[family].build(PIECES[family].record(), profiles)
    moving = study(piece)
    poses = {}
    if moving is not None:
        top = moving.found.stops[-1]
        poses = {"raised": posed(piece, top.angle, top.rod)}
    drawing = Settings(workshop=profiles.workshop("default"), code="QRST-1234", poses=poses,
                       faulty=faulty)  # fmt: skip
    settings = BookSettings(drawing=drawing, glue=profiles.get("glues", "pu-d4"),
                            finish=profiles.get("finishes", "stain"))  # fmt: skip
    return book(piece, moving, in_order(checks.run(piece)), settings)


class Reader(HTMLParser):
    """Elements with their attributes in order; fails on one that isn't closed in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert tag in VOID or self.open.pop() == tag


def read(family: str) -> Reader:
    reader = Reader()
    reader.feed(book_html.render(made(family)).decode())
    assert reader.open == []
    return reader


@pytest.fixture(params=["lounger", "bench"])
def family(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def test_page_needs_nothing_else(family: str) -> None:
    text = book_html.render(made(family)).decode()
    assert not re.search(r"<script|<link|<img|@import|url\(|https?:", text)


def test_links_lead_to_names_that_are_there_once(family: str) -> None:
    found = read(family).found
    names = [a["id"] for _, a in found if "id" in a]
    assert len(names) == len(set(names))
    wanted = [str(a["href"])[1:] for tag, a in found if tag == "a"]
    wanted += [w for _, a in found for w in str(a.get("aria-labelledby") or "").split()]
    assert wanted
    assert set(wanted) <= set(names)


def test_headings_go_down_one_level_at_a_time(family: str) -> None:
    levels = [int(tag[1]) for tag, _ in read(family).found if re.fullmatch(r"h\d", tag)]
    assert levels.count(1) == 1
    assert all(b - a <= 1 for a, b in pairwise(levels))


def test_tables_have_heads_and_pictures_have_words(family: str) -> None:
    found = read(family).found
    tags = [tag for tag, _ in found]
    assert tags.count("caption") == tags.count("table") > 5
    assert all(a.get("scope") in ("row", "col") for tag, a in found if tag == "th")
    assert tags.count("svg") == tags.count("desc") == sum(tag == "figure" for tag in tags)
    assert dict(found)["html"]["lang"] == "en"


def test_same_book_same_bytes(family: str) -> None:
    assert book_html.render(made(family)) == book_html.render(made(family))
    assert book_pdf.render(made(family)) == book_pdf.render(made(family))


def test_faulty_design_is_marked_on_every_page() -> None:
    pypdf = pytest.importorskip("pypdf")
    pages = pypdf.PdfReader(BytesIO(book_pdf.render(made("bench", faulty=True)))).pages
    assert all("NOT FOR CUTTING" in page.extract_text() for page in pages)
    assert book_html.render(made("bench", faulty=True)).count(b"NOT FOR CUTTING") > 8


def test_pdf_has_the_same_words_within_its_margins(family: str) -> None:
    pypdf = pytest.importorskip("pypdf")
    reader = pypdf.PdfReader(BytesIO(book_pdf.render(made(family))))
    text = " ".join("".join(page.extract_text() for page in reader.pages).split())
    for chapter in made(family).chapters:
        assert chapter.title in text
    assert "QRST-1234" in reader.pages[0].extract_text()
    rights = []
    for page in reader.pages:
        page.extract_text(visitor_text=lambda t, cm, tm, *_: rights.append(cm[0] * tm[4] + cm[4]))
    assert max(rights) < (210 - 15) / 25.4 * 72  # points; A4 is 210 mm wide (ISO 216)


def test_room_below_a_block_opens_no_page() -> None:
    from flatpack.writers.book_pdf import laid
    from flatpack.writers.book_slabs import Slab

    line = Slab(10.0, ("ink",))  # type: ignore[arg-type]  # only asked whether there is any
    pages = laid([line, line, Slab(5.0, ()), line], 20.0)  # two lines fill a page of 20
    assert [len([s for s in page if s.strokes]) for page in pages] == [2, 1]
    assert len(laid([line, line, Slab(5.0, ())], 20.0)) == 1


@pytest.mark.skipif(not BROWSER or not CHECKER, reason="needs chromium and an axe package")
@pytest.mark.parametrize("width", [1200, 360])
def test_accessibility_checker_finds_no_serious_fault(
    family: str, width: int, tmp_path: Path
) -> None:
    """axe-core in a real browser, every rule it has; nothing serious or critical may remain."""
    found = audited(book_html.render(made(family)).decode(), width, tmp_path)
    assert found["passes"] > 15
    assert found["faults"] == []


@pytest.mark.skipif(not BROWSER or not CHECKER, reason="needs chromium and an axe package")
def test_checker_sees_a_fault_put_in(tmp_path: Path) -> None:
    text = book_html.render(made("bench")).decode()
    spoilt = text.replace(' lang="en"', "").replace("color: #000;", "color: #ccc;", 1)
    faults = " ".join(audited(spoilt, 1200, tmp_path)["faults"])
    assert "html-has-lang" in faults
    assert "color-contrast" in faults


def audited(text: str, width: int, folder: Path) -> dict:
    """What the checker says of a page in the browser, passed out by way of the page's title."""
    assert CHECKER is not None
    axe = (Path(str(CHECKER.origin)).parent / "axe.min.js").read_text(encoding="utf-8")
    run = """axe.run().then(r => { document.title = 'AXE' + JSON.stringify({
      passes: r.passes.length, faults: r.violations.filter(v => ['serious', 'critical'].includes(
      v.impact)).map(v => v.id + ': ' + v.nodes.length + ' ' + v.nodes[0].html.slice(0, 80))})
      + 'EXA'; })"""
    page = folder / "book.html"
    page.write_text(text.replace("</body>", f"<script>{axe}</script><script>{run}</script></body>"),
                    encoding="utf-8")  # fmt: skip
    command = (str(BROWSER), "--headless", "--no-sandbox", "--disable-gpu", "--dump-dom",
               f"--user-data-dir={folder}/profile", f"--window-size={width},900",
               "--virtual-time-budget=20000", page.as_uri())  # fmt: skip
    out = subprocess.run(command, capture_output=True, text=True, timeout=120, check=True).stdout
    said = re.search(r"<title>AXE(.*?)EXA</title>", out, re.DOTALL)
    assert said, "the checker gave no answer"
    import html

    return json.loads(html.unescape(said[1]))


def test_book_is_two_sheets_that_the_registry_writes() -> None:
    from flatpack.drawings.book import sheets
    from flatpack.drawings.layers import DEFAULT_LAYERS
    from flatpack.writers.registry import render

    profiles = load(profile_texts())
    piece = PIECES["bench"].build(PIECES["bench"].record(), profiles)
    settings = BookSettings(drawing=Settings(workshop=profiles.workshop("default")))
    found = list(sheets(piece, None, (), settings))
    assert [sheet.path for sheet in found] == ["build-book.html", "build-book.pdf"]
    starts = [render(sheet, DEFAULT_LAYERS, "R2010")[:5] for sheet in found]
    assert starts == [b"<!DOC", b"%PDF-"]
