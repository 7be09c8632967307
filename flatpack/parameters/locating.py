"""Where each key of a TOML text stands; run only when there are faults to report.

The standard reader keeps no positions.  This one is given text which that reader has accepted, so
it may skip values without checking them:

    header   [a.b]  or  [[a.b]]          sets the table that the following keys belong to
    key      a."b c".d = value           dotted, quoted or both
    value    { k = v, ... }  [ v, ... ]  walked into, as keys and entries stand in them
             "..."  '''...'''  1  true   skipped

A path is a tuple of names and, in arrays, of entry numbers counted from 0.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from contextlib import suppress

Path = tuple[str | int, ...]

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_SPACE = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_BLANK = re.compile(r"[ \t]*")
_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}'
    r"|'''.*?'{3,5}"
    r'|"(?:\\.|[^"\\\n])*"'
    r"|'[^'\n]*'",
    re.DOTALL,
)
_PLAIN = re.compile(r"[^,\]}#\n]*")


def lines(source: str) -> dict[Path, int]:
    """Line (from 1) of each key, table and array entry of a valid TOML text."""
    from bisect import bisect_right

    walk = _Locator(source)
    with suppress(RecursionError):  # arrays nested hundreds deep: what was found so far will do
        walk.run()
    offsets = walk.found
    starts = [i + 1 for i, letter in enumerate(source) if letter == "\n"]
    return {path: bisect_right(starts, at) + 1 for path, at in offsets.items()}


def line_of(path: Path, places: Mapping[Path, int]) -> int:
    """Line of a path, else of the nearest table above it; 0 where none of it is in the file."""
    while path:
        if path in places:
            return places[path]
        path = path[:-1]
    return 0


class _Locator:
    """One walk over one text; `found` maps each path to where it first stands."""

    def __init__(self, source: str) -> None:
        self.source = source
        self.at = 0
        self.found: dict[Path, int] = {}
        self.counts: dict[Path, int] = {}

    def run(self) -> None:
        table: Path = ()
        self._skip(_SPACE)
        while self.at < len(self.source):
            if self._next("[["):
                table = self._header(2)
            elif self._next("["):
                table = self._header(1)
            else:
                self._pair(table)
            self._skip(_SPACE)

    def _next(self, mark: str) -> bool:
        return self.source.startswith(mark, self.at)

    def _skip(self, pattern: re.Pattern[str]) -> str:
        match = pattern.match(self.source, self.at)
        assert match is not None  # both patterns also match nothing
        self.at = match.end()
        return match.group()

    def _header(self, brackets: int) -> Path:
        start = self.at
        self.at += brackets
        names = self._key()
        self.at += brackets
        path: Path = ()
        for name in names[:-1]:
            path = self._entered((*path, name), start)
        path = (*path, names[-1])
        self.found.setdefault(path, start)
        if brackets == 2:
            self.counts[path] = self.counts.get(path, -1) + 1
            path = (*path, self.counts[path])
            self.found.setdefault(path, start)
        return path

    def _entered(self, path: Path, start: int) -> Path:
        # A name that leads into an array of tables means its latest entry.
        self.found.setdefault(path, start)
        return (*path, self.counts[path]) if path in self.counts else path

    def _key(self) -> list[str]:
        names = []
        while True:
            self._skip(_BLANK)
            names.append(self._name())
            self._skip(_BLANK)
            if not self._next("."):
                return names
            self.at += 1

    def _name(self) -> str:
        bare = _BARE.match(self.source, self.at)
        if bare is not None:
            self.at = bare.end()
            return bare.group()
        return str(next(iter(tomllib.loads(self._skip(_STRING) + " = 0"))))

    def _pair(self, table: Path) -> None:
        start = self.at
        path = table
        for name in self._key():
            path = (*path, name)
            self.found.setdefault(path, start)
        self.at += 1
        self._skip(_BLANK)
        self._value(path)

    def _value(self, path: Path) -> None:
        if self._next("["):
            self._array(path)
        elif self._next("{"):
            self._inline(path)
        elif self._next('"') or self._next("'"):
            self._skip(_STRING)
        else:
            self._skip(_PLAIN)

    def _array(self, path: Path) -> None:
        self.at += 1
        entry = 0
        while not self._closed("]"):
            self.found.setdefault((*path, entry), self.at)
            self._value((*path, entry))
            entry += 1
            self._comma()

    def _inline(self, path: Path) -> None:
        self.at += 1
        while not self._closed("}"):
            self._pair(path)
            self._comma()

    def _closed(self, mark: str) -> bool:
        self._skip(_SPACE)
        if self._next(mark):
            self.at += 1
            return True
        return False

    def _comma(self) -> None:
        self._skip(_SPACE)
        if self._next(","):
            self.at += 1
