"""The command `flatpack`: runs one command, turns errors into words and an exit status.

0    no fault
1    the design has faults
2    a file can't be read or written, or holds values that aren't allowed
70   a bug in flatpack
130  stopped by Ctrl-C        141  whoever read the output went away
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from importlib import import_module
from typing import NoReturn

from flatpack.command_line.parser import parser
from flatpack.command_line.terminal import Terminal
from flatpack.errors import FaultsError, FlatpackError

#: Imported when it is run, so that a command pays only for itself.
COMMANDS = {
    "new": "flatpack.command_line.new",
    "check": "flatpack.command_line.check",
    "draw": "flatpack.command_line.draw",
    "cut": "flatpack.command_line.cut",
    "batch": "flatpack.command_line.batch",
    "list": "flatpack.command_line.listing",
    "schema": "flatpack.command_line.schema",
    "gallery": "flatpack.command_line.gallery",
}


def program() -> NoReturn:
    """The installed command: `main` in a process of its own, which lives for a moment only."""
    # Looking for garbage often and taking the process apart at its end cost a tenth of the time
    # that drawing takes; the system gets all the memory back in any case.
    gc.set_threshold(1_000_000, 50, 50)
    status = main()
    for stream in filter(None, (sys.stdout, sys.stderr)):
        with suppress(OSError, ValueError):  # closed, or its reader has gone
            stream.flush()
    os._exit(status)


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command that `argv` (by default the process's own) asks for; the exit status."""
    _forgive_odd_letters()
    args = parser().parse_args(argv)
    terminal = Terminal()
    return _guarded(lambda: _run(args.command, args, terminal), terminal)


def _run(command: str, args: object, terminal: Terminal) -> int:
    status: int = import_module(COMMANDS[command]).run(args, terminal)
    terminal.out.flush()
    return status


def _guarded(run: Callable[[], int], terminal: Terminal) -> int:
    try:
        return run()
    except FlatpackError as error:
        terminal.complain(_refusal(error))
        return 2
    except KeyboardInterrupt:
        terminal.complain("stopped")
        return 130
    except BrokenPipeError:
        _write_no_more()
        return 141
    except OSError as error:  # what reads and writes files explains its own; this is the terminal
        _write_no_more()
        terminal.complain(f"flatpack can't write what it has to say: {error.strerror or error}")
        return 2
    except Exception as error:  # the last resort: whatever it is, it is a bug
        if os.environ.get("FLATPACK_TRACE"):
            raise
        terminal.complain(_bug(error))
        return 70


def _write_no_more() -> None:
    """What is still waiting to be written would fail again when Python ends."""
    with suppress(OSError, ValueError):  # ValueError: a stream that isn't a file
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _refusal(error: FlatpackError) -> str:
    if not isinstance(error, FaultsError):
        return str(error)
    count = len(error.faults)
    return f"{error}\n{count} {'value is' if count == 1 else 'values are'} not allowed."


def _bug(error: Exception) -> str:
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f"{trace.tb_frame.f_globals.get('__name__')}:{trace.tb_lineno}" if trace else "?"
    return (
        f"flatpack has a bug: {type(error).__name__}: {error} ({where})\n"
        "Your file isn't to blame. To report it, send your parameter file together with what the\n"
        "same command prints when the environment variable FLATPACK_TRACE is set to 1."
    )


def _forgive_odd_letters() -> None:
    # A terminal that can't show a letter gets a question mark instead of an error.
    for stream in filter(None, (sys.stdout, sys.stderr)):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


if __name__ == "__main__":
    program()
