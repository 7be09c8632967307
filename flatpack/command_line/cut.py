"""`flatpack cut`: what to buy and how to cut it, for the parts of one or several pieces."""

from __future__ import annotations

import os
import re
import signal
from argparse import Namespace
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from flatpack import __version__, job, output_folder
from flatpack.command_line import check, findings, own_profiles
from flatpack.command_line.terminal import Terminal
from flatpack.content_code import content_code
from flatpack.drawings.plans import Needs, bought, layout_path, plan_pages
from flatpack.errors import Fault, ParameterErrors, ProfileError
from flatpack.finding import blocks
from flatpack.manifest import NAME as MANIFEST
from flatpack.manifest import File, manifest
from flatpack.parameters import canonical, nearest, quoted, read_record, replace, words
from flatpack.planning import Asked, Counted, Plans, plans, pool
from flatpack.planning.buying import with_open_prices
from flatpack.planning.glueing import amounts
from flatpack.planning.rests import offcut_file
from flatpack.profile_files import read_text
from flatpack.profiles import Profiles, Stock, Workshop, load
from flatpack.wording import english_plan_pages as said

_COUNT = re.compile(r"([1-9][0-9]{0,3}):(.+)", re.DOTALL)
_NO_COUNT = re.compile(r"([-+]?[0-9.]+):.+", re.DOTALL)


class Named(NamedTuple):
    """A file as it stands on the command line, and how often its piece is made."""

    file: str
    copies: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What is asked for: designs with counts, the stock, the shop to nest for."""

    designs: tuple[tuple[job.Design, int], ...]
    stock: Stock
    shop: Workshop | None
    code: str
    date: str


def named(text: str) -> Named:
    """`3:FILE` is three of FILE, FILE alone is one; a drive's letter is no count.

    Raises:
        ParameterErrors: the number is no count.
    """
    found = _COUNT.fullmatch(text)
    if found:
        return Named(found[2], int(found[1]))
    wrong = None if os.path.exists(text) else _NO_COUNT.fullmatch(text)
    if wrong:
        raise ParameterErrors(
            (Fault("", 0, "COUNT:FILE", quoted(text), "1 to 9999", "", "no such count"),)
        )
    return Named(text, 1)


def run(args: Namespace, terminal: Terminal) -> int:
    """Write the folder; 1 when a design has faults or some part finds no place, else 0."""
    output_folder.check(args.out)
    order = _order(args, terminal)
    faulty = [made for made, _ in order.designs if blocks(made.findings)]
    if faulty and not args.despite_faults:
        for one in faulty:
            check.show(one, terminal)
        terminal.complain(
            "Nothing was written, because a design has faults. To plan it all the same, add\n"
            "--despite-faults."
        )
        return 1
    with _stoppable() as stop:
        made = _planned(order, args, terminal, stop)
    needs = Needs(order.code, order.date, amounts(made.pieces))
    made = with_open_prices(made, bought(made, needs))
    files = _files(made, order, needs)
    output_folder.write(args.out, {name: file.content for name, file in files.items()})
    terminal.progress("")
    _report(made, args.out, len(files), terminal)
    return int(made.incomplete or bool(faulty))


def _order(args: Namespace, terminal: Terminal) -> Order:
    designs = []
    for one in map(named, args.files):
        one_args = Namespace(file=one.file, profiles=args.profiles)
        designs.append((check.design(one_args, terminal), one.copies))
    profiles = load(own_profiles.texts(args.profiles, os.path.dirname(named(args.files[0]).file)))
    stock = _stock(args, profiles)
    shop = _shop(args, designs, profiles) if args.nest else None
    return Order(
        designs=tuple(designs),
        stock=stock,
        shop=shop,
        code=_code(designs, stock, shop),
        date=designs[0][0].assembly.date,
    )


def _stock(args: Namespace, profiles: Profiles) -> Stock:
    """The stock list, with the offcuts of earlier plans."""
    stock = profiles.stock(args.stock)
    for path in args.offcuts:
        more = read_record(Stock, read_text(path), path, known=profiles.known, error=ProfileError,
                           given={"key": "offcuts"})  # fmt: skip
        stock = replace(
            stock,
            boards=(*stock.boards, *more.boards),
            sheets=(*stock.sheets, *more.sheets),
            rods=(*stock.rods, *more.rods),
        )
    return stock


def _shop(
    args: Namespace, designs: Sequence[tuple[job.Design, int]], profiles: Profiles
) -> Workshop:
    """The workshop named, else the one that the files name.

    Raises:
        ParameterErrors: the files name several, or one that has no machine.
    """
    key = args.workshop or designs[0][0].workshop.key
    shop = profiles.workshop(key)
    machines = tuple(w.key for w in profiles.every("workshops") if w.process != "bench")
    others = {made.workshop.key for made, _ in designs}
    if not args.workshop and len(others) > 1:
        raise _refused("the files name different workshops", words(sorted(others)), machines)
    if shop.process == "bench":
        raise _refused("a bench has no machine to nest for", quoted(key), machines)
    return shop


def _refused(message: str, value: str, machines: Sequence[str]) -> ParameterErrors:
    near = nearest(value.strip('"'), machines)
    return ParameterErrors((Fault("", 0, "--workshop", value, words(machines), near, message),))


def _code(designs: Sequence[tuple[job.Design, int]], stock: Stock, shop: Workshop | None) -> str:
    pieces = [f"{count} {made.code}" for made, count in designs]
    texts: tuple[Any, ...] = (__version__, *pieces, canonical(stock))
    return content_code((*texts, canonical(shop) if shop else ""))


def _first(args: Namespace, pieces: Sequence[Counted]) -> tuple[str, ...]:
    """Marks that come first.

    Raises:
        ParameterErrors: one that no part has, with the nearest; a negative time.
    """
    marks = tuple(dict.fromkeys(p.mark for lot in pool(pieces) for p in lot.parts))
    asked = tuple(m.strip() for m in args.first.split(",") if m.strip())
    faults = [
        Fault("", 0, "--first", quoted(m), words(marks), nearest(m, marks), "no part has this mark")
        for m in asked
        if m not in marks
    ]
    if args.seconds < 0:
        faults.append(Fault("", 0, "--seconds", str(args.seconds), "0 or more", "", "negative"))
    if faults:
        raise ParameterErrors(tuple(faults))
    return asked


def _planned(order: Order, args: Namespace, terminal: Terminal, stop: Any) -> Plans:
    def progress(name: str, steps: int, best: float, bound: float) -> None:
        least = f", at least {bound:g}" if bound else ""
        terminal.progress(f"cutting {name}: {steps} steps, best {best:g}{least} ...")

    terminal.progress("planning the cuts ...")
    pieces = [_counted(made, count) for made, count in order.designs]
    asked = Asked(
        stock=order.stock,
        shop=order.shop,
        seconds=args.seconds,
        stop=stop,
        progress=progress,
        accepted={} if args.afresh else _kept(args.out),
        first=_first(args, pieces),
    )
    return plans(pieces, asked)


def _counted(made: job.Design, count: int) -> Counted:
    finishing = made.finishing
    return Counted(
        assembly=made.assembly,
        count=count,
        code=made.code,
        glue=finishing.glue if finishing else None,
        finish=finishing.finish if finishing else None,
        sealer=finishing.sealer if finishing else None,
    )


def _kept(folder: str) -> dict[str, str]:
    """Layouts that an earlier run kept in the folder, by board."""
    found = sorted(Path(folder, "layouts").glob("*.json"))
    return {path.stem: read_text(str(path)) for path in found}


@contextmanager
def _stoppable() -> Iterator[Any]:
    """Ctrl-C once: the search ends with the best so far; twice: all ends."""
    asked: list[int] = []

    def end(number: int, _frame: object) -> None:
        if asked:
            raise KeyboardInterrupt
        asked.append(number)

    try:
        before = signal.signal(signal.SIGINT, end)
    except ValueError:  # not the main thread, which is the one that Ctrl-C comes to
        yield lambda: False
        return
    try:
        yield lambda: bool(asked)
    finally:
        signal.signal(signal.SIGINT, before)


def _files(made: Plans, order: Order, needs: Needs) -> dict[str, File]:
    from flatpack.writers import plain_json

    shop = order.shop or order.designs[0][0].workshop
    drawn = job.written(plan_pages(made, needs), shop)
    drawn["offcuts.toml"] = File(offcut_file(made).encode(), said.PURPOSES["offcuts"])
    for nest in made.nests:
        drawn[layout_path(nest.name)] = File(_layout(nest), said.PURPOSES["layout"])
    told = [{k: v for k, v in f._asdict().items() if k != "tries"} for f in made.findings]
    head = {
        "pieces": said.pieces_line([(p.count, p.assembly.name) for p in made.pieces]),
        "content_code": needs.code,
        "flatpack": __version__,
    }
    state = {"incomplete": made.incomplete, "repeatable": made.repeatable, "findings": told}
    drawn["findings.json"] = File(plain_json.render({**head, **state}), said.PURPOSES["findings"])
    drawn[MANIFEST] = File(manifest(drawn, head), "what each file is for")
    return drawn


def _layout(nest: Any) -> bytes:
    """The layout to keep; it remembers that a clock had a part in it."""
    from flatpack.cutting.nest_records import stored

    text = stored(nest.nest)
    clock = '"by_clock": true, ' if nest.by_clock else ""
    return text.replace("{", "{" + clock, 1).encode()


def _report(made: Plans, folder: str, count: int, terminal: Terminal) -> None:
    from flatpack.command_line.terminal import table
    from flatpack.drawings.plans.lists import summary

    shown = summary(made)
    columns = (0, 1, 2, 4, 5)
    rows = [[str(row[i]) for i in columns] for row in shown.rows]
    for line in table([shown.header[i] for i in columns], rows) if rows else ():
        terminal.say(f"  {line}")
    terminal.say()
    terminal.say(findings.headline(made.findings))
    for line in findings.report(made.findings, terminal):
        terminal.say(line)
    if made.incomplete:
        terminal.say(terminal.styled("The plan is incomplete, and marked so.", "fault"))
    if not made.repeatable:
        terminal.say("The clock or a hand had a part in the plan: another run may find another.")
    terminal.say(f"Wrote {count} files to {folder}; manifest.json says what each is for.")
