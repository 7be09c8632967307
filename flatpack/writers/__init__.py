"""Writers: a neutral drawing or a table in, the bytes of a file out.

WRITERS is the table of drawing formats: one visible row each.  No writer opens a file for its
output or knows what a drawing means; each reads only its own empty document from this package.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import NamedTuple

from flatpack.drawings.layers import LayerSet
from flatpack.drawings.shapes import Drawing
from flatpack.writers import dxf, svg


class Writer(NamedTuple):
    """A drawing format: the ending of its files, and what turns a drawing into one."""

    suffix: str
    render: Callable[[Drawing, LayerSet], bytes]


WRITERS: Mapping[str, Writer] = {
    "dxf": Writer(".dxf", partial(dxf.render, version="R2010")),
    "dxf-r12": Writer(".dxf", partial(dxf.render, version="R12")),
    "dxf-r2000": Writer(".dxf", partial(dxf.render, version="R2000")),
    "dxf-r2018": Writer(".dxf", partial(dxf.render, version="R2018")),
    "svg": Writer(".svg", svg.render),
}

__all__ = ["WRITERS", "Writer"]
