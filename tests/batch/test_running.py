"""A whole batch: what is written, what is kept, what is made anew, what fails."""

from __future__ import annotations

import csv
import io
import json
import os
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future
from pathlib import Path
from typing import Any

import pytest

from flatpack import output_folder
from flatpack.__main__ import main
from flatpack.batch import building, running
from flatpack.batch.pools import Engine
from flatpack.errors import OutputError, ReadError
from flatpack.profile_files import shipped_folder
from tests.batch.conftest import TABLE, held, threads

Batch = Callable[..., running.Outcome]


def rows(out: Path) -> list[dict[str, str]]:
    text = (out / "summary.csv").read_text(encoding="utf-8-sig")
    return list(csv.DictReader(io.StringIO(text)))


def stamps(out: Path) -> dict[str, int]:
    return {path.parent.name: path.stat().st_ino for path in out.glob("*/variant.json")}


def test_a_variant_is_what_draw_writes(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    """Sheets, findings and lists; besides them only the variant's own three files."""
    out = tmp_path / "out"
    assert batch(sizes, out).counts["made"] == 5
    drawn = tmp_path / "drawn"
    parameters = str(out / "bench 1150" / "parameters.toml")
    assert main(["draw", parameters, "--out", str(drawn), "--only", "lists"]) == 0
    made, alone = held(out / "bench 1150"), held(drawn)
    del made["manifest.json"], alone["manifest.json"]
    more = {name: made.pop(name) for name in ("parameters.toml", "thumbnail.svg", "variant.json")}
    assert made == alone
    assert all(more.values())


def test_a_manifest_lists_every_file(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    batch(sizes, out)
    for folder in (path for path in out.iterdir() if path.is_dir()):
        output_folder.check(str(folder))  # refuses files that aren't listed or were changed


def test_nothing_is_made_twice(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    first = batch(sizes, out)
    before, nodes = held(out), stamps(out)
    again = batch(sizes, out)
    assert (first.kept, again.kept) == (0, 5)
    assert held(out) == before
    assert stamps(out) == nodes


def test_only_a_changed_row_is_made_anew(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    batch(sizes, out)
    nodes = stamps(out)
    sizes.write_text(sizes.read_text().replace("bench.toml,1200", "bench.toml,1210"))
    assert batch(sizes, out).kept == 4
    changed = {name for name, node in stamps(out).items() if nodes[name] != node}
    assert changed == {"bench 1200"}
    assert [row["Length mm"] for row in rows(out)] == ["1100", "1150", "1210", "1250", "1300"]


def test_only_those_with_a_changed_profile_are_made_anew(
    batch: Batch, sizes: Path, tmp_path: Path
) -> None:
    boards = tmp_path / "own" / "boards"
    boards.mkdir(parents=True)
    larch = (shipped_folder() / "boards" / "larch-27.toml").read_text()
    (boards / "my-larch.toml").write_text(larch)
    sizes.write_text(sizes.read_text().replace("bench.toml,1200,", "bench.toml,1200,my-larch"))
    out, own = tmp_path / "out", [tmp_path / "own"]
    assert batch(sizes, out, own=own).counts["made"] == 5
    (boards / "my-oak.toml").write_text(larch)  # one that nobody uses
    assert batch(sizes, out, own=own).kept == 5
    (boards / "my-larch.toml").write_text(larch + "# measured again\n")
    assert batch(sizes, out, own=own).kept == 4


def test_another_program_makes_all_anew(
    batch: Batch, sizes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    batch(sizes, tmp_path / "out")
    monkeypatch.setattr(running, "program", lambda: "1 test")
    monkeypatch.setattr(building, "_kept", {"program": "1 test"})
    assert batch(sizes, tmp_path / "out").kept == 0


def test_other_choices_make_all_anew(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    batch(sizes, tmp_path / "out")
    assert batch(sizes, tmp_path / "out", only=("lists", "job-page")).kept == 0
    assert (tmp_path / "out" / "bench 1100" / "job-sheet.html").exists()


def test_a_board_that_comes_cures_its_variant(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    sizes.write_text(TABLE + "one,bench.toml,1200,my-larch\n")
    out, own = tmp_path / "out", tmp_path / "own" / "boards"
    own.mkdir(parents=True)
    assert batch(sizes, out, own=[own.parent]).counts["refused"] == 1
    assert sorted(held(out / "one")) == ["manifest.json", "parameters.toml", "variant.json"]
    larch = (shipped_folder() / "boards" / "larch-27.toml").read_text()
    (own / "my-larch.toml").write_text(larch)
    assert batch(sizes, out, own=[own.parent]).counts["made"] == 1


def test_a_broken_folder_is_made_anew(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    batch(sizes, out)
    before = held(out)
    (out / "bench 1100" / "findings.json").unlink()
    assert batch(sizes, out).kept == 4
    assert held(out) == before


def test_somebody_elses_file_is_never_lost(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    batch(sizes, out)
    (out / "bench 1100" / "mine.txt").write_text("mine")
    outcome = batch(sizes, out)
    assert outcome.counts["failed"] == 1
    assert "mine.txt" in outcome.troubles[0].problem
    assert (out / "bench 1100" / "mine.txt").read_text() == "mine"


def test_a_folder_of_other_things_is_refused(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="no batch wrote"):
        batch(sizes, tmp_path)
    out = tmp_path / "out"
    batch(sizes, out)
    (out / "summary.csv").write_text("my own sums")
    with pytest.raises(OutputError, match="changed since"):
        batch(sizes, out)


def test_faults_stop_no_other(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    lines = ["bad,bench.toml,far,", "Bench 1100,bench.toml,1400,", "a/b,bench.toml,1200,", "con,,,"]
    sizes.write_text(sizes.read_text() + "\n".join(lines) + "\n")
    out = tmp_path / "out"
    outcome = batch(sizes, out)
    assert outcome.counts["made"] == 5
    assert outcome.counts["refused"] == 4
    bad, twice, path, device = outcome.troubles
    assert "size.length" in bad.problem
    assert "differs in case" in twice.problem
    assert "path" in path.problem
    assert "device" in device.problem
    assert [row["State"] for row in rows(out)] == ["made"] * 5 + ["refused"] * 4
    assert rows(out)[5]["What is the matter"] == bad.problem
    assert (out / "bad").is_dir()
    assert not (out / "a").exists()


def test_old_drawings_of_a_refused_variant_go(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    batch(sizes, out)
    sizes.write_text(sizes.read_text().replace("bench.toml,1100", "bench.toml,far"))
    batch(sizes, out)
    assert sorted(held(out / "bench 1100")) == ["manifest.json", "parameters.toml", "variant.json"]


def test_variants_that_left_the_table_are_named(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    batch(sizes, out)
    sizes.write_text(TABLE + "bench 1100,bench.toml,1100,\n")
    assert batch(sizes, out).strangers == ("bench 1150", "bench 1200", "bench 1250", "bench 1300")


def test_a_bug_in_one_stops_no_other(
    batch: Batch, sizes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    design = building.job.design

    def faulty(text: str, *more: Any) -> Any:
        return 1 // 0 if "1200" in text else design(text, *more)

    monkeypatch.setattr(building.job, "design", faulty)
    outcome = batch(sizes, tmp_path / "out")
    assert (outcome.counts["made"], outcome.counts["failed"]) == (4, 1)
    assert "ZeroDivisionError" in outcome.troubles[0].problem
    monkeypatch.undo()


class Dying(Executor):
    """Breaks, as a pool does, whenever a worker gets a task of some name; works in place else."""

    def __init__(self, deadly: dict[str, int]) -> None:
        self.deadly, self.broken = deadly, False

    def submit(self, fn: Callable[..., Any], /, *given: Any, **named: Any) -> Future[Any]:
        if self.broken:
            raise BrokenExecutor
        future: Future[Any] = Future()
        doomed = [t.name for t in given[0] if self.deadly.get(t.name, 0)]
        for name in doomed:
            self.deadly[name] -= 1
        self.broken = bool(doomed)
        if doomed:
            future.set_exception(BrokenExecutor())
        else:
            future.set_result(fn(*given, **named))
        return future


@pytest.mark.parametrize(("deaths", "lost"), [(1, 0), (2, 0), (9, 1)])
def test_a_worker_that_dies(
    batch: Batch, sizes: Path, tmp_path: Path, deaths: int, lost: int
) -> None:
    deadly = {"bench 1200": deaths}
    engine = Engine(start=lambda: Dying(deadly), workers=2, chunk=2)
    outcome = batch(sizes, tmp_path / "out", engine)
    assert (outcome.counts["made"], outcome.counts["failed"]) == (5 - lost, lost)


def test_another_program_on_a_worker(
    batch: Batch, sizes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(running, "program", lambda: "1 test")
    with pytest.raises(ReadError, match="install the same"):
        batch(sizes, tmp_path / "out")


@pytest.mark.parametrize("sends", [True, False])
def test_a_full_disk(
    batch: Batch, sizes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sends: bool
) -> None:
    """No half folder stays; when the disk has room again the same command makes the rest."""
    write, room = output_folder._write_file, [40]

    def full(path: Path, content: bytes) -> None:
        room[0] -= 1
        if room[0] < 0:
            raise OSError(28, "No space left on device")
        write(path, content)

    out = tmp_path / "out"
    monkeypatch.setattr(output_folder, "_write_file", full)
    with pytest.raises(OutputError, match="the disk is full"):
        batch(sizes, out, threads(sends=sends))
    monkeypatch.setattr(output_folder, "_write_file", write)
    assert sorted(os.listdir(out)) == ["batch.json", "bench 1100", "bench 1150"]
    for name in ("bench 1100", "bench 1150"):
        output_folder.check(str(out / name))
    assert batch(sizes, out).kept == 2
    batch(sizes, tmp_path / "whole")
    assert held(out) == held(tmp_path / "whole")


def test_a_folder_that_can_only_be_read(
    batch: Batch, sizes: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "mkdir", refused)
    with pytest.raises(OutputError, match="you may not write there"):
        batch(sizes, tmp_path / "out")


def test_files_in_the_way(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(OutputError, match="is a file"):
        batch(sizes, tmp_path / "out")


def test_the_card_tells_no_place(batch: Batch, sizes: Path, tmp_path: Path) -> None:
    """Folders are the same wherever they are made."""
    batch(sizes, tmp_path / "out")
    card = json.loads((tmp_path / "out" / "bench 1100" / "variant.json").read_text())
    assert str(tmp_path) not in json.dumps(card)
    assert "boards/ply-18" in card["profiles"] or len(card["profiles"]) > 5
