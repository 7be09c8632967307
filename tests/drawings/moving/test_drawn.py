"""The two sheets: what stands at full size, what is reduced, and what touches what."""

from __future__ import annotations

import math

import pytest

from flatpack.drawings.boxes import box_of
from flatpack.drawings.moving import sheets
from flatpack.drawings.moving.close_up import cone, touches
from flatpack.drawings.moving.facts import stop_facts
from flatpack.drawings.moving.views import seen_bodies
from flatpack.drawings.shapes import Circle, Dimension, Path, Text
from flatpack.drawings.title_block import FRAME
from flatpack.mechanism.bodies import Carrier


def texts(drawing):
    return [s.shape.text for s in drawing.strokes if isinstance(s.shape, Text)]


def circles(drawing, radius):
    return [
        s.shape.centre
        for s in drawing.strokes
        if isinstance(s.shape, Circle) and s.shape.radius == pytest.approx(radius)
    ]


def test_side_view_has_every_stop_flat_and_the_hinge(made):
    drawing = made.sheets["moving/stops.svg"]
    said = texts(drawing)
    for number, stop in enumerate(made.study.found.stops, 1):
        assert f"{number}: {stop.angle:.1f}°" in said
        assert str(number) in said
    assert f"{made.study.motion.rest}: 0.0°" in said
    assert "hinge axis" in said


def test_rods_on_the_side_view_stand_at_their_stops_reduced(made):
    drawing = made.sheets["moving/stops.svg"]
    stops = made.study.found.stops
    found = circles(drawing, made.study.motion.rod / 2.0 * drawing.scale)
    assert len(found) == len(stops)
    first = stops[0].rod
    for stop, centre in zip(stops, found, strict=True):
        across = (centre.x - found[0].x) / drawing.scale
        assert across == pytest.approx(stop.rod.x - first.x, abs=1e-6)


def test_dimensions_run_from_the_datum_end_to_each_rod(made):
    drawing = made.sheets["moving/stops.svg"]
    dims = [s.shape for s in drawing.strokes if isinstance(s.shape, Dimension)]
    wanted = [
        f.at.x
        for part in made.assembly.parts.values()
        if part.hand == "left"
        for f in part.features
        if f.key()[0] == "notch"
    ]
    assert len(dims) == len(wanted)  # both hands alike: one row serves both
    for dim, x in zip(dims, sorted(wanted), strict=True):
        assert math.dist(dim.start, dim.end) / drawing.scale == pytest.approx(x, abs=1e-6)
        assert float(dim.text) == pytest.approx(x, abs=0.051)


def test_everything_stays_within_the_frame(made):
    x0, y0, x1, y1 = FRAME
    for path in ("moving/stops.svg", "moving/close-ups.svg"):
        for stroke in made.sheets[path].strokes:
            a, b, c, d = box_of(stroke.shape, made.sheets[path].scale)
            assert min(a - x0, b - y0, x1 - c, y1 - d) >= -0.01, stroke


def test_close_ups_are_at_full_size(made):
    drawing = made.sheets["moving/close-ups.svg"]
    assert drawing.scale == 1.0
    centres = circles(drawing, made.study.motion.rod / 2.0)
    assert len(centres) >= len(made.study.found.stops)
    runs = [s.shape.segments for s in drawing.strokes
            if isinstance(s.shape, Path) and s.layer == "outline"]  # fmt: skip
    assert len(runs) >= len(made.study.found.stops)


def test_contact_points_lie_on_rod_and_notch(made):
    contour = made.study.rack.contour
    for f in stop_facts(made.assembly, made.study):
        found = touches(made.study, f)
        assert found
        for touch in found:
            assert math.dist(touch.place, f.stop.rod) == pytest.approx(
                made.study.motion.rod / 2.0, abs=1e-6
            )
            near = min(math.dist(p, touch.place) for p in contour[touch.face].sampled(1e-4))
            ends = (contour[touch.face].start, contour[touch.face].end)
            length = contour[touch.face].length
            assert near <= length
            if contour[touch.face].bulge == 0.0:
                assert sum(math.dist(e, touch.place) for e in ends) == pytest.approx(length)


def test_forces_on_the_faces_balance_the_thrust(made):
    # Statics by hand: the faces' forces, each square to its face, add up to the arm's thrust.
    for f in stop_facts(made.assembly, made.study):
        x = y = 0.0
        for touch in touches(made.study, f):
            away = math.dist(touch.place, f.stop.rod)
            x += touch.force * (f.stop.rod.x - touch.place.x) / away
            y += touch.force * (f.stop.rod.y - touch.place.y) / away
        u = f.stop.loaded.thrust
        assert (x, y) == (
            pytest.approx(-f.hold.arm * u.x, abs=0.5),
            pytest.approx(-f.hold.arm * u.y, abs=0.5),
        )


def test_the_margin_is_the_angle_from_the_arm_to_the_cone(made):
    for f in stop_facts(made.assembly, made.study):
        first, last = cone(f)
        up = math.degrees(math.atan2(f.stop.pivot.y - f.stop.rod.y, f.stop.pivot.x - f.stop.rod.x))
        inside = min(
            math.remainder(up - first, 360.0) % 360.0, math.remainder(last - up, 360.0) % 360.0
        )
        assert inside == pytest.approx(f.hold.margin, abs=0.01)


def test_with_faces_of_two_the_cone_is_their_normals(made):
    for f in stop_facts(made.assembly, made.study):
        found = touches(made.study, f)
        if len(found) != 2:
            continue
        normals = [
            math.degrees(math.atan2(f.stop.rod.y - t.place.y, f.stop.rod.x - t.place.x)) % 360.0
            for t in found
        ]
        assert sorted(normals) == pytest.approx(sorted(e % 360.0 for e in cone(f)), abs=1e-4)


def test_only_the_left_half_is_drawn_and_nothing_twice(made):
    seen = seen_bodies(made.study)
    assert not [b.name for b in seen if b.name.endswith("-right")]
    assert {b.carrier for b in seen} == {Carrier.FRAME, Carrier.BACK, Carrier.ARM, Carrier.ROD}
    assert len({(b.carrier, b.outline) for b in seen}) == len(seen)


def test_a_piece_that_stands_still_has_no_such_sheets(made):
    assert list(sheets(made.assembly, None, made.settings)) == []


def test_the_stated_files_are_made(made):
    assert set(made.files) == {
        "lists/stops.csv", "moving/stops.svg", "moving/close-ups.svg", f"{made.page.name}.html",
    }  # fmt: skip
