"""What a variant is made from, as short digests, so that a later run knows what has changed.

    key of a variant = SHA-256 of  the program        every module and template of the package
                                   the choices        kinds of sheet, paper, stock list ...
                                   its own text       the whole parameter file
                                   profiles it used   each by kind and key, with its text

Which profiles a variant uses is known only when it has been made; it is kept beside the key.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from flatpack import __version__
from flatpack.manifest import sha256
from flatpack.pieces import PIECES

#: In place of a key: the list of all keys of a kind.
EVERY = "*"


class Recorded(Mapping[str, str]):
    """Texts of profiles that remember which of them were asked for."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        """Nothing was asked for yet."""
        self._texts = texts
        self.asked: set[str] = set()

    def __getitem__(self, path: str) -> str:
        """The text, noted as used."""
        self.asked.add(path)
        return self._texts[path]

    def __iter__(self) -> Iterator[str]:
        """The paths."""
        return iter(self._texts)

    def __len__(self) -> int:
        """How many there are."""
        return len(self._texts)


class Catalogue:
    """Digests of all profiles by "kind/key"; of several with one name the last counts."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        """Digest every text."""
        self._paths: dict[str, str] = {}
        kinds: dict[str, list[str]] = {}
        for path in texts:
            kind, key = path.removesuffix(".toml").split("/")[-2:]
            self._paths[f"{kind}/{key}"] = path
        for name in sorted(self._paths):
            kind, _, key = name.partition("/")
            kinds.setdefault(kind, []).append(key)
        self._sums = {name: _short(texts[path]) for name, path in self._paths.items()}
        self._names = {path: name for name, path in self._paths.items()}
        self._kinds = kinds
        for kind, keys in kinds.items():
            self._sums[f"{kind}/{EVERY}"] = _short("\n".join(keys))

    def used(self, paths: Iterable[str], refused: bool = False) -> dict[str, str]:
        """Name -> digest of the profiles behind some paths, sorted.

        Where every profile of a kind was read, one more would have been read as well, so the list
        of that kind's names counts too.  What was refused may have named a profile that isn't
        there; all lists count then.
        """
        names = {self._names[path] for path in paths if path in self._names}
        for kind, keys in self._kinds.items():
            if refused or all(f"{kind}/{key}" in names for key in keys):
                names.add(f"{kind}/{EVERY}")
        return {name: self._sums[name] for name in sorted(names)}

    def same(self, used: Mapping[str, str]) -> bool:
        """Whether profiles used before are still what they were."""
        return all(self._sums.get(name) == digest for name, digest in used.items())


def program() -> str:
    """Version and digest of the package itself: a program that was changed makes all anew.

    Packages that bring families count with their versions.
    """
    top = Path(__file__).resolve().parents[1]
    files = sorted(p for p in top.rglob("*") if p.suffix in _CODE and "_profiles" not in p.parts)
    rows = (f"{p.relative_to(top).as_posix()} {sha256(_bare(p))}" for p in files)
    return f"{__version__} {_short(chr(10).join((*rows, *PIECES.packages())))}"


_CODE = (".py", ".txt", ".js", ".css", ".ttf")


def _bare(path: Path) -> bytes:
    # A checkout on another system may end its lines otherwise.
    return path.read_bytes().replace(b"\r\n", b"\n")


def key_of(text: str, choices: Mapping[str, object], made_by: str) -> str:
    """Digest of everything but the profiles."""
    return _short(json.dumps([made_by, choices, text], sort_keys=True))


def _short(text: str) -> str:
    return sha256(text.encode("utf-8", "surrogatepass"))[:32]
