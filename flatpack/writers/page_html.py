"""A page as one HTML file that needs nothing else: reads on a phone, prints on A4, no script."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.drawings.page import Cell, Page, Table
from flatpack.writers.numerals import short
from flatpack.writers.svg_shapes import escaped

# Wide tables scroll by themselves on a narrow screen; on paper each head repeats on every sheet.
# The warning is told by its frame and weight, so that it survives black-and-white printing.
_STYLE = """\
body { font: 1rem/1.4 Helvetica, Arial, sans-serif; margin: 1rem auto; padding: 0 1rem;
  max-width: 75rem; color: #000; background: #fff; }
h1 { font-size: 1.6rem; margin: 0 0 .5rem; } h2 { font-size: 1.15rem; margin: 1.5rem 0 .4rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: .15rem 1rem; margin: 0; }
dt { font-weight: bold; } dd { margin: 0; }
.warning { border: .25rem solid #000; padding: .5rem; font-size: 1.4rem; font-weight: bold; }
.table { overflow-x: auto; }
table { border-collapse: collapse; font-size: .85rem; }
th, td { border: 1px solid #555; padding: .2rem .4rem; text-align: left; vertical-align: top; }
th { background: #eee; } .number { text-align: right; }
@media print { body { margin: 0; padding: 0; max-width: none; font-size: 8pt; }
  .table { overflow: visible; } thead { display: table-header-group; }
  tr { break-inside: avoid; } @page { size: A4 landscape; margin: 12mm; } }
"""


def render(page: Page, language: str = "en") -> bytes:
    """The page as HTML in UTF-8.

    Raises:
        ValueError: a number isn't finite.
    """
    return ("\n".join(_document(page, language)) + "\n").encode()


def _document(page: Page, language: str) -> Iterator[str]:
    yield f'<!DOCTYPE html>\n<html lang="{escaped(language)}">\n<head>\n<meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{escaped(page.title)}</title>\n<style>\n{_STYLE}</style>\n</head>"
    yield f"<body>\n<main>\n<h1>{escaped(page.title)}</h1>"
    if page.warning:
        yield f'<p class="warning">{escaped(page.warning)}</p>'
    yield from facts_list(page.facts)
    yield from (f"<p>{escaped(line)}</p>" for line in page.lines)
    for table in page.tables:
        yield from titled_table(table)
    yield "</main>\n</body>\n</html>"


def facts_list(facts: Iterable[tuple[str, str]]) -> Iterator[str]:
    """A list of labels and values; what has no value is left out."""
    told = [(escaped(label), escaped(value)) for label, value in facts if value]
    if told:
        yield "\n".join(("<dl>", *(f"<dt>{a}</dt><dd>{b}</dd>" for a, b in told), "</dl>"))


def titled_table(table: Table) -> Iterator[str]:
    """A table under its title."""
    title = escaped(table.title)
    yield f"<h2>{title}</h2>"
    # A region that scrolls must be reachable from the keyboard, and named.
    yield f'<div class="table" role="region" aria-label="{title}" tabindex="0"><table>'
    heads = "".join(f'<th scope="col">{escaped(name)}</th>' for name in table.header)
    yield f"<thead><tr>{heads}</tr></thead>\n<tbody>"
    for row in table.rows:
        yield f"<tr>{''.join(map(_cell, row))}</tr>"
    yield "</tbody></table></div>"


def _cell(value: Cell) -> str:
    if isinstance(value, str):
        return f"<td>{escaped(value)}</td>"
    return f'<td class="number">{short(value)}</td>'
