"""Developer script: makes the empty SVG document with svgwrite; the program itself never runs it.

    python -m flatpack.writers.make_svg_shell

Importing svgwrite takes longer than writing a whole set of drawings, so its document is kept as
data with places in the form %(name)s, and `svg.render` fills in the geometry.
"""

from __future__ import annotations

from pathlib import Path

import svgwrite

PATH = Path(__file__).with_name("templates") / "shell.svg.txt"


def shell() -> str:
    """The document's text with places for size, title, description, font and body."""
    drawing = svgwrite.Drawing(
        size=("%(width)smm", "%(height)smm"), viewBox="0 0 %(width)s %(height)s", debug=False
    )
    drawing.set_desc(title="%(title)s", desc="%(desc)s")
    drawing["font-family"] = "%(fonts)s"
    text = str(drawing.tostring()).replace("<defs />", "\n")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'.replace("</svg>", "%(body)s</svg>")


def main() -> None:
    """Write the document."""
    PATH.write_text(shell(), encoding="ascii", newline="\n")


if __name__ == "__main__":
    main()
