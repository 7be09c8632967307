"""Which kind of table a path is."""

from __future__ import annotations

import os

from flatpack.batch.combinations import Combinations
from flatpack.batch.csv_table import CsvVariants
from flatpack.batch.folder_table import FolderVariants
from flatpack.batch.variants import Variants
from flatpack.errors import ReadError


def table(path: str) -> Variants:
    """The variants of a folder, a `.csv` or a `.toml`.

    Raises:
        ReadError: it can't be read, or is none of them.
        ParameterErrors: keys that aren't known.
    """
    if "\0" in path:
        raise ReadError(path.replace("\0", "?"), "not the name of a file")
    if os.path.isdir(path):
        return FolderVariants(path)
    if path.lower().endswith(".csv"):
        return CsvVariants(path)
    if path.lower().endswith(".toml"):
        return Combinations(path)
    raise ReadError(path, "a table is a .csv, a .toml with lists, or a folder of parameter files")
