"""Buying list, waste, bench time and weights, each worked out by hand beside the program."""

from __future__ import annotations

import csv
import io
import math
from collections import Counter

from flatpack.drawings.marks import groups
from flatpack.parameters import replace
from flatpack.planning import Asked, Counted, plans
from flatpack.planning.bench_time import tasks
from flatpack.planning.buying import Amounts, Wet, cost, purchases
from flatpack.planning.glueing import _touching as touching
from flatpack.planning.glueing import amounts, glued_area
from flatpack.planning.shares import shares
from flatpack.profiles import PackRow, TinRow


def rows(content: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(content.decode("utf-8-sig"))))


def test_packs_tins_and_cuts_by_hand(profiles, pond_piece):
    stock = replace(
        profiles.stock("marrow-yard"),
        packs=(PackRow(item="Lock nut M8", size="M8", pieces=4, price=1.5),),
        tins=(
            TinRow(glue="pu-d4", holds=100.0, price=3.0),
            TinRow(glue="pu-d4", holds=250.0, price=6.0),
            TinRow(finish="oil", holds=1.0, price=10.0),
        ),
    )
    made = plans([pond_piece], Asked(stock=stock))
    wets = (
        Wet("glue", "pu-d4", "Glue", 230.0, "g"),
        Wet("finish", "oil", "Oil", 2.01, "l"),
        Wet("finish", "stain", "Stain", 1.0, "l"),
    )
    found = {p.item: p for p in purchases(made, wets)}
    # 10 nuts and 1 spare are 3 packs of 4
    assert (found["Lock nut M8"].count, found["Lock nut M8"].total) == (3, 4.5)
    # 230 g: three bottles of 100 cost 9, one of 250 costs 6
    assert (found["Glue"].sold, found["Glue"].count, found["Glue"].total) == ("250 g", 1, 6.0)
    assert (found["Oil"].count, found["Oil"].total) == (3, 30.0)
    assert found["Stain"].total is None
    # 59 cuts, 10 of them free, 0.6 each
    sawn = found["further cuts on the panel saw"]
    assert sawn.count == made.sheets[0].plan.cut_count - 10
    assert sawn.total == round(0.6 * sawn.count, 2)
    total, missing = cost(found.values())
    assert total == round(sum(p.total for p in found.values() if p.total is not None), 2)
    assert missing == sum(p.total is None for p in found.values()) > 0


def test_waste_of_a_sheet_by_hand(profiles, pond_piece):
    made = plans([pond_piece], Asked(stock=profiles.stock("marrow-yard")))
    (sheet,) = [s for s in shares(made) if s.unit == "m2"]
    (rod,) = [s for s in shares(made) if s.unit == "m"]
    parts = sum(p.length * p.width for p in pond_piece.assembly.parts.values())
    assert math.isclose(sheet.parts, parts * 1e-6, rel_tol=1e-4)
    assert sheet.stock == 2.44 * 1.22
    # a rod of 1000: part 578.2, cut 3, the rest is kept
    assert math.isclose(rod.waste, 0.3, abs_tol=1e-6)


def test_glue_where_faces_meet(crew_piece):
    """By hand, 27 thick: a low rail's end is 145 x 27; a seat rail lies on its cleat, 210 x 120."""
    parts = crew_piece.assembly.parts
    low, cleat = ("leg-front-left", "low-rail-left"), ("cleat-left", "seat-rail-left")
    assert (parts[low[1]].width, parts[cleat[1]].length) == (145.0, 210.0)
    assert math.isclose(touching(crew_piece.assembly, low), 3915.0, abs_tol=0.5)
    assert math.isclose(touching(crew_piece.assembly, cleat), 25200.0, abs_tol=0.5)
    assert touching(crew_piece.assembly, ("leg-front-left", "leg-rear-right")) == 0.0
    area = glued_area(crew_piece.assembly)
    ends = sum(not k.startswith("leg") for k in parts) * 2
    assert 4 * (3915.0 + 25200.0) < area < ends * 25200.0
    whole = amounts((crew_piece,))
    assert math.isclose(whole.glued, area * 1e-6)
    twice = amounts((Counted(assembly=crew_piece.assembly, count=2),))
    assert math.isclose(twice.glued, 2.0 * whole.glued)


def test_bench_time_is_counts_times_rates(profiles, crew_piece):
    made = plans([crew_piece], Asked(stock=profiles.stock("default")))
    area = Amounts(surface=3.0, glued=0.0, coated=6.0, wets=())
    found = {t.what: t for t in tasks(made, area)}
    kinds = Counter(f.kind for f in crew_piece.assembly.fasteners)
    screws = sum(n for kind, n in kinds.items() if "screw" in kind)
    assert found["screws driven"].number == screws
    assert found["screws driven"].minutes == 0.5 * screws
    assert found["coats of finish"].minutes == 36.0
    assert found["surface sanded"].minutes == 24.0
    pockets = sum(
        f.operation == "pocket-hole"
        for p in crew_piece.assembly.parts.values()
        for f in {f.key(): f for f in p.features}.values()
    )
    assert found["pocket holes"].number == pockets
    # every board: one cut for its first end, one for each part; and the rips
    cross = sum(len(b.cuts) + 1 for p in made.boards for b in p.plan.boards)
    rips = sum(b.count * b.across for p in made.boards for b in p.blanks)
    assert found["cuts to length, and rips"].number == cross + rips


def test_the_cut_list_can_be_followed(cut, pond, pond_piece):
    """Carried out by its rows alone, with a pencil: every part comes off, true to size."""
    _, files = cut(pond)
    pieces = {"sheet": [2440.0, 1220.0]}
    made: Counter[tuple[str, float, float]] = Counter()
    for row in rows(files["lists/saw-cuts.csv"]):
        first, _, last = row["cut"].partition(" to ")
        for _ in range(int(first), int(last or first) + 1):
            fence, way = float(row["fence"]), row["way"]
            if way == "trim":
                axis = 1 if "long" in row["gives"] else 0
                pieces["sheet"][axis] -= fence
                continue
            axis = 0 if way == "cross" else 1
            piece = pieces[row["from"]]
            off = [*piece]
            off[axis] = fence
            piece[axis] -= fence + 3.2
            name = row["gives"].partition(";")[0].partition(" = ")
            pieces[name[0]] = off
            if row["part ready"] or name[2]:
                made[name[2] or name[0], round(off[0]), round(off[1])] += 1
        if "; rest is " in row["gives"]:
            mark = row["gives"].rpartition("; rest is ")[2]
            made[mark, *(round(v) for v in pieces[row["from"]])] += 1
    wanted = Counter[tuple[str, float, float]]()
    for group in groups(pond_piece.assembly):
        wanted[group.mark, round(group.part.length), round(group.part.width)] += group.count
    assert made == wanted
    assert sum(wanted.values()) == len(pond_piece.assembly.parts)
