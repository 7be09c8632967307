"""The gallery as one HTML file that needs nothing else: pictures first, keys folded away."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.gallery import Entry, Gallery, Picture, Section
from flatpack.writers import svg_inline
from flatpack.writers.page_html import titled_table
from flatpack.writers.svg_shapes import escaped

_STYLE = """\
body { font: 1rem/1.45 Georgia, serif; margin: 1rem auto; padding: 0 1rem; max-width: 68rem;
  color: #000; background: #fff; }
h1 { font-size: 1.7rem; } h2 { border-top: 2px solid #000; padding-top: .6rem; margin-top: 2rem; }
h3 { margin: 1.6rem 0 0; } h3 code { font-weight: normal; font-size: .9em; }
p { margin: .3rem 0; max-width: 46rem; } code { font-family: monospace; }
.row { display: flex; flex-wrap: wrap; gap: 1rem 1.5rem; align-items: flex-end; margin: .6rem 0; }
figure { margin: 0; max-width: 100%; } figure svg { max-width: 100%; height: auto; }
figcaption { font-size: .85rem; } figcaption span { display: block; }
.table { overflow-x: auto; } table { border-collapse: collapse; font-size: .85rem; }
th, td { border: 1px solid #555; padding: .2rem .4rem; text-align: left; vertical-align: top; }
pre { background: #f2f2f2; padding: .5rem .7rem; overflow-x: auto; max-width: 44rem;
  margin: .4rem 0; font-size: .85rem; }
details h2 { border: 0; margin: .3rem 0; padding: 0; font-size: 1rem; }
summary { cursor: pointer; padding: .3rem 0; }
@media print { details > * { display: block; } h3, figure { break-inside: avoid; } }
"""


def render(gallery: Gallery, language: str = "en") -> bytes:
    """The page in UTF-8.

    Raises:
        ValueError: a number isn't finite.
    """
    return ("\n".join(_document(gallery, language)) + "\n").encode()


def _document(gallery: Gallery, language: str) -> Iterator[str]:
    title = escaped(gallery.title)
    yield f'<!DOCTYPE html>\n<html lang="{escaped(language)}">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{title}</title>\n<style>\n{_STYLE}</style>\n</head>"
    yield f"<body>\n<main>\n<h1>{title}</h1>"
    yield from (f"<p>{escaped(line)}</p>" for line in gallery.lines)
    for section in gallery.sections:
        yield from _section(section)
    yield "</main>\n</body>\n</html>"


def _section(section: Section) -> Iterator[str]:
    yield f"<h2>{escaped(section.title)}</h2>"
    yield from (f"<p>{escaped(line)}</p>" for line in section.lines)
    for entry in section.entries:
        yield from _entry(entry)


def _entry(entry: Entry) -> Iterator[str]:
    yield f"<h3>{escaped(entry.title)} <code>{escaped(entry.word)}</code></h3>"
    if entry.line:
        yield f"<p>{escaped(entry.line)}</p>"
    if entry.pictures:
        yield f'<div class="row">{"".join(map(_picture, entry.pictures))}</div>'
    if entry.written:
        lines = map(escaped, entry.written.splitlines())
        yield "<pre>" + "\n".join(lines) + "</pre>"
    if entry.keys is not None:
        yield f"<details><summary>{escaped(entry.keys.title)}</summary>"
        yield from titled_table(entry.keys)
        yield "</details>"


def _picture(picture: Picture) -> str:
    lines = "".join(f"<span>{escaped(line)}</span>" for line in picture.caption)
    drawn = svg_inline.render(picture.drawing).decode()
    return f"<figure>{drawn}<figcaption>{lines}</figcaption></figure>"
