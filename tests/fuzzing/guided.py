"""A coverage-guided fuzzer over the readers: parameter files, profiles and stock lists, tables.

    pip install atheris
    python tests/fuzzing/guided.py parameters -max_total_time=600
    python tests/fuzzing/guided.py profiles   -max_total_time=600
    python tests/fuzzing/guided.py tables     -max_total_time=600

Whatever comes out must be a record, a piece with findings, or an error of flatpack's own tree;
anything else stops the run with the input that did it.  Options are libFuzzer's.
"""

from __future__ import annotations

import os
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from itertools import islice
from pathlib import Path, PurePosixPath

import atheris

with atheris.instrument_imports(include=["flatpack", "tomllib", "csv"]):
    from flatpack import job
    from flatpack.batch.tables import table
    from flatpack.errors import FlatpackError
    from flatpack.profile_files import profile_texts
    from flatpack.profiles import KINDS, load

SHIPPED = profile_texts()
BY_KIND = {
    kind: sorted(p for p in SHIPPED if PurePosixPath(p).parent.name == kind) for kind in KINDS
}
PIECES = sorted((Path(__file__).parents[2] / "profiles" / "pieces").glob("*.toml"))
VALUES = ("0", "-1", "1e308", "nan", "inf", "true", "[]", "[0]", '""', '"3/4 in"', '"x"', "{}",
          "10", "25.4", "1000", "2030-05-01", '"ply-18"', "99999999999999999999")  # fmt: skip
FOLDER = Path(tempfile.mkdtemp(prefix="guided-"))


def changed(data: atheris.FuzzedDataProvider, text: str) -> str:
    """A good file with a few rows changed, dropped or doubled, or raw text behind it."""
    rows = text.splitlines()
    for _ in range(data.ConsumeIntInRange(1, 4)):
        n = data.ConsumeIntInRange(0, len(rows) - 1)
        way = data.ConsumeIntInRange(0, 4)
        head = rows[n].split(" = ")[0]
        if way == 0:
            rows[n] = f"{head} = {VALUES[data.ConsumeIntInRange(0, len(VALUES) - 1)]}"
        elif way == 1:
            rows[n] = f"{head} = {data.ConsumeFloat()!r}"
        elif way == 2:
            rows[n] = f"{head} = {data.ConsumeIntInRange(-10, 3000)}"
        elif way == 3:
            rows[n] = data.ConsumeUnicodeNoSurrogates(30)
        else:
            rows.insert(n, rows[data.ConsumeIntInRange(0, len(rows) - 1)])
    return "\n".join(rows)


def parameters(raw: bytes) -> None:
    """A parameter file to a design: read, built, every check run."""
    data = atheris.FuzzedDataProvider(raw)
    piece = PIECES[data.ConsumeIntInRange(0, len(PIECES) - 1)]
    text = changed(data, piece.read_text(encoding="utf-8"))
    with suppress(FlatpackError):
        made = job.design(text, "fuzzed.toml", SHIPPED)
        assert all(f.message and f.severity for f in made.findings)


def profiles(raw: bytes) -> None:
    """One profile of any kind."""
    data = atheris.FuzzedDataProvider(raw)
    kind = sorted(KINDS)[data.ConsumeIntInRange(0, len(KINDS) - 1)]
    files = BY_KIND[kind]
    text = changed(data, SHIPPED[files[data.ConsumeIntInRange(0, len(files) - 1)]])
    with suppress(FlatpackError):
        assert load({f"own/{kind}/one.toml": text}).get(kind, "one").key == "one"


def tables(raw: bytes) -> None:
    """A batch table, as CSV or as combinations."""
    data = atheris.FuzzedDataProvider(raw)
    csv = data.ConsumeBool()
    text = (
        "name,base,size.length,seat.gap,arms.use,boards.timber\n"
        "a,bench.toml,1500,8.5,yes,ply-18\nb,bench.toml,,,,\n"
        if csv
        else 'base = "bench.toml"\nname = "{size.length}"\n[vary]\n"size.length" = [1400, 1500]\n'
        '"seat.gap" = [8, 9.5]\n[[without]]\n"size.length" = 1400\n"seat.gap" = 8\n'
    )
    path = FOLDER / ("t.csv" if csv else "t.toml")
    with suppress(FlatpackError):
        path.write_text(changed(data, text), encoding="utf-8", errors="replace")
        for variant in islice(table(str(path)), 50):
            assert variant.text or variant.problem


TARGETS: dict[str, Callable[[bytes], None]] = {
    "parameters": parameters,
    "profiles": profiles,
    "tables": tables,
}

if __name__ == "__main__":
    if len(sys.argv) < 2 or sys.argv[1] not in TARGETS:
        sys.exit(f"which? {', '.join(TARGETS)}")
    target = TARGETS[sys.argv.pop(1)]
    (FOLDER / "bench.toml").write_text('family = "bench"\nname = "Bench"\n', encoding="utf-8")
    os.chdir(FOLDER)
    atheris.Setup(sys.argv, target)
    atheris.Fuzz()
