"""Reads printed vectors back in mm from the page's lower left, with pypdf and with poppler.

Both readers follow every transformation down to the drawn path, so they measure what a printer
would put on the paper.  Units: PDF 1/72 inch (ISO 32000-1), 25.4 mm to the inch.
"""

from __future__ import annotations

import io
import re
import subprocess
import tempfile
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import NamedTuple

import pypdf
from pypdf.generic import ContentStream

MM = 25.4 / 72.0
Matrix = tuple[float, float, float, float, float, float]
UNIT: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


class Drawn(NamedTuple):
    """A stroked run: its corners and curve ends, all its control points, pen width, mm."""

    points: list[tuple[float, float]]
    curves: list[tuple[tuple[float, float], ...]]
    width: float
    closed: bool

    @property
    def box(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self.points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)


class Word(NamedTuple):
    """A line of lettering: where its base line starts and ends, mm."""

    at: tuple[float, float]
    text: str
    end: tuple[float, float] = (0.0, 0.0)


class Page(NamedTuple):
    width: float
    height: float
    drawn: list[Drawn]
    words: list[Word]

    def lines(self) -> list[tuple[float, float]]:
        """Run across and up of every straight line."""
        return [
            (abs(d.points[-1][0] - d.points[0][0]), abs(d.points[-1][1] - d.points[0][1]))
            for d in self.drawn
            if len(d.points) == 2 and not d.curves
        ]

    def circles(self, radius: float, within: float = 0.05) -> list[tuple[float, float]]:
        """Centres of whole circles of about that radius."""
        found = []
        for d in self.drawn:
            x0, y0, x1, y1 = d.box
            round_ = len(d.curves) >= 4 and abs((x1 - x0) - (y1 - y0)) < 2 * within
            if round_ and abs((x1 - x0) / 2.0 - radius) < within:
                found.append(((x0 + x1) / 2.0, (y0 + y1) / 2.0))
        return sorted(found)


def times(m: Matrix, n: Matrix) -> Matrix:
    """The matrix of m first, then n."""
    a, b, c, d, e, f = m
    p, q, r, s, t, u = n
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s,
            e * p + f * r + t, e * q + f * s + u)  # fmt: skip


def put(m: Matrix, x: float, y: float) -> tuple[float, float]:
    return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]


class _Reader:
    """Runs a page's operators and keeps what they draw."""

    def __init__(self, reader: pypdf.PdfReader) -> None:
        self.reader = reader
        self.drawn: list[Drawn] = []
        self.words: list[Word] = []
        self.state, self.pen = UNIT, 1.0
        self.stack: list[tuple[Matrix, float]] = []
        self.runs: list[tuple[list, list, bool]] = []
        self.text, self.font, self.size = UNIT, None, 1.0

    def run(self, stream: object, resources: object, matrix: Matrix) -> None:
        self.state = matrix
        for operands, operator in ContentStream(stream, self.reader).operations:
            op = operator.decode()
            if op in ("Tf", "Do"):
                getattr(self, f"_{op}")(operands, resources)
            elif op.isidentifier() and hasattr(self, f"_{op}"):
                getattr(self, f"_{op}")(*operands)
            elif op in ("B*", "b*"):
                self._S(op)
            elif op == "f*":
                self.runs = []

    def _q(self) -> None:
        self.stack.append((self.state, self.pen))

    def _Q(self) -> None:  # noqa: N802 -- named as the operator
        self.state, self.pen = self.stack.pop()

    def _cm(self, *m: object) -> None:
        self.state = times(tuple(map(float, m)), self.state)

    def _w(self, pen: object) -> None:
        self.pen = float(pen)

    def _m(self, x: object, y: object) -> None:
        self.runs.append(([put(self.state, float(x), float(y))], [], False))

    def _l(self, x: object, y: object) -> None:
        self.runs[-1][0].append(put(self.state, float(x), float(y)))

    def _c(self, *operands: object) -> None:
        v = [float(o) for o in operands]
        points, curves, _ = self.runs[-1]
        ends = [put(self.state, v[i], v[i + 1]) for i in (0, 2, 4)]
        curves.append((points[-1], *ends))
        points.append(ends[2])

    def _h(self) -> None:
        self.runs[-1] = (*self.runs[-1][:2], True)

    def _re(self, *operands: object) -> None:
        x, y, w, h = map(float, operands)
        corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
        self.runs.append(([put(self.state, *c) for c in corners], [], True))

    def _S(self, op: str = "S") -> None:  # noqa: N802 -- named as the operator
        a, b, c, d, _, _ = self.state
        width = self.pen * abs(a * d - b * c) ** 0.5
        for points, curves, closed in self.runs:
            whole = [*points, points[0]] if closed or op[0] in "sb" else points
            self.drawn.append(Drawn(whole, curves, width, closed))
        self.runs = []

    def _s(self) -> None:
        self._S("s")

    def _B(self) -> None:  # noqa: N802 -- named as the operator
        self._S("B")

    def _n(self) -> None:
        self.runs = []

    _f = _F = _n

    def _Tm(self, *m: object) -> None:  # noqa: N802 -- named as the operator
        self.text = times(tuple(map(float, m)), self.state)

    def _Tf(self, operands: list, resources: object) -> None:  # noqa: N802 -- as the operator
        self.font, self.size = resources["/Font"][operands[0]], float(operands[1])

    def _Tj(self, shown: object) -> None:  # noqa: N802 -- named as the operator
        if self.font is not None and "/ToUnicode" in self.font:
            end = put(self.text, _width(shown, self.font) * self.size, 0.0)
            said = _decoded(shown, self.font)
            self.words.append(Word((self.text[4], self.text[5]), said, end))

    def _Do(self, operands: list, resources: object) -> None:  # noqa: N802 -- as the operator
        form = resources["/XObject"][operands[0]]
        if form["/Subtype"] == "/Form":
            before = self.state
            own = tuple(map(float, form.get("/Matrix", UNIT)))
            self.run(form, form.get("/Resources", resources), times(own, before))
            self.state = before


def _width(shown: object, font: object) -> float:
    """Width of shown glyphs in units of the font size, from the font's own list of widths."""
    if not hasattr(shown, "original_bytes"):
        return 0.0
    if "/DescendantFonts" not in font:
        return 0.0
    listed = list(font["/DescendantFonts"][0].get_object().get("/W", []))
    widths: dict[int, float] = {}
    while listed:
        first, then = int(listed.pop(0)), listed.pop(0)
        if isinstance(then, list):
            widths |= {first + i: float(w) for i, w in enumerate(then)}
        else:
            widths |= dict.fromkeys(range(first, int(then) + 1), float(listed.pop(0)))
    raw = shown.original_bytes
    return sum(widths.get(raw[i] << 8 | raw[i + 1], 0.0) for i in range(0, len(raw), 2)) / 1000.0


def _decoded(shown: object, font: object) -> str:
    table = font["/ToUnicode"].get_data().decode()
    letters = {int(g, 16): chr(int(u, 16))
               for g, u in re.findall(r"<([0-9A-F]{4})> <([0-9A-F]{4})>\n", table)}  # fmt: skip
    raw = shown.original_bytes if hasattr(shown, "original_bytes") else b""
    return "".join(letters.get(raw[i] << 8 | raw[i + 1], "?") for i in range(0, len(raw) - 1, 2))


def read_pdf(data: bytes) -> list[Page]:
    """Pages as pypdf reads them."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    pages = []
    for page in reader.pages:
        box = [float(v) for v in page.mediabox]
        own = _Reader(reader)
        own.run(page.get_contents(), page["/Resources"], (MM, 0, 0, MM, -box[0] * MM, -box[1] * MM))
        pages.append(Page((box[2] - box[0]) * MM, (box[3] - box[1]) * MM, own.drawn, own.words))
    return pages


_SVG = "{http://www.w3.org/2000/svg}"


def read_poppler(data: bytes, page: int = 1) -> Page:
    """A page as poppler's pdftocairo draws it: SVG in points, y downwards."""
    with tempfile.TemporaryDirectory() as folder:
        source, target = Path(folder, "in.pdf"), Path(folder, "out.svg")
        source.write_bytes(data)
        # Without the two flags some versions shrink a page that is a thousandth of a point over.
        command = ["pdftocairo", "-svg", "-noshrink", "-nocenter", "-f", str(page), "-l", str(page)]
        subprocess.run([*command, source, target], check=True)
        root = ET.parse(target).getroot()
    width, height = (float(root.get(k).removesuffix("pt")) for k in ("width", "height"))
    drawn: list[Drawn] = []
    _walk(root, (MM, 0, 0, -MM, 0, height * MM), drawn)
    return Page(width * MM, height * MM, drawn, [])


def _walk(node: ET.Element, matrix: Matrix, drawn: list[Drawn]) -> None:
    if node.tag == _SVG + "defs":
        return
    if found := re.fullmatch(r"matrix\((.*)\)", node.get("transform", "")):
        matrix = times(tuple(float(v) for v in re.split(r"[ ,]+", found[1])), matrix)
    style = dict(pair.split(":") for pair in node.get("style", "").strip(";").split(";") if pair)
    look = {**style, **node.attrib}  # older and newer cairo
    if node.tag == _SVG + "path" and look.get("stroke", "none") != "none":
        pen = float(look.get("stroke-width", "1")) * abs(matrix[0] * matrix[3]) ** 0.5
        drawn += _paths(node.get("d"), matrix, pen)
    for child in node:
        _walk(child, matrix, drawn)


def _paths(d: str, matrix: Matrix, pen: float) -> list[Drawn]:
    found: list[Drawn] = []
    for letter, numbers in re.findall(r"([MLCZ])([^MLCZ]*)", d):
        v = [float(t) for t in numbers.split()]
        spots = [put(matrix, v[i], v[i + 1]) for i in range(0, len(v), 2)]
        if letter == "M":
            found.append(Drawn([spots[0]], [], pen, False))
        elif letter == "L":
            found[-1].points.append(spots[0])
        elif letter == "C":
            found[-1].curves.append((found[-1].points[-1], *spots))
            found[-1].points.append(spots[2])
        else:
            found[-1] = found[-1]._replace(closed=True)
            found[-1].points.append(found[-1].points[0])
    return [f for f in found if len(f.points) > 1]
