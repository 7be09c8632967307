"""Bad input: findings name the part and the stock, and the rest of the plan is still made."""

from __future__ import annotations

import json

import pytest

SHEET = 'name = "S"\nsource = "s"\n'


def told(files):
    found = json.loads(files["findings.json"])
    return found["incomplete"], [(f["code"], f["part"], f["severity"]) for f in found["findings"]]


def stock(text: str) -> str:
    return SHEET + text


CASES = {
    "part larger than any sheet": (
        '[[sheets]]\nboard = "ply-18"\nlength = 1500\nwidth = 1220\n',
        ("cutting-part-too-large", "A-L", "fault"),
    ),
    "grain that can't be met": (
        '[[sheets]]\nboard = "ply-18"\nlength = 1500\nwidth = 2100\n',
        ("cutting-grain-not-met", "A-L", "fault"),
    ),
    "stock too little": (
        '[[sheets]]\nboard = "ply-18"\nlength = 2440\nwidth = 300\navailable = 1\n',
        ("cutting-stock-short", "E", "fault"),
    ),
    "no price": ("", ("cutting-no-price", "", "not done")),
    "sheet too large for the saw": (
        '[[sheets]]\nboard = "ply-18"\nlength = 2440\nwidth = 1220\n[saws]\nlongest = 2000\n',
        ("cutting-no-stock", "", "fault"),
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_finding_and_the_rest_of_the_plan(name, cut, own, pond):
    text, wanted = CASES[name]
    folder = own("stock", "mine", stock(text))
    status, files = cut(pond, "--stock", "mine", "--profiles", folder)
    incomplete, found = told(files)
    assert wanted in found
    assert incomplete == (wanted[2] == "fault") == bool(status)
    assert ("INCOMPLETE" in files["plan.html"].decode()) == incomplete
    assert "lists/order.csv" in files
    for path, content in files.items():
        if path.startswith("saw/"):
            assert (b"INCOMPLETE" in content) == incomplete


def test_kerf_wider_than_a_part(profiles, pond_piece):
    """By hand: the hinge packers are 76, so a cut 80 wide is wider than they are."""
    from flatpack.parameters import replace
    from flatpack.planning import Asked, plans

    base = profiles.stock("default")
    wide = replace(base, saws=replace(base.saws, kerf=20.0, cross_kerf=20.0))
    assert not any("kerf" in f.code for f in plans([pond_piece], Asked(stock=wide)).findings)
    wider = replace(base, saws=replace(base.saws, kerf=80.0))
    made = plans([pond_piece], Asked(stock=wider))
    narrow = {f.part for f in made.findings if f.code == "cutting-part-thinner-than-kerf"}
    assert {"E", "D", "G-L", "K"} <= narrow
    assert "A-L" not in narrow
    assert made.sheets[0].plan.sheets


def test_an_outline_that_crosses_itself(cut, own, pond):
    bow = (
        '[[sheets]]\nboard = "ply-18"\nlength = 2440\nwidth = 1220\noffcut = true\n'
        "outline = [[0, 0], [2440, 1220], [2440, 0], [0, 1220]]\n"
        '[[sheets]]\nboard = "ply-18"\nlength = 2440\nwidth = 1220\nprice = 5\n'
    )
    folder = own("stock", "mine", stock(bow))
    words = (pond, "--stock", "mine", "--profiles", folder)
    status, files = cut(*words, "--nest", "--workshop", "small-router")
    incomplete, found = told(files)
    assert ("cutting-outline-crosses-itself", "", "fault") in found
    assert status == 1
    assert incomplete
    assert "nest/nest-ply-18-1.dxf" in files
    assert b"INCOMPLETE" in files["nest/nest-ply-18-1.dxf"]
    # The panel saw takes rectangles alone, and says so.
    status, files = cut(*words, out="saw")
    assert ("cutting-no-rectangle", "", "note") in told(files)[1]
    assert status == 0


def test_a_board_too_wide_and_one_too_long(profiles, crew_piece):
    from dataclasses import replace as copied

    from flatpack.parameters import replace
    from flatpack.planning import Asked, plans

    parts = {
        key: copied(p, board=replace(p.board, widths=(45.0, 70.0), lengths=(1500.0,)))
        for key, p in crew_piece.assembly.parts.items()
    }
    piece = copied(crew_piece, assembly=copied(crew_piece.assembly, parts=parts))
    made = plans([piece], Asked(stock=profiles.stock("default")))
    found = {(f.code, f.part) for f in made.findings}
    assert ("cutting-part-too-wide", "C") in found
    assert ("cutting-part-too-long", "K") in found
    assert made.incomplete
    assert made.boards
