"""The commands, what each takes, and an example of each."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, TypeAlias

from flatpack import __version__
from flatpack.command_line import batch_options

if TYPE_CHECKING:  # the class can be subscripted by type checkers alone
    Commands: TypeAlias = argparse._SubParsersAction[argparse.ArgumentParser]

_ABOUT = """\
From one parameter file of a piece of flat-pack garden furniture to drawings that are ready to
cut: layered DXF for a router shop, templates at full size, drilling sheets, cutting lists.
"""
_OVERVIEW = """\
example, from nothing to drawings:
  flatpack new bench my-bench.toml
  flatpack check my-bench.toml
  flatpack draw my-bench.toml --out my-bench

exit status:
  0  no fault
  1  the design has faults; `flatpack check` says which
  2  a file can't be read or written, or holds values that aren't allowed

Work with saws, routers and drills can maim: read your tools' manuals, wear what they ask for,
and follow the rules that hold where you are. A check that passes replaces neither a test of the
finished piece nor the advice of a licensed person where that is required.
"""
KINDS = (
    "parts",
    "boards",
    "drilling",
    "arrangement",
    "moving",
    "folding",
    "lists",
    "job-page",
    "templates",
    "book",
    "strength",
)
LISTS = (
    "families", "boards", "workshops", "hardware", "finishes", "notches", "stock", "loads",
)  # fmt: skip


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    made = argparse.ArgumentParser(
        prog="flatpack",
        description=_ABOUT,
        epilog=_OVERVIEW,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    made.add_argument("--version", action="version", version=f"flatpack {__version__}")
    commands = made.add_subparsers(
        title="commands", dest="command", metavar="COMMAND", required=True
    )
    for add in (_new, _check, _draw, _cut, _batch, _list, _schema, _gallery):
        add(commands)
    return made


def _command(commands: Commands, name: str, short: str, example: str) -> argparse.ArgumentParser:
    made: argparse.ArgumentParser = commands.add_parser(
        name,
        help=short,
        description=short[0].upper() + short[1:] + ".",
        epilog=f"example:\n{example}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    # There is no public way to name this group, and "positional" tells a maker nothing.
    made._positionals.title = "what it takes"
    return made


def _new(commands: Commands) -> None:
    made = _command(
        commands,
        "new",
        "write a parameter file with every key, its unit, its default and what it changes",
        "  flatpack new lounger sun-lounger.toml\n\nA file that is there already is never touched.",
    )
    _family(made)
    made.add_argument("file", metavar="FILE", help="the file to write")


def _check(commands: Commands) -> None:
    made = _command(
        commands,
        "check",
        "say whether a design fits together and can be made, and what to look out for",
        "  flatpack check sun-lounger.toml\n"
        "  flatpack check sun-lounger.toml --json > findings.json\n"
        "  flatpack check sun-lounger.toml --remedies",
    )
    _parameter_file(made)
    made.add_argument("--json", action="store_true", help="findings as JSON, for a program")
    made.add_argument(
        "--remedies",
        action="store_true",
        help="look for the cheapest change against each overload by building the piece with it;"
        " takes some seconds",
    )


def _draw(commands: Commands) -> None:
    made = _command(
        commands,
        "draw",
        "write drawings, lists and workings of a design into a folder",
        "  flatpack draw sun-lounger.toml --out sun-lounger\n"
        "  flatpack draw sun-lounger.toml --out for-the-shop --only parts,boards,job-page\n"
        "  flatpack draw sun-lounger.toml --out paper --only templates --paper A3\n\n"
        "The folder is written whole or not at all. One that flatpack wrote before is replaced;\n"
        "one that holds anything else is left alone.",
    )
    _parameter_file(made)
    made.add_argument("--out", metavar="DIR", required=True, help="the folder to write")
    made.add_argument(
        "--despite-faults",
        action="store_true",
        help="draw a design that has faults; every sheet is then marked as not for cutting",
    )
    made.add_argument(
        "--only",
        metavar="KIND,KIND",
        default="",
        help=f"write only these kinds of sheet: {', '.join(KINDS)}",
    )
    made.add_argument(
        "--paper",
        metavar="PAPER",
        default="A4",
        help="paper of the templates: A4 to A0, Letter, Legal, Tabloid, or roll:WIDTH in mm",
    )
    made.add_argument(
        "--margin",
        metavar="MM",
        type=float,
        default=5.0,
        help="edge of the paper that the printer can't reach, 5 unless told",
    )
    made.add_argument(
        "--printed",
        metavar="SHORT,LONG",
        default="",
        help="measured lengths of a printed page's two rulers, along the paper's short and long"
        " side; the templates are then corrected for that printer",
    )


def _cut(commands: Commands) -> None:
    made = _command(
        commands,
        "cut",
        "plan what to buy and how to cut it, for one piece or several together",
        "  flatpack cut sun-lounger.toml --out timber\n"
        "  flatpack cut sun-lounger.toml 3:bench.toml --stock my-yard --out timber\n"
        "  flatpack cut sun-lounger.toml --nest --workshop small-router --out for-the-router\n\n"
        "3:bench.toml makes three of that bench. Planed boards get a cross-cut plan, sheets a\n"
        "plan for the panel saw, or with --nest a layout for a router or laser. Prices, offcuts\n"
        "and what the saws can do stand in a stock list; see `flatpack list stock`.",
    )
    made.add_argument("files", metavar="FILE", nargs="+", help="a parameter file, or COUNT:FILE")
    _profiles(made, "beside the first FILE")
    made.add_argument("--out", metavar="DIR", required=True, help="the folder to write")
    made.add_argument("--stock", metavar="NAME", default="default", help="the stock list")
    made.add_argument(
        "--offcuts",
        metavar="FILE",
        action="append",
        default=[],
        help="offcuts.toml of an earlier plan, used first; may be given several times",
    )
    made.add_argument("--nest", action="store_true", help="nest sheets for a router or laser")
    made.add_argument(
        "--workshop", metavar="NAME", default="", help="the machine to nest for; else as in FILE"
    )
    made.add_argument(
        "--first", metavar="MARK,MARK", default="", help="parts that are placed before all others"
    )
    made.add_argument(
        "--seconds",
        metavar="N",
        type=int,
        default=0,
        help="search each board for so long at most; a nest is then searched by the clock",
    )
    made.add_argument(
        "--afresh", action="store_true", help="don't use the layouts kept in DIR by an earlier run"
    )
    made.add_argument("--despite-faults", action="store_true", help="plan a design that has faults")


def _batch(commands: Commands) -> None:
    made = _command(commands, "batch", batch_options.SHORT, batch_options.EXAMPLE)
    _profiles(made, "beside TABLE")
    batch_options.add(made, KINDS)


def _list(commands: Commands) -> None:
    made = _command(
        commands,
        "list",
        "say what a parameter file may name: families, boards, workshops, hardware",
        "  flatpack list boards\n  flatpack list hardware --profiles my-profiles",
    )
    made.add_argument("what", nargs="?", choices=LISTS, metavar="WHAT", help=", ".join(LISTS))
    _profiles(made, "in the current folder")


def _schema(commands: Commands) -> None:
    made = _command(
        commands,
        "schema",
        "print the JSON Schema of a family's parameter file, for completion in an editor",
        "  flatpack schema bench > bench.schema.json",
    )
    _family(made)


def _gallery(commands: Commands) -> None:
    made = _command(
        commands,
        "gallery",
        "draw a page of pictures: the example pieces of every family, every shape of part",
        "  flatpack gallery --out gallery",
    )
    made.add_argument("--out", metavar="DIR", required=True, help="the folder to write")
    _profiles(made, "in the current folder")


def _family(made: argparse.ArgumentParser) -> None:
    help_ = "which piece of furniture; see `flatpack list families`"
    made.add_argument("family", metavar="FAMILY", help=help_)


def _parameter_file(made: argparse.ArgumentParser) -> None:
    made.add_argument("file", metavar="FILE", help="a parameter file")
    _profiles(made, "beside FILE")


def _profiles(made: argparse.ArgumentParser, beside: str) -> None:
    made.add_argument(
        "--profiles",
        metavar="DIR",
        action="append",
        default=[],
        help="a folder of your own boards, hardware and workshops; may be given several times;"
        f" a folder `profiles` {beside} is always looked into",
    )
