"""A page of a booklet as SVG: the drawing's bounds stretched to the paper that it is printed on."""

from __future__ import annotations

from flatpack.drawings.layers import LayerSet
from flatpack.drawings.shapes import Drawing
from flatpack.writers import svg
from flatpack.writers.numerals import short as n


def render(drawing: Drawing, layers: LayerSet, size: tuple[float, float]) -> bytes:
    """The drawing as an SVG document whose size is `size` in mm.

    Raises:
        ValueError: text on a layer that may not carry it, or a number that isn't finite.
        KeyError: a layer that the table doesn't have.
    """
    written = svg.render(drawing, layers)
    x0, y0, x1, y1 = drawing.bounds
    own, wanted = (n(x1 - x0), n(y1 - y0)), (n(size[0]), n(size[1]))
    if own == wanted:
        return written
    before = f'height="{own[1]}mm"'.encode(), f'width="{own[0]}mm"'.encode()
    after = f'height="{wanted[1]}mm"', f'width="{wanted[0]}mm" preserveAspectRatio="none"'
    head, close, body = written.partition(b"><title>")
    for old, new in zip(before, after, strict=True):
        if head.count(old) != 1:
            raise ValueError("the SVG shell doesn't give its size in mm")
        head = head.replace(old, new.encode())
    return head + close + body
