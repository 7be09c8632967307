"""`flatpack draw`: a folder with everything that shop, merchant and bench need."""

from __future__ import annotations

import signal
import sys
from argparse import Namespace
from typing import TYPE_CHECKING

from flatpack import job, output_folder
from flatpack.command_line import check, summary
from flatpack.command_line.parser import KINDS
from flatpack.command_line.terminal import Terminal
from flatpack.errors import Fault, ParameterErrors
from flatpack.finding import blocks
from flatpack.parameters import nearest, quoted, words

if TYPE_CHECKING:
    from flatpack.drawings.templates import PrintSettings


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
    only, printing = kinds(args.only), None
    if "templates" in only:
        printing = print_settings(args)
        made = job.with_printing(made, printing)
        if blocks(made.findings) and not faulty:
            check.show(made, terminal)
            terminal.complain("Nothing was written, because the templates can't be printed so.")
            return 1
    if "strength" in only:
        made = check.judged(made, terminal)
        terminal.progress(f"drawing {made.assembly.name} ...")
    sheets = job.sheets(made, only, printing)
    files = job.files(made, sheets)
    output_folder.write(args.out, {name: file.content for name, file in files.items()})
    terminal.progress("")
    summary.show(sheets, terminal)
    check.show(made, terminal)
    _close(args.out, len(files), faulty, terminal)
    return int(faulty)


def kinds(asked: str) -> tuple[str, ...]:
    """The kinds of sheet named, all when none is.

    Raises:
        ParameterErrors: a name that isn't one, with the nearest that is.
    """
    named = tuple(name.strip() for name in asked.split(",") if name.strip())
    faults = tuple(
        Fault("", 0, "--only", quoted(n), words(KINDS), nearest(n, KINDS), "no such kind of sheet")
        for n in named
        if n not in KINDS
    )
    if faults:
        raise ParameterErrors(faults)
    return named or KINDS


def print_settings(args: Namespace) -> PrintSettings:
    """How the templates are printed, from the command line.

    Raises:
        ParameterErrors: the rulers' lengths aren't two numbers.
    """
    from flatpack.drawings.templates import PrintSettings

    return PrintSettings(paper=args.paper, margin=args.margin, printed=rulers(args.printed))


def rulers(asked: str) -> tuple[float, float] | None:
    """The two measured lengths in `--printed`, None when it isn't given.

    Raises:
        ParameterErrors: they aren't two numbers above zero.
    """
    if not asked:
        return None
    try:
        short, long = (float(text) for text in asked.split(","))
        fit = 0.0 < short < 1e5 and 0.0 < long < 1e5
    except ValueError:
        fit = False
    if not fit:
        allowed = "two lengths in mm, such as 189.5,269"
        fault = Fault("", 0, "--printed", quoted(asked), allowed, "", "not two lengths")
        raise ParameterErrors((fault,))
    return short, long


def _close(folder: str, count: int, faulty: bool, terminal: Terminal) -> None:
    terminal.say()
    terminal.say(f"Wrote {count} files to {folder}; manifest.json says what each is for.")
    if faulty:
        warning = "The design has faults: every sheet is marked as not for cutting."
        terminal.say(terminal.styled(warning, "fault"))


def _end(number: int, _frame: object) -> None:
    """Asked to end from outside: tidy up on the way, as after Ctrl-C."""
    sys.exit(128 + number)
