"""PDF of drawings, a page each, at full size: vectors, text in fonts that the file carries.

The document's frame is pydyf's; pages and fonts are this package's own.  Nothing in the file
depends on the clock, and nothing is compressed, as compressors differ between systems.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from io import BytesIO
from typing import TYPE_CHECKING, NamedTuple

from flatpack.drawings.layers import LayerSet
from flatpack.drawings.shapes import Drawing
from flatpack.writers.pdf_font import CAPITAL, UNITS, font, subset
from flatpack.writers.pdf_letters import LETTERS
from flatpack.writers.pdf_page import POINTS, content

if TYPE_CHECKING:
    import pydyf

_NAMES = {False: "AAAAAA+DejaVuSans", True: "AAAAAB+DejaVuSans-Bold"}
_FAMILY = "Sans"


class PdfPage(NamedTuple):
    """A drawing and the paper in mm that its bounds are stretched to; None: as they are."""

    drawing: Drawing
    size: tuple[float, float] | None = None


def render(
    pages: Sequence[PdfPage],
    layers: LayerSet,
    title: str = "",
    subject: str = "",
    language: str = "en",
) -> bytes:
    """The pages as one PDF 1.7 file.

    Raises:
        ValueError: text on a layer that may not carry it, or a number that isn't finite.
        KeyError: a layer that the table doesn't have.
    """
    import pydyf

    document = pydyf.PDF()
    document.info.update(_texts({"Title": title, "Subject": subject, "Producer": "flatpack"}))
    document.catalog.update({"Lang": pydyf.String(language), "ViewerPreferences": _PREFERENCES})
    used: Mapping[bool, set[int]] = {False: set(), True: set()}
    resources = pydyf.Dictionary()
    document.add_object(resources)
    for page in pages:
        _add_page(document, page, layers, used, resources)
    fonts = {f"F{int(bold)}": _font(document, bold, used[bold]) for bold in used if used[bold]}
    if fonts:
        resources["Font"] = pydyf.Dictionary(fonts)
    written = BytesIO()
    document.write(written)
    return written.getvalue()


#: Readers are asked not to shrink the page to fit: it prints at its actual size (ISO 32000-1).
_PREFERENCES = "<</PrintScaling /None /DisplayDocTitle true>>"


def _texts(values: Mapping[str, str]) -> dict[str, object]:
    import pydyf

    return {key: pydyf.String(value) for key, value in values.items() if value}


def _add_page(
    document: pydyf.PDF,
    page: PdfPage,
    layers: LayerSet,
    used: Mapping[bool, set[int]],
    resources: pydyf.Dictionary,
) -> None:
    import pydyf

    x0, y0, x1, y1 = page.drawing.bounds
    size = page.size or (x1 - x0, y1 - y0)
    stream = pydyf.Stream([content(page.drawing, layers, size, used)])
    document.add_object(stream)
    box = pydyf.Array((0, 0, round(size[0] * POINTS, 6), round(size[1] * POINTS, 6)))
    document.add_page(
        pydyf.Dictionary(
            {
                "Type": "/Page",
                "Parent": document.pages.reference,
                "MediaBox": box,
                "Resources": resources.reference,
                "Contents": stream.reference,
            }
        )
    )


def _font(document: pydyf.PDF, bold: bool, used: Iterable[int]) -> bytes:
    """Adds a font with only the used letters; its reference."""
    import pydyf

    numbers = sorted(used)
    name = f"/{_NAMES[bold]}"
    program = subset(bold, numbers)
    parts = [
        pydyf.Stream([program], {"Length1": len(program)}),
        pydyf.Stream([_letters_of(numbers)]),
    ]
    for part in parts:
        document.add_object(part)
    descriptor = pydyf.Dictionary(_descriptor(name, bold, parts[0].reference))
    document.add_object(descriptor)
    descendant = pydyf.Dictionary(
        {
            "Type": "/Font",
            "Subtype": "/CIDFontType2",
            "BaseFont": name,
            "CIDSystemInfo": "<</Registry (Adobe) /Ordering (Identity) /Supplement 0>>",
            "FontDescriptor": descriptor.reference,
            "CIDToGIDMap": "/Identity",
            "W": _widths(bold, numbers),
        }
    )
    document.add_object(descendant)
    whole = pydyf.Dictionary(
        {
            "Type": "/Font",
            "Subtype": "/Type0",
            "BaseFont": name,
            "Encoding": "/Identity-H",
            "DescendantFonts": pydyf.Array([descendant.reference]),
            "ToUnicode": parts[1].reference,
        }
    )
    document.add_object(whole)
    reference: bytes = whole.reference
    return reference


def _descriptor(name: str, bold: bool, file: bytes) -> dict[str, object]:
    return {
        "Type": "/FontDescriptor",
        "FontName": name,
        "FontFamily": f"({_FAMILY})",
        "Flags": 32,
        "FontBBox": "[-1021 -463 1793 1232]",
        "ItalicAngle": 0,
        "Ascent": 928,
        "Descent": -236,
        "CapHeight": round(CAPITAL * 1000),
        "StemV": 140 if bold else 80,
        "FontFile2": file,
    }


def _widths(bold: bool, numbers: Sequence[int]) -> str:
    widths = font(bold).widths
    return f"[{' '.join(f'{g} [{widths[g] * 1000 / UNITS:.3f}]' for g in numbers)}]"


def _letters_of(numbers: Sequence[int]) -> bytes:
    """Which letter each glyph is, so that text can be searched, copied and read aloud."""
    rows = [f"<{g:04X}> <{ord(LETTERS[g - 1]):04X}>" for g in numbers if g]
    blocks = (rows[i : i + 100] for i in range(0, len(rows), 100))
    body = "".join(
        f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar\n" for block in blocks
    )
    return (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        f"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n{body}"
        "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend"
    ).encode("ascii")
