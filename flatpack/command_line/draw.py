"""`flatpack draw`: a folder with everything that shop, merchant and bench need."""

from __future__ import annotations

import signal
import sys
from argparse import Namespace

from flatpack import job, output_folder
from flatpack.command_line import check, summary
from flatpack.command_line.terminal import Terminal
from flatpack.finding import blocks


def run(args: Namespace, terminal: Terminal) -> int:
    """Write the folder; 1 when the design has faults, else 0."""
    signal.signal(signal.SIGTERM, _end)
    output_folder.check(args.out)
    made = check.design(args, terminal)
    faulty = blocks(made.findings)
    if faulty and not args.despite_faults:
        check.show(made, terminal)
        terminal.complain(
            "Nothing was written, because the design has faults. To draw it all the same, every\n"
            "sheet marked as not for cutting, add --despite-faults."
        )
        return 1
    terminal.progress(f"drawing {made.assembly.name} ...")
    sheets = job.sheets(made)
    files = job.files(made, sheets)
    output_folder.write(args.out, {name: file.content for name, file in files.items()})
    terminal.progress("")
    summary.show(sheets, terminal)
    check.show(made, terminal)
    _close(args.out, len(files), faulty, terminal)
    return int(faulty)


def _close(folder: str, count: int, faulty: bool, terminal: Terminal) -> None:
    terminal.say()
    terminal.say(f"Wrote {count} files to {folder}; manifest.json says what each is for.")
    if faulty:
        warning = "The design has faults: every sheet is marked as not for cutting."
        terminal.say(terminal.styled(warning, "fault"))


def _end(number: int, _frame: object) -> None:
    """Asked to end from outside: tidy up on the way, as after Ctrl-C."""
    sys.exit(128 + number)
