"""Sheets parted for a bed, offcuts left in the rack, fits that a saw is too loose for."""

from __future__ import annotations

import tomllib
from dataclasses import replace as copied

from flatpack.cutting import check_nest
from flatpack.parameters import replace
from flatpack.planning import Asked, plans
from flatpack.planning.buying import purchases
from flatpack.planning.rack import table_row
from flatpack.planning.rests import offcut_file, unused_pieces
from flatpack.planning.sheets import register_places
from flatpack.planning.supply import parted
from flatpack.profiles import LengthRow, RodRow, Saws, SheetRow

LASER_BED = (1250.0, 900.0)


def test_a_sheet_is_parted_for_the_bed_by_hand():
    """2440 = 1250 + 3.2 + 1186.8; 1220 = 900 + 3.2 + 316.8."""
    row = SheetRow(board="ply-18", length=2440.0, width=1220.0)
    pieces = parted(row, LASER_BED, Saws(kerf=3.2))
    assert [(round(a, 1), round(b, 1)) for a, b in pieces] == [
        (1250.0, 900.0), (1186.8, 900.0), (1250.0, 316.8), (1186.8, 316.8),
    ]  # fmt: skip
    # 2600 leaves 93.6, and 1000 leaves 96.8: neither is worth keeping
    small = replace(row, length=2600.0, width=1000.0)
    assert len(parted(small, LASER_BED, Saws(kerf=3.2))) == 2


def test_every_piece_of_a_parted_sheet_is_used_or_kept(profiles, pond_piece):
    shop = replace(profiles.workshop("small-router"), bed=(LASER_BED,))
    lounger = copied(pond_piece, assembly=without_long_parts(pond_piece.assembly, 1200.0))
    stock = replace(
        profiles.stock("marrow-yard"),
        sheets=(SheetRow(board="ply-18", length=2440.0, width=1220.0, price=70.0),),
    )
    made = plans([lounger], Asked(stock=stock, shop=shop))
    (nest,) = made.nests
    assert not made.incomplete
    (bought,) = [p for p in purchases(made, ()) if p.kind == "sheet"]
    assert (bought.size, bought.count) == ("2440 x 1220", nest.nest.new_sheets)
    used = [s.blank.name for s in nest.nest.sheets]
    spare = [(r.length, r.width) for r in unused_pieces(nest)]
    assert len(used) + len(spare) == 4 * nest.nest.new_sheets
    (said,) = [f for f in made.findings if f.code == "cutting-over-bed"]
    assert "1250 x 900, 1186.8 x 900, 1250 x 316.8, 1186.8 x 316.8" in said.message
    kept = tomllib.loads(offcut_file(made))["sheets"]
    assert sum(r["width"] == 316.8 for r in kept) >= sum(w < 317.0 for _, w in spare)


def without_long_parts(assembly, most):
    parts = {k: p for k, p in assembly.parts.items() if p.length <= most}
    return copied(assembly, parts=parts, joints=(), bars={}, fasteners=(), hardware=(), steps=())


def test_offcuts_that_a_plan_leaves_stay_in_the_file(profiles, pond_piece):
    rows = (
        SheetRow(board="ply-18", length=2440.0, width=1220.0, offcut=True, available=3),
        SheetRow(board="ply-12", length=800.0, width=600.0, offcut=True,
                 outline=((0.0, 0.0), (800.0, 0.0), (0.0, 600.0))),
    )  # fmt: skip
    stock = replace(
        profiles.stock("default"),
        sheets=rows,
        boards=(LengthRow(board="larch-27", width=70.0, length=1234.5, offcut=True,
                          defects=((100.0, 130.0),)),),
        rods=(RodRow(rod="hardwood-22", length=900.0, offcut=True, available=2),),
    )  # fmt: skip
    made = plans([pond_piece], Asked(stock=stock))
    assert not made.incomplete
    kept = tomllib.loads(offcut_file(made))
    # one of three sheets is cut up, one of two rods; the others, and what no part wanted, stay
    assert {"board": "ply-18", "length": 2440, "width": 1220, "available": 2, "offcut": True} in (
        kept["sheets"]
    )
    assert {"rod": "hardwood-22", "length": 900, "offcut": True} in kept["rods"]
    (board,) = kept["boards"]
    assert (board["length"], board["defects"]) == (1234.5, [[100, 130]])
    (odd,) = [r for r in kept["sheets"] if r["board"] == "ply-12"]
    assert odd["outline"] == [[0, 0], [800, 0], [0, 600]]


def test_rows_are_rounded_down():
    row = table_row("sheets", board="ply-18", length=316.89, width=100.0)
    assert row == '\n[[sheets]]\nboard = "ply-18"\nlength = 316.8\nwidth = 100\noffcut = true'


def test_a_saw_looser_than_the_proof_names_what_it_cuts(profiles, pond_piece):
    """The lounger is proved with every measure 1 mm off; a saw that holds to 1.5 is named."""
    base = profiles.stock("default")

    def told(holds):
        stock = replace(base, saws=replace(base.saws, tolerance=holds))
        found = plans([pond_piece], Asked(stock=stock)).findings
        return {f.part for f in found if f.code == "cutting-saw-moving"}, [
            f for f in found if f.code == "cutting-tolerance"
        ]

    assert pond_piece.assembly.motion.tolerance == 1.0
    close, loose = told(1.0)
    assert not close
    assert len(loose) == 1
    close, loose = told(1.5)
    # arms and the braces they turn on, the hinge's packers and slat; not the end rails
    assert {"K", "H-L", "H-R", "D", "J1"} <= close
    assert "B" not in close
    assert not loose
    assert told(0.4) == (set(), [])


def test_a_joint_closer_than_the_saw_is_named_with_its_play(profiles, slotted):
    assert {round(f.clearance, 2) for f in slotted.assembly.fits} == {-0.1, 0.3}
    base = profiles.stock("default")
    for holds, plays in ((1.0, {0.0, 0.3}), (0.2, {0.0}), (0.0, set())):
        stock = replace(base, saws=replace(base.saws, tolerance=holds))
        found = plans([slotted], Asked(stock=stock)).findings
        assert {f.limit for f in found if f.code == "cutting-saw-fit"} == plays


def test_slotted_parts_lie_on_an_odd_offcut_first(profiles, slotted):
    """An elbow of 1500 x 1200 with 700 wide arms; the checker measures every part on it again."""
    elbow = ((0.0, 0.0), (1500.0, 0.0), (1500.0, 700.0), (700.0, 700.0), (700.0, 1200.0),
             (0.0, 1200.0))  # fmt: skip
    key = next(iter(slotted.assembly.parts.values())).board.key
    odd = SheetRow(board=key, length=1500.0, width=1200.0, offcut=True, outline=elbow)
    new = SheetRow(board=key, length=2500.0, width=1250.0, price=50.0)
    stock = replace(profiles.stock("default"), sheets=(new, odd))
    shop = replace(profiles.workshop("small-router"), both_faces=True)
    made = plans([slotted], Asked(stock=stock, shop=shop))
    (nest,) = made.nests
    assert check_nest.faults(nest.nest, nest.shapes, nest.spaces) == []
    assert nest.nest.sheets[0].blank.offcut
    assert len(nest.nest.sheets[0].parts) >= 3
    assert not made.incomplete
    # both register holes lie in the elbow's lower edge
    for at in register_places(nest.nest.sheets[0].blank, nest.spaces.edge):
        assert 0.0 < at.x < 1500.0
        assert 4.0 < at.y < 700.0
    assert not any(f.code == "cutting-no-register-room" for f in made.findings)


def test_one_offcut_promised_to_two_thicknesses_is_told(profiles, pond_piece):
    thin = {key: copied(part, board=replace(part.board, thickness=17.4))
            for key, part in pond_piece.assembly.parts.items()}  # fmt: skip
    other = copied(pond_piece, assembly=copied(pond_piece.assembly, parts=thin))
    counted = SheetRow(board="ply-18", length=900.0, width=400.0, available=1, offcut=True)
    sold = SheetRow(board="ply-18", length=2440.0, width=1220.0)
    told = {}
    for name, rows in (("rack", (counted, sold)), ("merchant", (sold,))):
        asked = Asked(stock=replace(profiles.stock("marrow-yard"), sheets=rows))
        told[name] = [f for f in plans([pond_piece, other], asked).findings
                      if f.code == "cutting-offered-twice"]  # fmt: skip
    (said,) = told["rack"]
    assert "17.4" in said.message
    assert said.severity == "warning"
    assert told["merchant"] == []
