"""Dimensions against the piece's own sizes, and hidden parts against rays through the bodies."""

import itertools
import math

import pytest
import shapely

from flatpack.drawings.boxes import meet
from flatpack.drawings.dimensioning import dimension_parts
from flatpack.drawings.ga_dimensions import measures
from flatpack.drawings.ga_layout import layout_for
from flatpack.drawings.ga_measure import room_of
from flatpack.drawings.general_arrangement import general_arrangement
from flatpack.drawings.hiding import painted
from flatpack.drawings.lettering import text_box
from flatpack.drawings.marks import bar_groups, groups
from flatpack.drawings.projection import CROSSWISE, LENGTHWISE, bodies, faces, view_box
from flatpack.drawings.shapes import Closed, Dimension, Text
from flatpack.geometry import Point, Vec

VIEWS = [*LENGTHWISE, *CROSSWISE]


def _texts(drawing):
    return [s.shape.text for s in drawing.strokes if isinstance(s.shape, Dimension)]


def test_dimensions_are_the_piece_s_own_sizes(piece, settings, sizes):
    flat, up = general_arrangement(piece, settings.poses)
    wanted = {f"{v:g}" for v in (sizes.long, sizes.wide, sizes.deck, 240.0, 620.0)}
    assert wanted <= set(_texts(flat))
    pitch = sizes.slat + sizes.gap
    assert f"pitch {pitch:g} = {sizes.slat:g} slat + {sizes.gap:g} gap" in _texts(flat)
    assert "620" in _texts(up)
    assert f"{sizes.deck:g}" in _texts(up)


def test_the_raised_back_s_height_follows_from_its_angle(piece, settings, sizes):
    # The highest corner is a brace's far upper one, 620 along and 20 under the axis's height.
    s, c = math.sin(math.radians(50.0)), math.cos(math.radians(50.0))
    height = sizes.deck + 620.0 * s - 20.0 * c
    _, up = general_arrangement(piece, settings.poses)
    assert f"{height:.1f}".removesuffix(".0") in _texts(up)


def test_a_dimension_s_length_on_paper_is_its_figure_times_the_scale(piece, settings):
    for drawing in general_arrangement(piece, settings.poses):
        plain = [s.shape for s in drawing.strokes
                 if isinstance(s.shape, Dimension) and "pitch" not in s.shape.text]  # fmt: skip
        assert len(plain) >= 6
        for d in plain:
            paper = math.hypot(d.end.x - d.start.x, d.end.y - d.start.y)
            assert paper == pytest.approx(
                float(d.text.split()[0]) * drawing.scale, abs=0.051 * drawing.scale
            )


def test_measures_join_places_in_space_as_far_apart_as_they_say(piece):
    found = bodies(piece)
    for m in measures(piece, found, LENGTHWISE):
        if "pitch" not in m.text:
            assert float(m.text.split()[0]) == pytest.approx(math.dist(m.a, m.b), abs=0.05)


def test_a_maker_finds_what_he_sets_out_by(piece, settings, sizes):
    # By hand from the made-up recliner: legs 180 - 80 from the foot, two of them, rails 214 above
    # the ground; braces' outer faces lie one board of 17.9 off 80, slats' ends one board and 10.
    ply = piece.parts["rail-left"].board.thickness
    flat, up = (_texts(d) for d in general_arrangement(piece, settings.poses))
    first_back, last_fixed = sizes.hinge, 9 * (sizes.slat + sizes.gap) - sizes.gap
    assert f"{first_back - last_fixed:g} gap at the hinge" in flat
    assert f"{80.0 - ply - (ply + 10.0):.1f} to brace" in flat
    assert f"{sizes.deck - 20.0 - sizes.rail:g}" in flat
    assert not [t for t in up if "hinge" in t or "brace" in t]


def test_no_dimension_s_lettering_lies_on_another_s(piece, settings):
    for drawing in general_arrangement(piece, settings.poses):
        boxes = [text_box(dimension_parts(s.shape, drawing.scale)[1])
                 for s in drawing.strokes if isinstance(s.shape, Dimension)]  # fmt: skip
        boxes += [text_box(s.shape) for s in drawing.strokes if isinstance(s.shape, Text)]
        for a, b in itertools.combinations(boxes, 2):
            assert not meet(a, b), (a, b)


@pytest.mark.parametrize(
    ("size", "paper", "reduction"),
    # A3's frame is 390 by 277 (ISO 5457): 199 + 76 lie side by side in it, 108 + 76 above one
    # another and above a title block of 36; three times as wide they need a larger sheet.
    [
        (Vec(1990, 760, 1085), "A3", 10),
        (Vec(2600, 1500, 1200), "A2", 10),
        (Vec(9000, 900, 900), "A3", 50),
    ],
)
def test_the_sheet_is_as_small_and_the_picture_as_large_as_goes(size, paper, reduction):
    layout = layout_for(room_of(_box(size)), {}, (113.0, 90.0))
    assert (layout.paper.name, round(1.0 / layout.scale, 6)) == (paper, reduction)
    boxes = [*layout.rooms, layout.paper.block]
    boxes += [(x, y - 90.0, x + 113.0, y) for x, y in layout.table]
    assert len(boxes) == 5
    assert not any(meet(a, b) for a, b in itertools.combinations(boxes, 2))


def test_views_are_right_handed(piece):
    for view in VIEWS:
        assert view.right.cross(view.up) == view.toward


def test_the_sheet_keeps_ten_millimetres_free(piece, settings):
    for drawing in general_arrangement(piece, settings.poses):
        assert drawing.bounds == (0.0, 0.0, 420.0, 297.0)
        for s in drawing.strokes:
            if hasattr(s.shape, "outline"):
                x0, y0, x1, y1 = s.shape.outline.bounds
                assert x0 >= 10.0
                assert y0 >= 10.0
                assert x1 <= 410.0
                assert y1 <= 287.0


@pytest.mark.parametrize("size", [Vec(1960, 640, 900), Vec(500, 1500, 850), Vec(300, 200, 250)])
def test_the_scale_is_the_largest_of_the_series_that_fits(size):
    layout = layout_for(room_of(_box(size)))
    assert round(1.0 / layout.scale, 6) in (1, 2, 5, 10, 20, 50, 100)
    for x0, y0, x1, y1 in layout.boxes.values():
        assert x0 > 20.0
        assert y0 > 10.0
        assert x1 < 410.0
        assert y1 < 287.0


def _box(size):
    from flatpack.drawings.projection import Body
    from flatpack.geometry import Frame
    from flatpack.geometry.shapes import rectangle

    return (Body("b", Frame(), rectangle(size.x, size.y), 0.0, size.z),)


def _depth(body, view, at):
    """Nearest depth at which a sight line meets the box round a body; None when it misses.

    Slabs in the body's own axes, worked out here and not with the product's code.
    """
    start = [view.right[i] * at.x + view.up[i] * at.y for i in range(3)]
    x0, y0, x1, y1 = body.outline.bounds
    low, high = -1e9, 1e9
    o = body.frame.origin
    for axis, a, b in (
        (body.frame.x, x0, x1), (body.frame.y, y0, y1), (body.frame.z, body.low, body.high),
    ):  # fmt: skip
        p = sum((start[i] - o[i]) * axis[i] for i in range(3))
        d = sum(view.toward[i] * axis[i] for i in range(3))
        if abs(d) < 1e-12:
            if not a + 0.2 < p < b - 0.2:
                return None
            continue
        first, last = sorted(((a - p) / d, (b - p) / d))
        low, high = max(low, first), min(high, last)
    return high if high - low > 0.2 else None


@pytest.mark.parametrize("pose", ["back flat", "back up"])
@pytest.mark.parametrize("view", VIEWS, ids=lambda v: f"{v.name}{v.toward}")
def test_the_last_body_painted_on_a_spot_is_the_nearest_there(settings, pose, view):
    # Boxes only: bodies with round or hollow outlines don't fill theirs.
    found = [b for b in bodies(settings.poses[pose])
             if len(b.outline.segments) == 4 and not any(s.bulge for s in b.outline)]  # fmt: skip
    order = painted(tuple(found), view)
    assert sorted(b.key for b in order) == sorted(b.key for b in found)
    lows_x, lows_y, highs_x, highs_y = zip(*(view_box(b, view) for b in found), strict=True)
    x0, y0, x1, y1 = min(lows_x), min(lows_y), max(highs_x), max(highs_y)
    checked = 0
    for i in range(40):
        for j in range(25):
            at = Point(x0 + (x1 - x0) * (i + 0.37) / 40, y0 + (y1 - y0) * (j + 0.41) / 25)
            hit = [(d, n) for n, b in enumerate(order) if (d := _depth(b, view, at)) is not None]
            if hit:
                nearest = max(d for d, _ in hit)
                painted_last = max(hit, key=lambda pair: pair[1])
                assert painted_last[0] > nearest - 0.3, order[painted_last[1]].key
                checked += 1
    assert checked > 50


def test_a_face_seen_at_a_slope_is_as_large_as_the_cosine_says(piece, settings):
    # Area of a plane face in projection = area x cosine of its tilt (plane geometry).
    slat = next(b for b in bodies(settings.poses["back up"]) if b.key == "back-slat-3")
    plan = LENGTHWISE.plan
    top = faces(slat, plan)[-1]
    assert abs(top.area) == pytest.approx(
        abs(slat.outline.area) * math.cos(math.radians(50.0)), rel=1e-9
    )


@pytest.mark.parametrize("pose", [0, 1])
def test_a_mark_lies_on_its_part_alone(piece, settings, pose):
    """Also on one that leans: shapely sees the last shape painted under it hold it whole."""
    drawing = general_arrangement(piece, settings.poses)[pose]
    painted_there = [(n, shapely.Polygon(s.shape.outline.sampled(0.05)))
                     for n, s in enumerate(drawing.strokes)
                     if isinstance(s.shape, Closed) and s.shape.filled]  # fmt: skip
    known = {g.mark for g in groups(piece)} | {g.mark for g in bar_groups(piece)}
    texts = [s.shape for s in drawing.strokes if isinstance(s.shape, Text)]
    marks = [text for text in texts if text.text in known and text.across == "middle"]
    assert len({m.text for m in marks}) == len(marks) > 3
    for mark in marks:
        x0, _, x1, _ = text_box(mark)
        # The estimate of the lettering's room is wide: its middle nine tenths, without descenders.
        box = shapely.box(x0 + 0.05 * (x1 - x0), mark.at.y - 0.5 * mark.height,
                          x1 - 0.05 * (x1 - x0), mark.at.y + 0.5 * mark.height)  # fmt: skip
        under = [shape for _, shape in painted_there if shape.intersects(box)]
        assert under[-1].contains(box), mark.text


def test_parts_that_lean_are_marked_too(piece, settings):
    flat, up = general_arrangement(piece, settings.poses)
    told = [{s.shape.text for s in d.strokes if isinstance(s.shape, Text)
             and s.shape.across == "middle"} for d in (flat, up)]  # fmt: skip
    leaning = {g.mark for g in groups(piece) if g.part.group in ("back", "arm")}
    assert leaning & told[1]
