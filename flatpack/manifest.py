"""`manifest.json`: every file of an output folder, what it is for, and its SHA-256.

It tells a shop whether a file arrived unchanged, and tells flatpack which files of a folder are
its own, to be replaced, and which are somebody else's, to be left alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

NAME = "manifest.json"

#: Stands in every manifest; a JSON file without it isn't one.
MADE_BY = "flatpack"


class File(NamedTuple):
    """Content of one file to write, and a few words on what it is for."""

    content: bytes
    purpose: str


def manifest(files: Mapping[str, File], head: Mapping[str, str]) -> bytes:
    """The manifest of `files` (all but itself), with the rows of `head` (piece, code, ...)."""
    import json

    rows = [
        {
            "name": name,
            "purpose": files[name].purpose,
            "bytes": len(files[name].content),
            "sha256": sha256(files[name].content),
        }
        for name in sorted(files)
    ]
    whole = {"made_by": MADE_BY, **head, "files": rows}
    return (json.dumps(whole, indent=2, ensure_ascii=False) + "\n").encode()


def listed(text: bytes) -> dict[str, str] | None:
    """Name -> SHA-256 of the files in a manifest; None when the text isn't one of ours."""
    import json

    try:
        whole = json.loads(text)
        if whole["made_by"] != MADE_BY:
            return None
        return {str(row["name"]): str(row["sha256"]) for row in whole["files"]}
    except (ValueError, TypeError, KeyError, RecursionError):
        return None


def sha256(content: bytes) -> str:
    """Hexadecimal SHA-256."""
    from hashlib import sha256 as made

    return made(content).hexdigest()
