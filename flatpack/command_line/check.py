"""`flatpack check`: the findings of one parameter file, strength and safety among them."""

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
        made = judged(design(args, terminal), terminal, remedies=args.remedies)
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


def judged(made: job.Design, terminal: Terminal, *, remedies: bool = False) -> job.Design:
    """The design with its strength and safety judged.

    Raises:
        ProfileError: faults in a profile of a material or of loads.
    """
    what = "trying changes against overloads" if remedies else "working out the strength"
    terminal.progress(f"{what} of {made.assembly.name} ...")
    found = job.with_strength(made, remedies=remedies)
    terminal.progress("")
    return found


def show(made: job.Design, terminal: Terminal) -> None:
    """Headline, which opens with what wasn't judged, then every finding, worst first."""
    name, code = made.assembly.name, made.code
    terminal.say(terminal.styled(f"{name} ({made.family}), content code {code}", "bold"))
    if made.strength is not None:
        terminal.say(f"Strength: {made.strength.headline}.")
        if made.strength.over and not made.strength.remedies:
            terminal.say("No remedies were sought: `flatpack check FILE --remedies` tries them.")
    terminal.say(findings.verdict(made.findings, made.strength))
    terminal.say(findings.headline(made.findings))
    if together := findings.told(made.findings):
        terminal.say(together)
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
