"""Finds profile files on disk: the shipped ones, then the maker's own folders.

Only names are listed here; a file is opened when `flatpack.profiles` asks for its text.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from flatpack.errors import ReadError


def shipped_folder() -> Path:
    """The folder of shipped profiles: inside the installed package, else the checkout's.

    Raises:
        ReadError: neither is there.
    """
    package = Path(__file__).resolve().parent
    for folder in (package / "_profiles", package.parent / "profiles"):
        if folder.is_dir():
            return folder
    raise ReadError(str(package / "_profiles"), "the shipped profiles are missing; install again")


def read_text(path: str) -> str:
    """The text of a UTF-8 file.

    Raises:
        ReadError: it can't be opened, or isn't UTF-8.
    """
    try:
        with open(path, encoding="utf-8-sig", newline="") as file:
            return file.read()
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        raise ReadError(path, "not UTF-8 text", line) from None
    except (OSError, ValueError) as error:  # ValueError: a path with a null in it
        raise ReadError(path, getattr(error, "strerror", None) or str(error)) from None


class ProfileTexts(Mapping[str, str]):
    """Path -> text of every `.toml` file below some folders, in order; read when asked for."""

    def __init__(self, folders: Sequence[Path]) -> None:
        """List the files of each folder, sorted, one folder after the other."""
        self._paths = dict.fromkeys(path for folder in folders for path in _toml_files(folder))

    def __getitem__(self, path: str) -> str:
        """The text of a file; KeyError for a path that isn't among them."""
        if path not in self._paths:
            raise KeyError(path)
        return read_text(path)

    def __iter__(self) -> Iterator[str]:
        """The paths."""
        return iter(self._paths)

    def __len__(self) -> int:
        """How many files there are."""
        return len(self._paths)


def profile_texts(own: Sequence[str | Path] = ()) -> ProfileTexts:
    """Texts of the shipped profiles, then of the maker's own folders in the order given.

    Raises:
        ReadError: a folder isn't there.
    """
    for folder in own:
        if not Path(folder).is_dir():
            raise ReadError(str(folder), "no such folder of profiles")
    return ProfileTexts([shipped_folder(), *map(Path, own)])


def _toml_files(folder: Path) -> list[str]:
    found = []
    for top, below, files in os.walk(folder):
        below[:] = [name for name in below if not name.startswith(".")]
        base = top.replace(os.sep, "/")
        found += [f"{base}/{file}" for file in files if file.endswith(".toml")]
    return sorted(found)
