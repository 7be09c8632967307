"""A batch: time of one variant, of two workers, of a rebuild, and its memory.

    python -m pytest tests/bench/test_batch_bench.py --benchmark-enable --benchmark-only -s

Aimed at: one warm lounger variant within half of what ezdxf and svgwrite alone take for the same
entities; two workers 1.85 times as fast as one, through dask 1.7 times; a thousand variants within
1.3 times the memory of ten; a rebuild with nothing changed within 5 % of the first run.  These
are figures, not conditions, all of them ratios within one run; as a test each runs once, small.
FLATPACK_BATCH sets how many variants are made (200 unless told).
"""

from __future__ import annotations

import gc
import io
import os
import runpy
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from flatpack import checks, job
from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.plain import PlainStroke, plain_strokes
from flatpack.drawings.registry import drawings
from flatpack.drawings.settings import Settings
from flatpack.drawings.shapes import Circle, Closed, Drawing, Ellipse, Line
from flatpack.drawings.shapes import Path as OpenPath
from flatpack.finding import blocks
from flatpack.parameters import read_design
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts, read_text
from flatpack.profiles import load

ROOT = Path(__file__).parents[2]
MIXED = runpy.run_path(str(Path(__file__).with_name("killed_batch.py")))
EXAMPLE = ROOT / "profiles" / "pieces" / "orchard-lounger.toml"
KINDS = ("parts", "boards", "drilling", "arrangement", "lists", "job-page")
MANY = int(os.environ.get("FLATPACK_BATCH", "200"))
TEXTS = profile_texts()
MOVING = ("stops", "hold", "hinge", "travel", "release")
FIT = tuple(name for name in checks.CHECKS if name not in MOVING)
NAMES = {layer.key: layer.name for layer in DEFAULT_LAYERS}


def variant() -> list[tuple[Any, bytes]]:
    """Parameters, geometry, fit checks, DXF, SVG and lists of one lounger."""
    text, profiles = read_text(str(EXAMPLE)), load(TEXTS)
    family = PIECES["lounger"]
    record = read_design({"lounger": family.record}, text, "x", known=profiles.known).record
    assert not list(family.conflicts(record, profiles))
    assembly = family.build(record, profiles)
    assert not blocks(checks.run(assembly, only=FIT))
    workshop = profiles.workshop(record.workshop)
    sheets = drawings(assembly, Settings(workshop=workshop, code="0000-0000"), KINDS)
    files = job.written(sheets, workshop)
    return [(sheet, files[sheet.path].content) for sheet in sheets]


def ready() -> list[tuple[str, Drawing, tuple[PlainStroke, ...]]]:
    """The same drawings as numbers, with nothing left to work out."""
    sheets = [sheet for sheet, _ in variant() if isinstance(sheet.content, Drawing)]
    return [(s.format, s.content, plain_strokes(s.content, DEFAULT_LAYERS)) for s in sheets]


def with_ezdxf(strokes: tuple[PlainStroke, ...]) -> str:
    import ezdxf

    doc = ezdxf.new("R2010")
    for name in NAMES.values():
        doc.layers.add(name)
    space = doc.modelspace()
    for layer, shape in strokes:
        look = {"layer": NAMES[layer]}
        if isinstance(shape, Closed):
            rows = [(s.start.x, s.start.y, s.bulge) for s in shape.outline.segments]
            space.add_lwpolyline(rows, format="xyb", close=True, dxfattribs=look)
        elif isinstance(shape, OpenPath):
            rows = [(s.start.x, s.start.y, s.bulge) for s in shape.segments]
            space.add_lwpolyline([*rows, (*shape.segments[-1].end, 0)], "xyb", dxfattribs=look)
        elif isinstance(shape, Circle):
            space.add_circle(shape.centre, shape.radius, dxfattribs=look)
        elif isinstance(shape, Line):
            space.add_line(shape.start, shape.end, dxfattribs=look)
        elif isinstance(shape, Ellipse):
            space.add_ellipse(shape.centre, (*shape.major, 0), shape.ratio, dxfattribs=look)
        else:
            space.add_text(shape.text, height=shape.height, dxfattribs=look)
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue()


def with_svgwrite(drawing: Drawing, strokes: tuple[PlainStroke, ...]) -> str:
    import svgwrite

    x0, y0, x1, y1 = drawing.bounds
    page = svgwrite.Drawing(size=(f"{x1 - x0}mm", f"{y1 - y0}mm"), debug=False)
    groups = {key: page.add(page.g(id=key)) for key in NAMES}
    for layer, shape in strokes:
        group = groups[layer]
        if isinstance(shape, Closed | OpenPath):
            segments = shape.outline.segments if isinstance(shape, Closed) else shape.segments
            path = page.path(["M", *segments[0].start])
            for s in segments:
                path.push(["A", s.radius, s.radius, 0, 0, 0, *s.end] if s.bulge else ["L", *s.end])
            group.add(path)
        elif isinstance(shape, Circle):
            group.add(page.circle(shape.centre, shape.radius))
        elif isinstance(shape, Line):
            group.add(page.line(shape.start, shape.end))
        elif isinstance(shape, Ellipse):
            group.add(page.ellipse(shape.centre, (1.0, 1.0)))
        else:
            group.add(page.text(shape.text, insert=shape.at))
    return str(page.tostring())


def by_libraries(drawn: list[tuple[str, Drawing, tuple[PlainStroke, ...]]]) -> int:
    """How many letters the two libraries write."""
    return sum(
        len(with_ezdxf(strokes) if form == "dxf" else with_svgwrite(drawing, strokes))
        for form, drawing, strokes in drawn
    )


def seconds(work: Callable[[], object]) -> float:
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def test_one_warm_variant(benchmark: Any, capsys: pytest.CaptureFixture[str]) -> None:
    drawn = ready()
    assert {form for form, _, _ in drawn} == {"dxf", "svg"}
    assert by_libraries(drawn) > 100_000
    benchmark.pedantic(variant, rounds=5 if benchmark.enabled else 1)
    if benchmark.enabled:
        gc.collect()
        gc.set_threshold(50_000, 20, 20)  # as a worker has it
        pairs = [(seconds(variant), seconds(lambda: by_libraries(drawn))) for _ in range(7)]
        ours, theirs = map(statistics.median, zip(*pairs, strict=True))
        say(capsys, f"one variant {ours * 1e3:.0f} ms, libraries alone {theirs * 1e3:.0f} ms:"
                    f" {ours / theirs:.2f} (aim 0.5)")  # fmt: skip


def say(capsys: pytest.CaptureFixture[str], text: str) -> None:
    with capsys.disabled():
        print(f"\n{text}")


def table(folder: Path, count: int) -> Path:
    """A mixed table: every example in turn, each with a length of its own."""
    made: Path = MIXED["written"](folder, count, f"table-{count}.csv")
    return made


def ran(rows: Path, out: Path, *more: str) -> tuple[float, float]:
    """Seconds, and the peak of the largest process in MB."""
    code = (
        "import os, resource, sys; from flatpack.__main__ import main; main(sys.argv[1:])\n"
        "who = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)\n"
        "print('peaks', *(resource.getrusage(w).ru_maxrss for w in who))"
    )
    given = ["batch", str(rows), "--out", str(out), "--only", ",".join(KINDS), *more]
    begun = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", code, *given], capture_output=True, text=True, check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    took = time.perf_counter() - begun
    peaks = done.stdout.rpartition("peaks")[2].split()
    return took, max(map(int, peaks)) / 1024.0


@pytest.mark.skipif(os.name == "nt", reason="memory is told otherwise there")
def test_workers_and_rebuild(
    benchmark: Any, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    count = MANY if benchmark.enabled else 4
    rows = table(tmp_path, count)
    one, small = ran(rows, tmp_path / "one", "--jobs", "1")
    two, _ = benchmark.pedantic(ran, (rows, tmp_path / "two", "--jobs", "2"))
    again, _ = ran(rows, tmp_path / "two", "--jobs", "2")
    names = {p.relative_to(tmp_path / "one") for p in (tmp_path / "one").rglob("*")}
    assert names == {p.relative_to(tmp_path / "two") for p in (tmp_path / "two").rglob("*")}
    if benchmark.enabled:
        say(capsys, f"{count} variants: one worker {one:.1f} s, two {two:.1f} s:"
                    f" {one / two:.2f} (aim 1.85)")  # fmt: skip
        say(capsys, f"nothing changed: {again:.2f} s, {100 * again / two:.1f} % (aim 5)")
        _, tiny = ran(table(tmp_path, 10), tmp_path / "ten", "--jobs", "1")
        say(capsys, f"memory: {tiny:.0f} MB for ten, {small:.0f} MB for {count}:"
                    f" {small / tiny:.2f} (aim 1.3)")  # fmt: skip


@pytest.mark.skipif(os.name == "nt", reason="memory is told otherwise there")
def test_through_dask(benchmark: Any, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    pytest.importorskip("distributed")
    count = MANY if benchmark.enabled else 4
    rows = table(tmp_path, count)
    took = {}
    for workers in (1, 2) if benchmark.enabled else (2,):
        member = ROOT / "tests" / "batch" / "cluster_member.py"
        cluster = subprocess.Popen(
            [sys.executable, str(member), str(workers)], stdin=subprocess.PIPE, text=True,
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )  # fmt: skip
        assert cluster.stdout is not None
        address = cluster.stdout.readline().split()[0]
        took[workers], _ = ran(rows, tmp_path / f"{workers}", "--scheduler", address)
        cluster.communicate()
    assert len(list((tmp_path / "2").glob("0*"))) == count
    benchmark.pedantic(lambda: None)
    if benchmark.enabled:
        say(capsys, f"{count} variants through dask: one worker {took[1]:.1f} s, two"
                    f" {took[2]:.1f} s: {took[1] / took[2]:.2f} (aim 1.7)")  # fmt: skip


def test_a_long_table(benchmark: Any, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Read, named, entered in the ledger and told in the summary; refused, so that none is made."""
    count = 1_000_000 if benchmark.enabled else 2_000
    peaks = []
    for rows in (count // 1000, count):
        path = tmp_path / f"{rows}.csv"
        with open(path, "w") as stream:
            stream.write("name,family,size.length\n")
            stream.writelines(f"no/{n},bench,1200\n" for n in range(rows))
        took, peak = ran(path, tmp_path / f"out-{rows}", "--jobs", "1")
        peaks.append(peak)
    with open(tmp_path / f"out-{count}" / "summary.csv", "rb") as stream:
        assert sum(1 for _ in stream) == count + 1
    benchmark.pedantic(lambda: None)
    if benchmark.enabled:
        say(capsys, f"{count} rows in {took:.0f} s; memory {peaks[1]:.0f} MB, for a thousandth"
                    f" {peaks[0]:.0f} MB")  # fmt: skip
