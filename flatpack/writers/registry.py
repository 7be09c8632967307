"""File formats: a row each; a format's writer is imported when it is first asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from flatpack.drawings.layers import LayerSet
from flatpack.drawings.page import Booklet, Format, Page, Sheet, Table
from flatpack.drawings.shapes import Drawing


def _dxf(content: object, layers: LayerSet, version: str) -> bytes:
    from flatpack.writers import dxf

    assert isinstance(content, Drawing)
    return dxf.render(content, layers, version)  # type: ignore[arg-type]  # profiles allow no other


def _svg(content: object, layers: LayerSet, version: str) -> bytes:
    from flatpack.writers import svg, svg_page

    if isinstance(content, Booklet):  # a booklet of one page: a page to print at full size
        return svg_page.render(content.pages[0], layers, content.sizes[0])
    assert isinstance(content, Drawing)
    return svg.render(content, layers)


def _csv(content: object, layers: LayerSet, version: str) -> bytes:
    from flatpack.writers import table_csv

    assert isinstance(content, Table)
    return table_csv.render(content.rows, content.header)


def _html(content: object, layers: LayerSet, version: str) -> bytes:
    if isinstance(content, Page):
        from flatpack.writers import page_html

        return page_html.render(content)
    from flatpack.drawings.book import Book

    if isinstance(content, Book):
        from flatpack.writers import book_html

        return book_html.render(content)
    from flatpack.drawings.moving import MovingPage
    from flatpack.writers import moving_html

    assert isinstance(content, MovingPage)
    return moving_html.render(content)


def _pdf(content: object, layers: LayerSet, version: str) -> bytes:
    from flatpack.writers import pdf

    if not isinstance(content, Booklet):
        from flatpack.drawings.book import Book
        from flatpack.writers import book_pdf

        assert isinstance(content, Book)
        return book_pdf.render(content)
    pages = tuple(map(pdf.PdfPage, content.pages, content.sizes))
    return pdf.render(pages, layers, content.title)


#: Format -> what writes it, given the content, the workshop's layers and its version of DXF.
WRITERS: Mapping[Format, Callable[[object, LayerSet, str], bytes]] = {
    "dxf": _dxf,
    "svg": _svg,
    "csv": _csv,
    "html": _html,
    "pdf": _pdf,
}


def render(sheet: Sheet, layers: LayerSet, version: str) -> bytes:
    """The bytes of a sheet's file."""
    return WRITERS[sheet.format](sheet.content, layers, version)
