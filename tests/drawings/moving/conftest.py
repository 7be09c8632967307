"""The example loungers and lidded boxes, each with its study, sheets and page as written."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path
from types import SimpleNamespace

import pytest

from flatpack import job
from flatpack.drawings.layers import layer_set
from flatpack.drawings.moving import MovingPage, sheets
from flatpack.drawings.settings import Settings
from flatpack.profile_files import profile_texts
from flatpack.writers.registry import render

PIECES = (Path(__file__).parents[3] / "profiles" / "pieces").glob("*.toml")
EXAMPLES = sorted(p for p in PIECES if p.stem.endswith(("-lounger", "-box")))
#: Elements of HTML that have no end (HTML Standard, "void elements").
VOID = {"meta", "input", "br", "link", "img", "hr"}


class Node:
    """An element of a page: its name, attributes, children, and text."""

    def __init__(self, name: str, attributes: dict[str, str]) -> None:
        self.name, self.attributes = name, attributes
        self.children: list[Node] = []
        self.text = ""

    def walk(self):
        """This element and all below it."""
        yield self
        for child in self.children:
            yield from child.walk()

    def every(self, name: str, **wanted: str) -> list[Node]:
        """All elements below with a name and attributes; `class_` stands for class."""
        keys = {k.rstrip("_"): v for k, v in wanted.items()}
        return [
            n
            for n in self.walk()
            if n.name == name and all(n.attributes.get(k) == v for k, v in keys.items())
        ]

    @property
    def words(self) -> str:
        """All text of the element."""
        return self.text + "".join(f" {c.words}" for c in self.children)


class Reader(HTMLParser):
    """Builds the tree; an end that doesn't match its start is an error."""

    def __init__(self) -> None:
        super().__init__()
        self.root = Node("root", {})
        self.open = [self.root]

    def handle_starttag(self, tag, attrs):
        node = self.handle_startendtag(tag, attrs)
        if tag not in VOID:
            self.open.append(node)

    def handle_startendtag(self, tag, attrs):
        names = [k for k, _ in attrs]
        assert len(names) == len(set(names)), f"an attribute twice in <{tag}>"
        node = Node(tag, {k: v or "" for k, v in attrs})
        self.open[-1].children.append(node)
        return node

    def handle_endtag(self, tag):
        assert self.open[-1].name == tag, f"</{tag}> ends <{self.open[-1].name}>"
        self.open.pop()

    def handle_data(self, data):
        self.open[-1].text += data


def tree(html: str) -> Node:
    """The page as a tree; AssertionError where it isn't well formed."""
    reader = Reader()
    reader.feed(html)
    reader.close()
    assert len(reader.open) == 1, f"<{reader.open[-1].name}> has no end"
    return reader.root


def _made(path: Path) -> SimpleNamespace:
    design = job.design(path.read_text(encoding="utf-8"), path.name, profile_texts())
    settings = Settings(workshop=design.workshop, code=design.code, study=design.study)
    found = tuple(sheets(design.assembly, design.study, settings))
    page = next(s.content for s in found if isinstance(s.content, MovingPage))
    layers = layer_set()
    files = {s.path: render(s, layers, "r2010") for s in found}
    html = files[f"{page.name}.html"].decode()
    return SimpleNamespace(
        assembly=design.assembly,
        record=design.record,
        study=design.study,
        settings=settings,
        sheets={s.path: s.content for s in found},
        files=files,
        page=page,
        html=html,
        tree=tree(html),
    )


@pytest.fixture(scope="session", params=EXAMPLES, ids=[p.stem for p in EXAMPLES])
def made(request):
    return _made(request.param)
