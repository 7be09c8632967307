"""Writes a folder of files whole or not at all, and never over anybody else's files.

    DIR not there     write .DIR.new-1234 beside it ──► rename to DIR
    DIR is ours       write .DIR.new-1234 beside it ──► rename DIR to .DIR.old-1234
                                                    ──► rename .DIR.new-1234 to DIR
                                                    ──► look once more, remove .DIR.old-1234
    anything else     refuse

A folder is ours when `manifest.json` in it lists every file that it holds, and each still has the
SHA-256 that stands there; an empty folder is anybody's.  Whatever goes wrong on the way, Ctrl-C
included, leaves DIR as it was and nothing beside it.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath

from flatpack.errors import OutputError
from flatpack.manifest import NAME as MANIFEST
from flatpack.manifest import listed, sha256

#: Files that a desktop drops into every folder that it shows; nobody misses them.
DROPPINGS = frozenset((".DS_Store", "Thumbs.db", "desktop.ini"))

#: Names that Windows keeps for devices, whatever ending follows them.
_DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10)))
)
_LONGEST_NAME = 120
_FORBIDDEN = frozenset('<>:"|?*\\')


def write(folder: str, files: Mapping[str, bytes]) -> None:
    """Make `folder` hold exactly `files` (name with "/" between folders -> content).

    Raises:
        OutputError: the folder holds somebody else's files, can't be written, or is no folder.
        ValueError: a name that isn't a plain relative file name, or two that differ in case only.
    """
    if fault := names_fault(files):
        raise ValueError(f"not to be written: {fault}")
    target = check(folder)
    with explained(folder), _parents(target), _staging(target, "new") as fresh:
        for name, content in files.items():
            _write_file(fresh / name, content)
        _put_in_place(fresh, target, folder)


def check(folder: str) -> Path:
    """The real path of `folder` when it may be written; nothing is changed.

    Raises:
        OutputError: it may not, with the reason and what to do.
    """
    if not folder or "\0" in folder:
        raise OutputError(folder, "not the name of a folder")
    with explained(folder):
        target = Path(os.path.realpath(folder))
        if not os.path.lexists(target):
            return target
        if not target.is_dir():
            raise OutputError(folder, "is a file, not a folder: name another one")
        if Path.cwd().is_relative_to(target):
            raise OutputError(folder, "you are working inside it: name a folder below it instead")
        _refuse_foreign(target, folder)
        return target


def names_fault(names: Iterable[str]) -> str:
    """What keeps these names from being written together on any system; "" when nothing does."""
    seen: dict[str, str] = {}
    for name in names:
        if fault := _name_fault(name):
            return f"{name!r}: {fault}"
        other = seen.setdefault(name.casefold(), name)
        if other != name:
            return f"{other!r} and {name!r} differ in case only"
    # A folder may not bear the name of a file.
    folders = (str(folder) for name in seen for folder in PurePosixPath(name).parents)
    return next((f"{seen[folder]!r} is also a folder" for folder in folders if folder in seen), "")


def _name_fault(name: str) -> str:
    if not name.isprintable() or not _FORBIDDEN.isdisjoint(name):
        return "a character that some system forbids"
    for part in name.split("/"):
        stem = part.partition(".")[0].strip().casefold()
        if part in ("", ".", "..") or part != part.strip() or part.endswith("."):
            return "not a plain relative name"
        if stem in _DEVICES:
            return "a name that some system keeps for a device"
        if len(part.encode()) > _LONGEST_NAME:
            return "too long"
    return ""


def _refuse_foreign(target: Path, shown: str) -> None:
    held = sorted(_held(target))
    known = listed((target / MANIFEST).read_bytes()) if MANIFEST in held else None
    if known is not None:
        known[MANIFEST] = sha256((target / MANIFEST).read_bytes())
    foreign = [name for name in held if name not in (known or {})]
    if foreign:
        raise _foreign(shown, "holds files that flatpack didn't write", foreign)
    changed = [name for name in held if sha256((target / name).read_bytes()) != (known or {})[name]]
    if changed:
        raise _foreign(shown, "holds files that were changed since flatpack wrote them", changed)


def _foreign(shown: str, reason: str, names: list[str]) -> OutputError:
    advice = "move them elsewhere, or name another folder"
    return OutputError(shown, f"{reason} ({_few(names)}): {advice}")


def _few(names: list[str]) -> str:
    return ", ".join(names[:3]) + (f" and {len(names) - 3} more" if len(names) > 3 else "")


def _held(top: Path, below: str = "") -> Iterator[str]:
    """Names of all that a folder holds; links and empty folders count, droppings don't."""
    with os.scandir(top) as entries:
        for entry in sorted(entries, key=lambda e: e.name):
            name = below + entry.name
            if entry.is_dir(follow_symlinks=False):
                inside = list(_held(top / entry.name, f"{name}/"))
                yield from inside or (f"{name}/",)
            elif not entry.is_file(follow_symlinks=False):
                yield f"{name} (a link)" if entry.is_symlink() else f"{name} (no plain file)"
            elif entry.name not in DROPPINGS:
                yield name


def _write_file(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with open(path, "xb") as file:
        file.write(content)


def _put_in_place(fresh: Path, target: Path, shown: str) -> None:
    with _undisturbed():
        if not target.exists():
            os.rename(fresh, target)
            return
        old = _beside(target, "old")
        os.rename(target, old)
        try:
            _refuse_foreign(old, shown)  # a file may have come while we wrote
            os.rename(fresh, target)
        except BaseException:
            os.rename(old, target)
            raise
        _remove(old)


def _beside(target: Path, word: str) -> Path:
    # Process numbers are unique among those that run; a dead one's remains get another number.
    stem, n = f".{target.name}.{word}-{os.getpid()}", 0
    while os.path.lexists(target.with_name(f"{stem}-{n}")):
        n += 1
    return target.with_name(f"{stem}-{n}")


@contextmanager
def _staging(target: Path, word: str) -> Iterator[Path]:
    """A new folder beside `target`, removed if it is still there in the end."""
    made = _beside(target, word)
    try:
        made.mkdir()
        yield made
    finally:
        with _undisturbed():
            _remove(made)


@contextmanager
def _parents(target: Path) -> Iterator[None]:
    """The folders above `target`; those that had to be made go again when something fails."""
    missing = [p for p in target.parents if not p.exists()]
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        yield
    except BaseException:
        for folder in missing:
            with suppress(OSError):
                folder.rmdir()
        raise


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Holds Ctrl-C back for the moment that it takes to put folders in place or to tidy up."""
    import signal

    waiting: list[int] = []
    try:
        before = signal.signal(signal.SIGINT, lambda number, _: waiting.append(number))
    except ValueError:  # not the main thread, which is the one that Ctrl-C comes to
        yield
        return
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
        if waiting:
            signal.raise_signal(signal.SIGINT)


def _remove(folder: Path) -> None:
    # The standard rmtree takes longer to import than a whole set of drawings to write.
    with suppress(OSError):
        with os.scandir(folder) as entries:
            found = list(entries)
        for entry in found:
            if entry.is_dir(follow_symlinks=False):
                _remove(folder / entry.name)
            else:
                with suppress(OSError):
                    os.unlink(entry.path)
        folder.rmdir()


_REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "your share of the disk is full",
    errno.EROFS: "the disk can only be read",
    errno.EACCES: "you may not write there",
    errno.EPERM: "you may not write there",
    errno.ENAMETOOLONG: "the name is too long",
    errno.ENOTDIR: "a part of the path is a file",
    errno.EEXIST: "a part of the path is a file",
    errno.ELOOP: "the path is a link that leads back to itself",
    errno.EXDEV: "it is the top of a disk of its own: name a folder on it",
    errno.EBUSY: "it is in use: name another folder",
}


@contextmanager
def explained(shown: str) -> Iterator[None]:
    """Turns the system's errors into an `OutputError` about the folder `shown`."""
    try:
        yield
    except OSError as error:
        reason = _REASONS.get(error.errno or 0) or error.strerror or str(error)
        raise OutputError(shown, f"can't be written: {reason}") from None
