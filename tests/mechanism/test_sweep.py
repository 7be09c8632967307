"""Clearances, clashes and changes on a plain lounger, each worked out by hand."""

import math

import pytest

from flatpack.geometry import Point, chain, closed
from flatpack.mechanism.arm_end import end_gain
from flatpack.mechanism.bodies import Body, Carrier, arm_outline, disc, oblong, rod_body, square_arm
from flatpack.mechanism.changes import How, Side, applied, changes
from flatpack.mechanism.convex import HOME, pose, signed_gap
from flatpack.mechanism.locus import locus
from flatpack.mechanism.pairs import gaps_at
from flatpack.mechanism.path import Phase, travel
from flatpack.mechanism.pieces import pieces
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.sweep import Clash, Clearance, sweep

PROP = Prop(pivot=Point(320.0, -27.0), arm=365.0, rod=22.0)
FLOOR, REST = -83.0, -72.0
CONTOUR = chain([(-400.0, FLOOR, 0.0), (800.0, FLOOR, 0.0)])
ARM_LANE, SLATS, INSIDE = (236.0, 254.0), (-262.0, 262.0), (-282.0, 282.0)


@pytest.fixture(scope="module")
def path():
    """A bare floor: up to 60 degrees, carried 3 mm above the floor on the way down."""
    return travel(PROP, locus(CONTOUR, 11.0), 60.0, Point(-390.0, REST), limit=1.0, overrun=0.0)


def arm(outline=None) -> Body:
    shape = arm_outline(365.0, 44.0) if outline is None else outline
    return Body(name="arm", outlines=(shape,), lane=ARM_LANE, carrier=Carrier.ARM)


def back_slats() -> Body:
    return Body(
        name="back slats",
        outlines=(oblong(14.0, 3.0, 720.0, 21.0),),
        lane=SLATS,
        carrier=Carrier.BACK,
    )


def brace(bottom: float) -> Body:
    return Body(
        name="brace",
        outlines=(oblong(15.0, bottom, 780.0, 3.0),),
        lane=(215.0, 233.0),
        carrier=Carrier.BACK,
    )


def rail(x: float) -> Body:
    return Body(
        name="head rail",
        outlines=(oblong(x, -117.0, x + 18.0, 3.0),),
        lane=INSIDE,
        carrier=Carrier.FRAME,
    )


def rack(lift: float = 0.0) -> Body:
    return Body(
        name="rack",
        outlines=(oblong(-400.0, FLOOR - 40.0, 800.0, FLOOR + lift),),
        lane=(264.0, 282.0),
        carrier=Carrier.FRAME,
    )


ROD = rod_body(22.0, (-281.0, 281.0))
PERMITTED = frozenset((frozenset(("rod", "rack")),))


def test_a_round_arm_under_the_slats_keeps_its_distance(path) -> None:
    """The pivot end is a half circle 27 + 3 below the underside: 30 - 22 at every angle."""
    (found,) = sweep((back_slats(), arm()), path)
    assert isinstance(found, Clearance)
    assert found.least == pytest.approx(8.0, abs=0.01)


def test_a_square_end_sweeps_its_corner_into_the_slats(path) -> None:
    """Its corner is 22 sqrt 2 from the pivot and stands straight up at half a right angle."""
    square = arm(square_arm(365.0, 44.0, 22.0))
    (found,) = sweep((back_slats(), square), path)
    assert isinstance(found, Clash)
    assert found.depth == pytest.approx(22.0 * math.sqrt(2.0) - 30.0, abs=0.01)
    contact = path.prop.pivot.y + 3.0  # the fold at which the corner reaches the underside
    assert contact == -24.0
    fold = math.degrees(math.asin(30.0 / (22.0 * math.sqrt(2.0))))  # corner above the pivot's level
    # corner at 135 degrees from the arm's axis; the arm has folded by 135 - (180 - fold)
    stand = next(
        s.at(k / 2000.0)
        for s in path.raising
        for k in range(2001)
        if -math.degrees(s.at(k / 2000.0).fold) >= 135.0 - (180.0 - fold)
    )
    assert found.starts == pytest.approx(stand.degrees, abs=0.05)


def test_rounding_a_square_rod_end_gains_the_corners_reach(path) -> None:
    """A rail beside the folded arm: the square corner reaches further at a slope."""
    bodies = (rail(720.0), arm())
    gain = end_gain(arm(), bodies, path, width=44.0)
    assert gain.against_square == gain.against_round == "head rail"
    first = path.stretches[0].at(0.0)
    heading = -first.heading
    x = first.rod.x
    corner = 22.0 * (math.cos(heading) + math.sin(heading))
    assert gain.round <= 720.0 - x - 22.0 + 1e-6
    # folded flat the corner leads; the least gap lies within a degree of there
    assert gain.square == pytest.approx(720.0 - x - corner, abs=0.4)
    assert gain.gained > 2.0


def test_rod_under_a_brace_when_folded(path) -> None:
    """Resting 4 mm under the brace, carried 3 mm higher: 1 mm is left."""
    (found,) = sweep((brace(-57.0), ROD), path, wanted=2.0)
    assert isinstance(found, Clearance)
    assert found.least == pytest.approx(1.0, abs=0.01)
    assert not found.enough
    assert found.phase in (Phase.LOWERING, Phase.SETTLING)
    assert found.degrees == pytest.approx(0.0, abs=0.01)


def test_cutting_a_deep_brace_back_is_found_applied_and_swept_again(path) -> None:
    bodies = (back_slats(), brace(-63.0), arm(), ROD, rack())
    results = sweep(bodies, path, wanted=2.0, touching=PERMITTED)
    (clash,) = [r for r in results if isinstance(r, Clash)]
    assert {clash.first, clash.second} == {"brace", "rod"}
    assert clash.depth == pytest.approx(5.0, abs=0.01)
    cut = next(c for c in changes(clash, bodies, path, 2.0) if c.how is How.CUT_BACK)
    assert cut.side is Side.BOTTOM
    assert cut.by == pytest.approx(7.0, abs=0.03)
    assert cut.clears >= 2.0
    again = sweep(applied(cut, bodies), path, wanted=2.0, touching=PERMITTED)
    assert all(isinstance(r, Clearance) and r.enough for r in again)


def test_the_rail_is_moved_away_or_the_arm_rounded(path) -> None:
    square = arm(square_arm(365.0, 44.0, 22.0))
    bodies = (rail(710.0), square)
    (clash,) = sweep(bodies, path, wanted=2.0)
    ways = changes(clash, bodies, path, 2.0)
    by_how = {c.how: c for c in ways}
    assert by_how[How.MOVE].body == "head rail"
    assert by_how[How.MOVE].side is Side.LEFT
    assert by_how[How.ROUND_END].by == 22.0
    for change in ways:
        (mended,) = sweep(applied(change, bodies), path, wanted=2.0)
        assert isinstance(mended, Clearance)
        assert mended.enough
        assert mended.least == pytest.approx(change.clears, abs=0.02)


def test_bodies_in_different_lanes_are_no_pair(path) -> None:
    assert sweep((brace(-150.0), arm()), path) == ()


def test_permitted_contact_is_no_clash_until_it_is_deep(path) -> None:
    (rests,) = sweep((rack(), ROD), path, wanted=2.0, touching=PERMITTED)
    assert isinstance(rests, Clearance)
    assert rests.least == pytest.approx(0.0, abs=1e-6)
    assert rests.enough
    (sunk,) = sweep((rack(1.0), ROD), path, touching=PERMITTED)
    assert isinstance(sunk, Clash)
    assert sunk.depth == pytest.approx(1.0, abs=0.01)


def test_a_rod_that_runs_right_through_a_block(path) -> None:
    """Its centre passes 10 mm below the block's top: depth 10 + 11."""
    block = Body(
        name="block",
        outlines=(oblong(500.0, -100.0, 560.0, REST + 10.0),),
        lane=INSIDE,
        carrier=Carrier.FRAME,
    )
    (found,) = sweep((block, ROD), path)
    assert isinstance(found, Clash)
    assert found.depth == pytest.approx(21.0, abs=0.05)
    # on the way up it first touches with its side, its centre a radius short of the block
    height = math.radians(found.starts)
    x = 320.0 * math.cos(height) + 27.0 * math.sin(height)
    y = 320.0 * math.sin(height) - 27.0 * math.cos(height)
    assert math.dist((x, y), (571.0, REST)) == pytest.approx(365.0, abs=0.01)


def test_beyond_reach_is_stated_as_a_bound(path) -> None:
    (found,) = sweep((rail(900.0), arm()), path, reach=50.0)
    assert isinstance(found, Clearance)
    assert found.beyond
    assert found.least == 50.0


def test_left_and_right_hands_get_the_same_numbers(path) -> None:
    left = arm()
    right = Body(name="arm 2", outlines=left.outlines, lane=(-254.0, -236.0), carrier=Carrier.ARM)
    first, second = sweep((back_slats(), left, right), path)
    assert (first.second, second.second) == ("arm", "arm 2")
    assert isinstance(first, Clearance)
    assert isinstance(second, Clearance)
    assert first.least == second.least


@pytest.mark.parametrize(
    ("x", "gap"),
    [(40.0, 20.0), (15.0, -5.0), (5.0, -10.0 - 5.0), (-30.0, 10.0)],
)
def test_signed_gap_of_a_disc_and_a_box(x: float, gap: float) -> None:
    """Box 20 wide about the origin, disc of radius 10 beside it or, at 5, parted sideways by 15."""
    (box,) = pieces(oblong(-10.0, -30.0, 10.0, 30.0))
    (round_one,) = pieces(disc(Point(0.0, 0.0), 10.0))
    assert signed_gap(box, HOME, round_one, pose(0.0, x, 0.0)).value == pytest.approx(gap)


def test_a_notched_outline_is_cut_into_pieces_of_the_same_area() -> None:
    comb = closed(
        (
            (0, 0, 0), (100, 0, 0), (100, 40, 0), (80, 40, 0), (80, 20, -1.0), (60, 20, 0),
            (60, 40, 0.3), (40, 40, 0), (30, 15, 0), (20, 40, 0), (0, 40, 0),
        )
    )  # fmt: skip
    total = 0.0
    for piece in pieces(comb):
        corners = [(x, y) for x, y, r in piece.carriers if r == 0.0]
        arcs = [r for _, _, r in piece.carriers if r > 0.0]
        total += abs(_area(corners)) if not arcs else 0.0
    bulged = [p for p in pieces(comb) if any(r > 0.0 for _, _, r in p.carriers)]
    assert len(bulged) == 1
    corners = [(x, y) for x, y, r in bulged[0].carriers if r == 0.0]
    sweep_angle = 4.0 * math.atan(0.3)
    radius = 20.0 * (1.0 + 0.09) / 1.2
    cap = radius**2 * (sweep_angle - math.sin(sweep_angle)) / 2.0
    assert total + abs(_area(corners)) + cap == pytest.approx(comb.area, abs=0.2)


def _area(corners: list[tuple[float, float]]) -> float:
    return (
        sum(
            x0 * y1 - x1 * y0
            for (x0, y0), (x1, y1) in zip(corners, corners[1:] + corners[:1], strict=True)
        )
        / 2.0
    )


@pytest.mark.parametrize(("more", "clashes"), [(0.003, True), (-0.003, False)])
def test_a_hairs_breadth_is_told_apart(path, more: float, clashes: bool) -> None:
    """A half circle of 30 mm about the pivot just touches the underside 30 mm above it."""
    (found,) = sweep((back_slats(), arm(arm_outline(365.0, 60.0 + 2.0 * more))), path)
    assert isinstance(found, Clash) is clashes


def test_enough_is_told_apart_as_finely(path) -> None:
    (found,) = sweep((back_slats(), arm()), path, wanted=8.0)
    assert isinstance(found, Clearance)
    assert found.enough
    (found,) = sweep((back_slats(), arm()), path, wanted=8.002)
    assert isinstance(found, Clearance)
    assert not found.enough


def test_gaps_at_one_position(path) -> None:
    folded = path.folded
    found = gaps_at((brace(-57.0), ROD, rack()), 365.0, folded)
    assert found[0][:2] == ("brace", "rod")
    assert found[0][2] == pytest.approx(4.0)
    assert found[1][2] == pytest.approx(0.0, abs=1e-9)


def test_the_back_may_rest_on_its_frame(path) -> None:
    bearer = Body(
        name="bearer", outlines=(oblong(600.0, -20.0, 640.0, 3.0),), lane=SLATS,
        carrier=Carrier.FRAME,
    )  # fmt: skip
    rests = frozenset((frozenset(("bearer", "back slats")),))
    (found,) = sweep((bearer, back_slats()), path, wanted=2.0, touching=rests)
    assert isinstance(found, Clearance)
    assert found.enough
    assert found.degrees == 0.0
    (bare,) = sweep((bearer, back_slats()), path, wanted=2.0)
    assert isinstance(bare, Clearance)
    assert not bare.enough
    high = Body(
        name="bearer", outlines=(oblong(600.0, -20.0, 640.0, 4.0),), lane=SLATS,
        carrier=Carrier.FRAME,
    )  # fmt: skip
    (sunk,) = sweep((high, back_slats()), path, touching=rests)
    assert isinstance(sunk, Clash)
    assert sunk.depth == pytest.approx(1.0, abs=0.01)
