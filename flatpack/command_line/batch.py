"""`flatpack batch`: many variants from one table."""

from __future__ import annotations

import os
import signal
import sys
from argparse import Namespace
from collections.abc import Sequence
from contextlib import suppress

from flatpack.batch.choices import Choices
from flatpack.batch.folder import BatchFolder
from flatpack.batch.ledger import Entry
from flatpack.batch.pools import Engine, cluster, processes
from flatpack.batch.running import Order, Outcome
from flatpack.batch.running import run as run_all
from flatpack.batch.tables import table
from flatpack.command_line import own_profiles
from flatpack.command_line.draw import kinds
from flatpack.command_line.progress import Bar
from flatpack.command_line.terminal import Terminal
from flatpack.errors import Fault, ParameterErrors
from flatpack.profiles import load
from flatpack.wording import english_batch as words

_MOST_JOBS = 61
"""More processes than this can't be waited for on every system."""


def run(args: Namespace, terminal: Terminal) -> int:
    """Make the variants; 0 when all are made, 1 when some aren't, 2 when some can't be written."""
    with suppress(ValueError):  # not the main thread, which is the one that signals come to
        signal.signal(signal.SIGTERM, _end)
    choices = _choices(args)
    folder = BatchFolder(args.out)
    variants = table(args.table)
    beside = args.table if os.path.isdir(args.table) else os.path.dirname(args.table)
    texts = own_profiles.texts(args.profiles, beside)
    if choices.stock:
        load(texts).stock(choices.stock)  # a name that isn't known is told once, not by each
    engine = _engine(args)
    bar = Bar(variants, terminal)
    try:
        outcome = run_all(Order(variants, choices, texts, folder), engine, bar.show)
    except BaseException:
        if bar.done:
            terminal.complain(f"{bar.done} variants are done; the same command makes the rest.")
        raise
    finally:
        terminal.progress("")
        engine.close()
    _report(outcome, args.out, terminal)
    if outcome.counts["failed"]:
        return 2
    return int(any(outcome.counts[state] for state in outcome.counts if state != "made"))


def _choices(args: Namespace) -> Choices:
    return Choices(
        only=kinds(args.only),
        paper=args.paper,
        margin=args.margin,
        despite_faults=args.despite_faults,
        stock=args.stock,
    )


def _engine(args: Namespace) -> Engine:
    if not 0 <= args.jobs <= _MOST_JOBS:
        fault = Fault("", 0, "--jobs", str(args.jobs), f"1 to {_MOST_JOBS}", "", "no such number")
        raise ParameterErrors((fault,))
    if args.scheduler:
        return cluster(args.scheduler)
    return processes(args.jobs or min(_MOST_JOBS, os.cpu_count() or 1))


def _report(outcome: Outcome, out: str, terminal: Terminal) -> None:
    terminal.say(terminal.styled(words.counted(outcome.counts), "bold"))
    if outcome.kept:
        terminal.say(f"{outcome.kept} of them were up to date and are as they were.")
    if outcome.troubles:
        terminal.say()
        _list(outcome.troubles, sum(outcome.counts.values()) - outcome.counts["made"], terminal)
    if outcome.strangers:
        few = ", ".join(outcome.strangers[:3])
        more = len(outcome.strangers) - 3
        terminal.say()
        terminal.say(
            f"No longer in the table, left as they are: {few}{f' and {more} more' * (more > 0)}"
        )
    terminal.say()
    terminal.say(f"See {os.path.join(out, 'overview.html')} and summary.csv beside it.")


def _list(troubles: Sequence[Entry], count: int, terminal: Terminal) -> None:
    for entry in troubles:
        label = terminal.styled(f"{words.STATES[entry.state]}: {entry.name}", "fault")
        terminal.say(f"{label} ({entry.place})")
        for line in entry.problem.splitlines():
            terminal.say(f"    {line}")
    if count > len(troubles):
        terminal.say(f"... and {count - len(troubles)} more; summary.csv lists them all.")


def _end(number: int, _frame: object) -> None:
    """Asked to end from outside: as after Ctrl-C."""
    sys.exit(128 + number)
