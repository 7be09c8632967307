"""Variants from a folder of parameter files: each is a variant that bears its file's name."""

from __future__ import annotations

import os
from collections.abc import Iterator

from flatpack.batch.variants import Variant
from flatpack.errors import ReadError
from flatpack.profile_files import read_text


class FolderVariants:
    """The `.toml` files of a folder, sorted by name; folders in it are left alone."""

    def __init__(self, path: str) -> None:
        """List the files.

        Raises:
            ReadError: the folder can't be read, or holds no parameter file.
        """
        self.path = path
        try:
            with os.scandir(path) as entries:
                found = [e.name for e in entries if e.name.endswith(".toml") and e.is_file()]
        except OSError as error:
            raise ReadError(path, error.strerror or str(error)) from None
        self._files = sorted(name for name in found if not name.startswith("."))
        if not self._files:
            raise ReadError(path, "no parameter file (.toml) lies in this folder")

    def count(self) -> int:
        """How many files there are."""
        return len(self._files)

    def __iter__(self) -> Iterator[Variant]:
        """One variant a file, read when its turn comes."""
        for file in self._files:
            path = os.path.join(self.path, file)
            name = file.removesuffix(".toml")
            try:
                yield Variant(name, read_text(path), path, written=True)
            except ReadError as error:
                yield Variant(name, "", path, problem=str(error))
