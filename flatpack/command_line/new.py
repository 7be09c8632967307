"""`flatpack new`: a commented parameter file to start from."""

from __future__ import annotations

import os
from argparse import Namespace
from typing import Any

from flatpack.command_line.terminal import Terminal
from flatpack.errors import Fault, OutputError, ParameterErrors
from flatpack.parameters import template


def run(args: Namespace, terminal: Terminal) -> int:
    """Write the file, never over another."""
    text = template(record_of(args.family), args.family)
    _write(args.file, text.encode())
    terminal.say(f"Wrote {args.file}: family {args.family}, every key with its unit and default.")
    terminal.say(f"Change what you like, then: flatpack check {args.file}")
    return 0


def record_of(family: str) -> Any:
    """The record class of a family.

    Raises:
        ParameterErrors: there is no such family.
    """
    from flatpack.pieces import PIECES

    if family not in PIECES:
        raise ParameterErrors((_unknown(family, list(PIECES)),))
    return PIECES[family].record


def _unknown(family: str, families: list[str]) -> Fault:
    from flatpack.parameters.describing import quoted, words
    from flatpack.parameters.values import nearest

    like = nearest(family, families)
    return Fault("", 0, "FAMILY", quoted(family), words(families), like, "no such family")


def _write(path: str, content: bytes) -> None:
    """A new file, whole or not at all.

    Raises:
        OutputError: it is there already, or can't be written.
    """
    try:
        with open(path, "xb") as file:
            try:
                file.write(content)
                file.flush()
            except BaseException:
                os.unlink(path)
                raise
    except FileExistsError:
        raise OutputError(path, "is there already and stays as it is: name a new file") from None
    except (OSError, ValueError) as error:  # ValueError: a null in the name
        reason = getattr(error, "strerror", None) or str(error)
        raise OutputError(path, f"can't be written: {reason}") from None
