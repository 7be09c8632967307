"""The folder of a whole batch: whose it is, what a killed run left in it, what is up to date.

DIR/batch.json          says that the folder is ours, and what the overview's files hold
summary.csv  overview.html  overview-2.html ...
NAME/               a variant's folder, written whole or not at all
.NAME.new-12-0      what a killed run was writing; cleared away by the next run
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from flatpack import output_folder
from flatpack.batch import lock
from flatpack.batch.building import CARD
from flatpack.batch.catalogue import Catalogue
from flatpack.batch.names import STATE
from flatpack.errors import OutputError
from flatpack.manifest import MADE_BY, sha256
from flatpack.manifest import NAME as MANIFEST
from flatpack.output_folder import explained
from flatpack.writers import plain_json

_LEFT = re.compile(r"\.(.+)\.(new|old)-[0-9]+-[0-9]+")


class BatchFolder:
    """The folder as it is now, and what may be done with it."""

    def __init__(self, shown: str) -> None:
        """Look at it; nothing is changed.

        Raises:
            OutputError: it is somebody else's, or no folder.
        """
        if not shown or "\0" in shown:
            raise OutputError(shown.replace("\0", "?"), "not the name of a folder")
        self.shown = shown
        self.path = Path(os.path.realpath(shown))
        with explained(shown):
            if not os.path.lexists(self.path):
                return
            if not self.path.is_dir():
                raise OutputError(shown, "is a file, not a folder: name another one")
            self._refuse_foreign()

    def _refuse_foreign(self) -> None:
        own = (*output_folder.DROPPINGS, lock.NAME)
        with os.scandir(self.path) as entries:
            if all(e.name in own or e.name == STATE + _NEW for e in entries):
                return
        state = _json(self.path / STATE)
        if not isinstance(state, dict) or state.get("made_by") != MADE_BY:
            advice = "move them elsewhere, or name another folder"
            raise OutputError(self.shown, f"holds files that no batch wrote: {advice}")
        for name, sums in _listed(state):
            path = self.path / name
            if path.is_file() and sha256(path.read_bytes()) not in sums:
                advice = "move it elsewhere, or name another folder"
                reason = f"{name} was changed since flatpack wrote it: {advice}"
                raise OutputError(self.shown, reason)

    def open(self) -> None:
        """Make it, and say that it is ours.

        Raises:
            OutputError: it can't be written.
        """
        with explained(self.shown):
            if not (self.path / STATE).exists():
                self._state({})

    def make(self) -> None:
        """Make the folder itself, for the lock to lie in."""
        with explained(self.shown):
            self.path.mkdir(parents=True, exist_ok=True)

    def clear(self) -> None:
        """Take away what killed runs were writing; a folder that was being replaced comes back."""
        with explained(self.shown), os.scandir(self.path) as entries:
            found = sorted(e.name for e in entries if e.is_dir(follow_symlinks=False))
        for name in found:
            match = _LEFT.fullmatch(name)
            if match is not None:
                self._cleared(name, match[1], match[2] == "old")

    def _cleared(self, name: str, target: str, old: bool) -> None:
        path = self.path / name
        if old and not (self.path / target).exists():
            with suppress(OSError):
                os.rename(path, self.path / target)
            return
        if old:  # it may hold what somebody put into it at the last moment
            with suppress(OutputError):
                output_folder.check(str(path))
                _remove(path)
            return
        _remove(path)

    def card(self, name: str) -> dict[str, Any] | None:
        """What a variant's folder says of itself; None where there is no whole one."""
        found = _json(self.path / name / CARD)
        return found if isinstance(found, dict) and "key" in found and "row" in found else None

    def up_to_date(self, name: str, key: str, catalogue: Catalogue) -> dict[str, Any] | None:
        """A variant's card when its folder is whole and as it would be made now."""
        card = self.card(name)
        fresh = (
            card is not None
            and card["key"] == key
            and card.get("name") == name
            and catalogue.same(card.get("profiles", {}))
            and _whole(self.path / name)
        )
        return card if fresh else None

    def write(self, files: Iterable[tuple[str, Iterable[bytes]]]) -> None:
        """Replace the overview's files, one by one; those of an earlier, longer one go.

        A file's content comes piece by piece, so that it may be longer than the memory.

        Raises:
            OutputError: they can't be written.
        """
        with explained(self.shown):
            before = dict(_listed(_json(self.path / STATE)))
            sums = {name: {self._staged(name, pieces)} for name, pieces in files}
            both = {n: sums.get(n, set()) | set(before.get(n, ())) for n in {*sums, *before}}
            self._state(both)  # a kill on the way leaves files that are known either way
            for name in sums:
                os.replace(self.path / (name + _NEW), self.path / name)
            for name in before.keys() - sums.keys():
                with suppress(FileNotFoundError):
                    os.unlink(self.path / name)
            self._state(sums)

    def strangers(self, holds: Any) -> Iterator[str]:
        """Folders of variants that the table has no more, sorted."""
        with os.scandir(self.path) as entries:
            names = (e.name for e in entries if e.is_dir() and not e.name.startswith("."))
            yield from sorted(name for name in names if not holds(name))

    def _state(self, sums: Mapping[str, set[str]]) -> None:
        rows = {name: sorted(every) for name, every in sums.items()}
        self._replace(STATE, plain_json.render({"made_by": MADE_BY, "files": rows}))

    def _replace(self, name: str, content: bytes) -> None:
        self._staged(name, (content,))
        os.replace(self.path / (name + _NEW), self.path / name)

    def _staged(self, name: str, pieces: Iterable[bytes]) -> str:
        """Write a file beside its place; its SHA-256."""
        from hashlib import sha256 as digest

        found = digest()
        with open(self.path / (name + _NEW), "wb") as file:
            for piece in pieces:
                found.update(piece)
                file.write(piece)
        return found.hexdigest()


_NEW = ".new"


def _json(path: Path) -> Any:
    try:
        return json.loads(path.read_bytes())
    except (OSError, ValueError, RecursionError):
        return None


def _listed(state: Any) -> Iterator[tuple[str, list[str]]]:
    rows = state.get("files") if isinstance(state, dict) else None
    if isinstance(rows, dict):
        yield from ((str(name), sums) for name, sums in rows.items() if isinstance(sums, list))


def _whole(folder: Path) -> bool:
    """Whether a folder holds what its manifest says, by name and size."""
    manifest = _json(folder / MANIFEST)
    try:
        rows = {row["name"]: row["bytes"] for row in manifest["files"]}
    except (TypeError, KeyError):
        return False
    rows[MANIFEST] = None
    found = dict(_sizes(folder, ""))
    return found.keys() == rows.keys() and all(
        size is None or found[name] == size for name, size in rows.items()
    )


def _sizes(folder: Path | str, before: str) -> Iterator[tuple[str, int]]:
    try:
        with os.scandir(folder) as entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    yield from _sizes(entry.path, f"{before}{entry.name}/")
                elif entry.name not in output_folder.DROPPINGS:
                    yield before + entry.name, entry.stat(follow_symlinks=False).st_size
    except OSError:
        yield before + "?", 0


def _remove(path: Path) -> None:
    import shutil

    shutil.rmtree(path, ignore_errors=True)
