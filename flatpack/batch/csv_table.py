"""Variants from a CSV: one row a variant, columns named by dotted keys.

    name,      family,  size.length, boards.timber
    short one, lounger, 1800,        larch-27

Column `name` gives the folder; `base` a parameter file to start from, beside the table; every
other column is a key of the parameter file.  A cell left empty changes nothing.  Rows are read
one after the other.
"""

from __future__ import annotations

import csv
import os
import re
from collections.abc import Iterator
from contextlib import suppress
from typing import Any

from flatpack.batch.cells import cell_value, copied, put
from flatpack.batch.keys import refuse_unknown, said, spec_of
from flatpack.batch.toml_text import toml_text
from flatpack.batch.variants import Variant
from flatpack.errors import FlatpackError, ReadError
from flatpack.parameters.parsing import parsed
from flatpack.profile_files import read_text

_OWN = ("name", "base")
_UNREADABLE = re.compile("[\ud800-\udfff]")


class CsvVariants:
    """The rows of a CSV file as variants."""

    def __init__(self, path: str) -> None:
        """Read the header.

        Raises:
            ReadError: the file can't be opened, or its header is of no use.
            ParameterErrors: columns that no family knows.
        """
        self.path = path
        self._header, self._comma = _header(path)
        own = (*_OWN, "family")
        refuse_unknown([h for h in self._header if h], path, own)
        if "name" not in self._header:
            raise ReadError(path, "a column `name` is needed: it gives each variant its folder", 1)
        twice = [h for i, h in enumerate(self._header) if h and h in self._header[:i]]
        if twice:
            raise ReadError(path, f"two columns are called {said(twice[0])}", 1)
        self._bases: dict[str, dict[str, Any] | str] = {}

    def count(self) -> int:
        """How many rows there are below the header."""
        return sum(1 for _ in self._rows())

    def __iter__(self) -> Iterator[Variant]:
        """The rows in order; one that is of no use says why."""
        for line, row in self._rows():
            yield self._variant(row, f"{self.path}:{line}")

    def _rows(self) -> Iterator[tuple[int, list[str]]]:
        with _opened(self.path) as file:
            reader = csv.reader(file, delimiter=self._comma, strict=True)
            try:
                next(reader, None)
                before = reader.line_num
                for row in reader:
                    if any(cell.strip() for cell in row):
                        yield before + 1, row
                    before = reader.line_num
            except csv.Error as error:
                raise ReadError(self.path, f"not valid CSV: {error}", reader.line_num) from None
            except OSError as error:
                raise ReadError(self.path, error.strerror or str(error)) from None

    def _variant(self, row: list[str], place: str) -> Variant:
        cells = [cell.strip() for cell in row]
        by_name = dict(zip(self._header, cells, strict=False))
        name = by_name.get("name", "")
        if any(map(_UNREADABLE.search, cells)):
            clean = _UNREADABLE.sub("?", name)
            return Variant(clean, "", place, problem="the row isn't UTF-8 text")
        if any(cells[len(self._header) :]):
            return Variant(name, "", place, problem="the row has more cells than there are columns")
        try:
            return self._set(name, by_name, place)
        except FlatpackError as error:
            return Variant(name, "", place, problem=str(error))

    def _set(self, name: str, cells: dict[str, str], place: str) -> Variant:
        values = copied(self._base(cells.get("base", "")))
        if cells.get("family"):
            values["family"] = cells["family"]
        family = values.get("family")
        if not values.get("name"):
            values["name"] = name
        for path, text in cells.items():
            if path and text and path not in (*_OWN, "family"):
                spec = spec_of(family, path)
                value = text if spec is None else cell_value(text, spec)
                if not put(values, path, value):
                    return Variant(name, "", place, problem=f"{said(path)} lies in no table")
        return Variant(name, toml_text(values), place)

    def _base(self, file: str) -> dict[str, Any]:
        """The values of a base file, read once.

        Raises:
            ReadError: it can't be read; said for each row that names it.
        """
        if not file:
            return {}
        if file not in self._bases:
            path = os.path.join(os.path.dirname(self.path), file)
            try:
                self._bases[file] = parsed(read_text(path).removeprefix("\ufeff"), path)
            except ReadError as error:
                self._bases[file] = str(error)
        found = self._bases[file]
        if isinstance(found, str):
            raise ReadError(file, f"the base can't be used: {found}")
        return found


def _opened(path: str) -> Any:
    # What isn't UTF-8 spoils its own row, not the whole table.
    try:
        return open(path, encoding="utf-8-sig", errors="surrogateescape", newline="")
    except (OSError, ValueError) as error:  # ValueError: a path with a null in it
        raise ReadError(path, getattr(error, "strerror", None) or str(error)) from None


def _header(path: str) -> tuple[tuple[str, ...], str]:
    with _opened(path) as file:
        try:
            first = file.readline(1_000_000)
        except OSError as error:
            raise ReadError(path, error.strerror or str(error)) from None
    # Spreadsheets of countries with a decimal comma part their cells by semicolons.
    comma = ";" if first.count(";") > first.count(",") else ","
    with suppress(csv.Error):
        row = next(csv.reader([first], delimiter=comma, strict=True), [])
        return tuple(cell.strip() for cell in row), comma
    raise ReadError(path, "not valid CSV: the header can't be read", 1)
