"""`flatpack check`: the findings of one parameter file."""

from __future__ import annotations

import os
from argparse import Namespace

from flatpack import job
from flatpack.command_line import findings, own_profiles
from flatpack.command_line.terminal import Terminal
from flatpack.errors import FaultsError, FlatpackError, ReadError
from flatpack.finding import blocks
from flatpack.profile_files import read_text


def run(args: Namespace, terminal: Terminal) -> int:
    """Print the findings; 1 when there is a fault, else 0."""
    try:
        made = design(args, terminal)
    except FlatpackError as error:
        if args.json:
            terminal.say(_refusal(error).decode().rstrip())
        raise
    if args.json:
        terminal.say(job.findings_json(made).decode().rstrip())
    else:
        show(made, terminal)
    return int(blocks(made.findings))


def design(args: Namespace, terminal: Terminal) -> job.Design:
    """The design in the file that was named.

    Raises:
        ReadError: a file can't be read or isn't TOML.
        ParameterErrors: values that aren't allowed.
        ProfileError: faults in a profile.
    """
    terminal.progress(f"reading and proving {args.file} ...")
    texts = own_profiles.texts(args.profiles, os.path.dirname(args.file))
    made = job.design(read_text(args.file), args.file, texts)
    terminal.progress("")
    return made


def show(made: job.Design, terminal: Terminal) -> None:
    """Headline, then every finding, worst first."""
    name, code = made.assembly.name, made.code
    terminal.say(terminal.styled(f"{name} ({made.family}), content code {code}", "bold"))
    terminal.say(findings.headline(made.findings))
    if made.findings:
        terminal.say()
    for line in findings.report(made.findings, terminal):
        terminal.say(line)


def _refusal(error: FlatpackError) -> bytes:
    """Why there are no findings, for a program."""
    from flatpack.writers import plain_json

    rows = [fault._asdict() for fault in error.faults] if isinstance(error, FaultsError) else []
    if isinstance(error, ReadError):
        rows = [{"file": error.file, "line": error.line, "column": error.column,
                 "message": error.reason}]  # fmt: skip
    return plain_json.render({"error": str(error), "faults": rows})
