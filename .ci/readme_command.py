"""Prints the command that stands under a heading of a Markdown file, for CI to run it literally."""

from __future__ import annotations

import re
import sys
from pathlib import Path


def command_under(text: str, heading: str) -> str:
    """The one fenced `sh` block in the section under `heading`.

    Raises:
        LookupError: no such heading, or not exactly one block below it.
    """
    sections = re.split(r"^## +", text, flags=re.MULTILINE)[1:]
    for section in sections:
        title, _, body = section.partition("\n")
        blocks = re.findall(r"^```sh\n(.*?)^```$", body, flags=re.MULTILINE | re.DOTALL)
        if title.strip() == heading and len(blocks) == 1:
            return str(blocks[0]).strip()
    raise LookupError(f"not one command under the heading {heading!r}")


if __name__ == "__main__":
    path, heading = sys.argv[1:]
    print(command_under(Path(path).read_text(encoding="utf-8"), heading))
