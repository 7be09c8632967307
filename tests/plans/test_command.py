"""`flatpack cut` from end to end: files, status, same bytes, offcuts, kept layouts, Ctrl-C."""

from __future__ import annotations

import csv
import io
import json
import os
import signal
import tomllib

import pytest

from flatpack.command_line.cut import Named, named
from flatpack.cutting import nest as nesting
from flatpack.drawings.marks import groups


def rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode("utf-8-sig"))))


def test_counts_stand_before_a_file():
    assert named("3:bench.toml") == Named("bench.toml", 3)
    assert named("bench.toml") == Named("bench.toml", 1)
    assert named(r"C:\pieces\bench.toml") == Named(r"C:\pieces\bench.toml", 1)
    assert named(r"2:C:\pieces\bench.toml") == Named(r"C:\pieces\bench.toml", 2)


@pytest.mark.parametrize("text", ["0:bench.toml", "1.5:bench.toml", "10000:bench.toml"])
def test_a_number_that_is_no_count_is_told(text, cut, capsys):
    assert cut(text) == (2, {})
    assert "allowed: 1 to 9999" in capsys.readouterr().err


def test_a_plan_twice_gives_the_same_bytes(cut, chosen):
    status, first = cut(chosen, "--stock", "marrow-yard", out="one")
    assert (status, first) == cut(chosen, "--stock", "marrow-yard", out="two")
    assert status == 0
    assert {"order.html", "plan.html", "offcuts.toml", "findings.json", "manifest.json"} <= set(
        first
    )
    told = json.loads(first["findings.json"])
    assert told["repeatable"] is True
    assert told["incomplete"] is False
    assert any(name.startswith(("saw/", "boards/")) for name in first)
    for row in rows(first["lists/plan-summary.csv"]):
        assert row["bound"]
        assert row["method"]


def test_a_nest_twice_gives_the_same_bytes_and_its_layout_is_kept(cut, pond):
    words = (pond, "--nest", "--workshop", "small-router")
    _, first = cut(*words, out="one")
    _, other = cut(*words, out="two")
    _, again = cut(*words, out="one")
    assert first == other == again
    assert "layouts/ply-18.json" in first
    assert "nest/nest-ply-18-1.dxf" in first


def test_a_layout_by_the_clock_is_marked_kept_and_used_again(cut, pond, monkeypatch):
    """The search by the clock is stood in for: the grid's own layout, said to be by the clock."""
    calls = []

    def by_clock(shapes, spaces, effort, seconds, seed, sheets):
        calls.append(seconds)
        return list(sheets)

    monkeypatch.setattr(nesting, "_denser", by_clock)
    words = (pond, "--nest", "--workshop", "small-router", "--seconds", "5")
    _, first = cut(*words)
    assert json.loads(first["findings.json"])["repeatable"] is False
    assert "layouts/ply-18.json" in first["plan.html"].decode()
    _, again = cut(*words)
    assert again == first
    assert calls == [5]
    cut(*words, "--afresh")
    assert calls == [5, 5]


def test_ctrl_c_keeps_the_best_so_far(cut, pond, monkeypatch):
    """The signal comes with the first layout found, as from the keyboard."""
    from flatpack.planning import making

    sent = []

    def press(name, steps, best, bound):
        if not sent:
            sent.append(name)
            os.kill(os.getpid(), signal.SIGINT)

    asked = making.Asked

    def pressing(**words):
        return asked(**{**words, "progress": press})

    monkeypatch.setattr("flatpack.command_line.cut.Asked", pressing)
    before = signal.getsignal(signal.SIGINT)
    status, files = cut(pond, "--nest", "--workshop", "small-router")
    assert sent == ["ply-18"]
    assert signal.getsignal(signal.SIGINT) is before
    assert json.loads(files["findings.json"])["repeatable"] is False
    assert status == 0
    assert "nest/nest-ply-18-1.dxf" in files


def test_offcuts_of_one_plan_are_stock_of_the_next(cut, pond, tmp_path):
    _, first = cut(pond, out="one")
    kept = tomllib.loads(first["offcuts.toml"].decode())
    assert all(row["offcut"] for kind in ("sheets", "rods") for row in kept.get(kind, ()))
    (rod,) = kept["rods"]
    # 1000 - 578.2 - one cut of 3, rounded down
    assert 417.0 < rod["length"] < 430.0
    own = tmp_path / "rack.toml"
    own.write_text(
        'name = "Rack"\nsource = "own"\n[[rods]]\nrod = "hardwood-22"\nlength = 700\n'
        'offcut = true\n[[sheets]]\nboard = "ply-18"\nlength = 2440\nwidth = 1220\noffcut = true\n'
    )
    _, second = cut(pond, "--offcuts", own, out="two")
    bought = [r["kind"] for r in rows(second["lists/order.csv"])]
    assert "sheet" not in bought
    assert "round bar" not in bought
    assert "(from the rack)" in second["lists/cross-cuts.csv"].decode()


def test_two_files_are_pooled(cut, pond, crew):
    status, files = cut(f"2:{pond}", crew, "--stock", "marrow-yard")
    assert status == 0
    cuts = (files.get("lists/saw-cuts.csv", b"") + files["lists/cross-cuts.csv"]).decode()
    assert "1A-L" in cuts
    weights = [float(r["kg"]) for r in rows(files["lists/bundles.csv"])]
    assert max(weights) <= 13.0


def test_a_bench_can_not_be_nested_for(cut, pond, capsys):
    status, files = cut(pond, "--nest")
    assert (status, files) == (2, {})
    assert "--workshop" in capsys.readouterr().err


def test_an_unknown_stock_list_names_the_nearest(cut, pond, capsys):
    status, files = cut(pond, "--stock", "marow-yard")
    assert (status, files) == (2, {})
    assert 'did you mean "marrow-yard"?' in capsys.readouterr().err


def test_parts_named_first_come_first(cut, pond, pond_piece, capsys):
    words = (pond, "--nest", "--workshop", "laser", "--despite-faults")
    status, files = cut(*words, "--first", "Q7")
    assert (status, files) == (2, {})
    assert "no part has this mark" in capsys.readouterr().err
    _, files = cut(*words, "--first", "J2", out="first")
    _, other = cut(*words, out="other")

    def on_first_sheet(made):
        return sum(r["mark"] == "J2" and r["sheet"] == "1" for r in rows(made["lists/nest.csv"]))

    (count,) = (g.count for g in groups(pond_piece.assembly) if g.mark == "J2")
    assert on_first_sheet(files) == count
    assert on_first_sheet(other) < count
