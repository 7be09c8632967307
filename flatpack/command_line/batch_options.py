"""What `flatpack batch` takes."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

SHORT = "make many variants of pieces, one folder each, with a summary and an overview"
EXAMPLE = """\
  flatpack batch sizes.csv --out catalogue
  flatpack batch all-sizes.toml --out catalogue --only parts,lists,book --jobs 4
  flatpack batch my-pieces --out catalogue --stock my-yard

TABLE is one of
  a .csv     a row a variant: column `name` names its folder, `family` or `base` (a parameter
             file) what it is; every other column is a key such as size.length; an empty cell
             changes nothing; several values in a cell are parted by semicolons
  a .toml    base = "file.toml", then below [vary] a list of values per key: all combinations,
             but for those that a block [[without]] shuts out
  a folder   every .toml in it is a variant

A run that was stopped goes on where it was when it is started again, and only what has changed
is made anew: parameters, profiles or the program. What fails is listed; the others are made.
Design faults keep a variant from being drawn; its folder then holds the findings.

exit status:
  0  every variant was made
  1  some have faults or were refused; summary.csv says why
  2  the table can't be read, or some couldn't be written"""


def add(made: argparse.ArgumentParser, kinds: Sequence[str]) -> None:
    """Add them."""
    made.add_argument("table", metavar="TABLE", help="a .csv, a .toml, or a folder")
    made.add_argument("--out", metavar="DIR", required=True, help="the folder of all variants")
    made.add_argument(
        "--jobs", metavar="N", type=int, default=0, help="how many to make at once; as a rule all"
        " that this machine can"
    )  # fmt: skip
    made.add_argument(
        "--only",
        metavar="KIND,KIND",
        default="",
        help=f"write only these kinds of sheet: {', '.join(kinds)}",
    )
    made.add_argument(
        "--paper", metavar="PAPER", default="A4", help="paper of the templates, as for `draw`"
    )
    made.add_argument(
        "--margin", metavar="MM", type=float, default=5.0, help="edge that the printer can't reach"
    )
    made.add_argument(
        "--stock",
        metavar="NAME",
        default="",
        help="plan the timber of each variant from this stock list; adds price and waste",
    )
    made.add_argument(
        "--despite-faults",
        action="store_true",
        help="draw designs that have faults; every sheet is then marked as not for cutting",
    )
    made.add_argument(
        "--scheduler",
        metavar="ADDRESS",
        default="",
        help="let the workers of a dask scheduler do the work, such as tcp://10.0.0.5:8786;"
        " needs the extra `cluster`",
    )
