"""A planter's numbers by hand, its liner and soil against shapely, and what doesn't go together.

By hand, from the built-in values: 1150 x 470 x 460, boards 27 thick, posts 27 x 70, 45 off the
ground, bearers 70, slats 95, one liner of 1 mm folded over by 40, soil 40 below the boards' top.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from flatpack import checks
from flatpack.checks.remarks import check_remarks
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.frozen import replace as altered
from flatpack.model import Assembly, Part
from flatpack.parameters import BoardChoice, Conflict, replace
from flatpack.pieces import PIECES
from flatpack.pieces.common.boarded.bottom import notched, notches
from flatpack.pieces.common.boarded.rows import rows_between
from flatpack.pieces.family import Workings
from flatpack.pieces.planter.setting_out import set_out
from flatpack.pieces.planter.stock import stock_for
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
PLANTER = PIECES["planter"]


def record(**values: object) -> Any:
    made = PLANTER.record(name="Trial")
    for path, value in values.items():
        table, _, key = path.partition("__")
        made = replace(made, **{table: replace(getattr(made, table), **{key: value})})
    return made


def built(**values: object) -> Assembly:
    made = record(**values)
    assert list(PLANTER.conflicts(made, PROFILES)) == []
    return PLANTER.build(made, PROFILES)


def noted(piece: Assembly, name: str) -> float:
    (found,) = (w.value for w in piece.workings if w.name == name)
    return found


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("Side boards' top above ground", 460 - 27),
        ("Bottom's underside above ground", 45 + 70),
        # 120 wide x 0.0032 a percent x 8 percent, and 1.5 left, to the next whole mm
        ("One side board swells in the wet season", 3.072),
        ("Gap between side boards", 5),
        ("Middle battens on each long side", 1),  # (1150 - 2 x 97) / 650 = 1.47: two bays
        ("Gap between bottom slats", (470 - 54 - 8 - 4 * 95) / 3),
        ("Liner's cut length", 1096 - 2 + 2 * (433 - 142 + 40) + 2 * 27),
        ("Liner's cut width", 416 - 2 + 2 * (433 - 142 + 40)),
        # (1094 x 414 - 4 posts and 2 battens of 27 x 70) x (291 - 40 - 1), mm3 to litres
        ("Soil, volume", 110.394),
        ("Soil, weight when wet", 165.591),
        ("Load of wet soil on the ground", 165.591 / (1.15 * 0.47)),
    ],
)
def test_by_hand(name: str, value: float) -> None:
    assert noted(built(), name) == pytest.approx(value, abs=1e-6)


def test_top_boards_share_what_is_too_narrow_to_rip() -> None:
    # 388 high: three of 120 and their gaps take 375, so the last two share 120 + 13.
    heights = sorted({p.width for k, p in built().parts.items() if k.startswith("front-board")})
    assert heights == pytest.approx([66.5, 120.0])


def footprint(part: Part) -> Polygon:
    x0, y0, x1, y1 = part.outline.bounds
    corners = [part.frame.place(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (0.0, 27.0)]
    xs, ys = [c.x for c in corners], [c.y for c in corners]
    return box(min(xs), min(ys), max(xs), max(ys))


def inside(piece: Assembly) -> Polygon:
    """Seen from above: what is free between the boards, posts and battens, from the parts' places.

    Referee: shapely.
    """
    standing = [footprint(p) for k, p in piece.parts.items() if "board" in k or "post" in k
                or "batten" in k]  # fmt: skip
    ring = unary_union(standing)
    assert isinstance(ring, Polygon)
    (hole,) = ring.interiors
    return Polygon(hole)


def test_soil_is_what_shapely_finds_between_the_parts() -> None:
    piece = built(liner__use=False, corners__longest_span=400.0)
    deep = 433 - 142 - 40
    litres = inside(piece).area * deep * 1e-6
    assert noted(piece, "Soil, volume") == pytest.approx(litres, rel=1e-9)


def test_liner_reaches_round_every_post_and_batten() -> None:
    piece = built(corners__longest_span=400.0)
    up = 2 * (433 - 142 + 40) - 2 * 1.0
    around = noted(piece, "Liner's cut length") + noted(piece, "Liner's cut width") - 2 * up
    assert around == pytest.approx(inside(piece).length / 2.0, abs=2.0)  # rounded up twice


def test_liner_is_a_line_of_the_hardware() -> None:
    (line,) = (h for h in built().hardware if h.item.startswith("Planter liner"))
    assert (line.item, line.size, line.pieces) == ("Planter liner 1 mm", "1810 x 1076", 1)
    assert not any("liner" in h.item for h in built(liner__use=False).hardware)


def test_notches_leave_room_round_what_stands_there() -> None:
    made = record(corners__longest_span=400.0)
    out = set_out(made, stock_for(made, PROFILES), Workings()).box
    piece = built(corners__longest_span=400.0)
    slat = piece.parts["bottom-slat-1"]
    shape = Polygon([slat.frame.place(*p)[:2] for p in slat.outline.points])
    near = [
        footprint(p) for k, p in piece.parts.items() if k.startswith(("post-front", "batten-front"))
    ]
    assert len(near) == 2 + len(out.battens) > 3
    assert min(shape.distance(n) for n in near) == pytest.approx(3.0)
    assert len(notches(out)) == len(near)


def test_a_notch_at_an_end_takes_the_corner_off() -> None:
    cut = notched(100.0, 20.0, ((0.0, 10.0, 5.0), (40.0, 50.0, 5.0), (90.0, 100.0, 5.0)))
    assert cut.area == pytest.approx(100 * 20 - 3 * 10 * 5)


CONFLICTS: list[tuple[str, Mapping[str, object]]] = [
    ("size.length", {"size__length": 300.0, "corners__width": 120.0}),
    ("size.depth", {"size__depth": 220.0, "corners__width": 95.0, "corners__kind": "battens"}),
    ("corners.longest_span", {"corners__longest_span": 200.0, "corners__width": 145.0}),
    ("size.height", {"size__height": 250.0}),
    ("bottom.bearer_width", {"ground__kind": "skids"}),
    ("sides.board_width", {"size__height": 260.0, "ground__clear": 200.0}),
    ("bottom.slat_width", {"bottom__slat_width": 45.0}),
    ("cap.width", {"cap__width": 45.0}),
    ("cap.width", {"cap__width": 145.0, "size__depth": 300.0}),
    ("fixings.wood_screw", {"fixings__wood_screw": "pocket-coarse"}),
]


@pytest.mark.parametrize(("key", "values"), CONFLICTS, ids=[k for k, _ in CONFLICTS])
def test_refused_with_what_would_do(key: str, values: Mapping[str, object]) -> None:
    found: list[Conflict] = list(PLANTER.conflicts(record(**values), PROFILES))
    assert key in {c.key for c in found}
    assert all(c.allowed and c.message for c in found)


def test_remarks_are_told_and_never_pass_or_fail() -> None:
    piece = built()
    told = {f.code: f.severity for f in checks.run(piece, only=("remarks",))}
    assert told == {"caution": "note", "soil-pressure": "not done"}
    bad = altered(piece, remarks=(Finding("caution", "fault", "x", "no"),))
    with pytest.raises(ValueError, match="can't be a fault"):
        list(check_remarks(Setting(bad, checks.Limits())))


def test_rows_from_sheet_are_alike() -> None:
    made = record(boards__timber=BoardChoice("ply-18"))
    board = stock_for(made, PROFILES).sides
    rows = rows_between(board, 120.0, (45.0, 433.0), 2.0, Workings())
    assert len({round(r.width, 9) for r in rows}) == 1
    assert rows[-1].low + rows[-1].width == pytest.approx(433.0)


def test_boards_that_touch_are_told_to_swell() -> None:
    """Larch 120 wide: 120 x 0.0032 x 8 = 3.07 mm of swelling for each gap (by hand)."""
    told = list(checks.run(built(sides__gap=1.0), only=("boarding",)))
    whole = [f for f in told if f.part == "front-board-1 / front-board-2"]
    assert [(f.code, f.severity) for f in whole] == [("boards-swell", "warning")]
    assert whole[0].limit == pytest.approx(120 * 0.0032 * 8, abs=1e-3)
    assert checks.run(built(sides__gap=4.0), only=("boarding",)) == ()


def test_plywood_boards_may_touch() -> None:
    piece = built(boards__timber=BoardChoice("ply-18"), sides__gap=0.0)
    assert checks.run(piece, only=("boarding",)) == ()
