"""What stands on the terminal: plain text, with colour and progress only for a person's eyes."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Sequence
from typing import Literal, TextIO

Style = Literal["bold", "faint", "fault", "warning", "note"]

# Weight tells the severities apart where colours don't.
_CODES: dict[Style, str] = {
    "bold": "1",
    "faint": "2",
    "fault": "1;31",
    "warning": "33",
    "note": "36",
}
_WIDEST = 100


class Terminal:
    """Standard output and error, each with or without colour.

    Colour is left out when the stream is no terminal, when NO_COLOR is set to anything, and on a
    terminal that says that it is dumb.
    """

    def __init__(self) -> None:
        """Take the streams as they are now."""
        # A process may be started without one or the other.
        self.out, self.err = (stream or io.StringIO() for stream in (sys.stdout, sys.stderr))
        self.width = _width() if _is_terminal(self.out) else _WIDEST
        self._coloured = {s for s in (self.out, self.err) if _has_colour(s)}

    def say(self, text: str = "") -> None:
        """A line on standard output."""
        print(text, file=self.out)

    def complain(self, text: str) -> None:
        """A line on standard error, clear of any progress."""
        self.progress("")
        self.out.flush()  # so that both read in order where they go to one file
        print(text, file=self.err)

    @property
    def watched(self) -> bool:
        """Whether progress is shown to anybody."""
        return _is_terminal(self.err) and os.environ.get("TERM") != "dumb"

    def progress(self, text: str) -> None:
        """What is being done, on one line that the next replaces; nothing unless on a terminal."""
        if self.watched:
            print(f"\r\x1b[K{text}", end="", file=self.err, flush=True)

    def styled(self, text: str, style: Style) -> str:
        """The text for standard output, in a style where there is colour."""
        return f"\x1b[{_CODES[style]}m{text}\x1b[0m" if self.out in self._coloured else text


def _is_terminal(stream: TextIO) -> bool:
    return not stream.closed and stream.isatty()


def _has_colour(stream: TextIO) -> bool:
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return not plain and _is_terminal(stream)


def _width() -> int:
    columns = os.environ.get("COLUMNS", "")
    if columns.isdecimal() and int(columns) > 0:
        return min(_WIDEST, int(columns))
    try:
        return min(_WIDEST, os.get_terminal_size(sys.stdout.fileno()).columns or _WIDEST)
    except (OSError, ValueError):
        return _WIDEST


def table(header: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Lines of a table in columns, numbers to the right, under a header and a rule."""
    widths = [max(map(len, column)) for column in zip(header, *rows, strict=True)]
    to_right = [bool(rows) and all(_is_number(row[i]) for row in rows) for i in range(len(header))]
    lines = [header, ["-" * width for width in widths], *rows]
    return ["  ".join(_cells(line, widths, to_right)).rstrip() for line in lines]


def _cells(line: Sequence[str], widths: Sequence[int], to_right: Sequence[bool]) -> list[str]:
    triples = zip(line, widths, to_right, strict=True)
    return [cell.rjust(width) if right else cell.ljust(width) for cell, width, right in triples]


def _is_number(text: str) -> bool:
    return text.replace(".", "", 1).isdecimal()
