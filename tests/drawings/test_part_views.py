"""Parts as drawn against the parts as they lie in space."""

import pytest

from flatpack.drawings.doubles import overlaps
from flatpack.drawings.faces import one_sided, worked_faces
from flatpack.drawings.layers import DEFAULT_LAYERS
from flatpack.drawings.marks import groups
from flatpack.drawings.part_view import part_drawing, second_drawing
from flatpack.drawings.plain import plain_strokes
from flatpack.drawings.registry import drawings
from flatpack.drawings.shapes import Circle, Closed, Drawing, Ellipse, Line, Text
from flatpack.features import Countersink, Hole
from flatpack.geometry import Point

CUT = {layer.key for layer in DEFAULT_LAYERS if layer.cut}


def _group(piece, mark):
    return next(g for g in groups(piece) if g.mark == mark)


def _drawn(piece, settings, mark):
    return part_drawing(piece, _group(piece, mark), settings)


def _shapes(drawing, layer, kind):
    return [s.shape for s in drawing.strokes if s.layer == layer and isinstance(s.shape, kind)]


def _outline(drawing):
    (shape,) = _shapes(drawing, "outline", Closed)
    return shape.outline


def _spots(drawing):
    pockets = {(round(e.centre.x, 3), round(e.centre.y, 3))
               for e in _shapes(drawing, "pocket-hole", Ellipse)}  # fmt: skip
    through = {(round(c.centre.x, 3), round(c.centre.y, 3))
               for c in _shapes(drawing, "drill-through", Circle)}  # fmt: skip
    return pockets, through


def _circles(drawing):
    return {(round(c.centre.x, 3), round(c.centre.y, 3), round(c.radius, 3))
            for c in _shapes(drawing, "drill-through", Circle)}  # fmt: skip


@pytest.mark.parametrize("name", ["A", "D", "G"])
def test_the_hands_are_mirror_images_and_differ_when_laid_over_one_another(piece, settings, name):
    left, right = (_drawn(piece, settings, f"{name}-{h}") for h in "LR")
    length = _group(piece, f"{name}-L").part.length
    for mine, other in zip(_spots(left), _spots(right), strict=True):
        assert {(round(length - x, 3), y) for x, y in mine} == other
    assert _circles(left) != _circles(right) or _spots(left)[0] != _spots(right)[0]


def test_pocket_marks_of_the_two_hands_do_not_coincide(piece, settings):
    left, right = (_spots(_drawn(piece, settings, f"A-{h}"))[0] for h in "LR")
    assert len(left) == len(right) == 9
    assert not left & right


@pytest.mark.parametrize("mark", ["A-L", "A-R", "B", "D-L", "D-R", "E-L", "E-R", "F", "G-R"])
def test_a_view_shows_what_somebody_sees_who_looks_square_at_that_face(piece, settings, mark):
    # Looking at a face, with the part's y up: right = up x (direction from the face to the eye).
    part = _group(piece, mark).part
    face = worked_faces(part)[0]
    up = part.frame.y
    toward = part.frame.z if face == "show" else part.frame.z.negated()
    right = up.cross(toward)
    x0, y0, x1, _ = part.outline.bounds
    ends = [part.frame.place(x, y0).dot(right) for x in (x0, x1)]
    drawn = _drawn(piece, settings, mark)
    seen = {
        (round(p.dot(right) - min(ends), 3), round(f.at.y - y0, 3))
        for f in part.features
        if f.operation in ("drill-through", "pocket-hole") and not _hidden(f, face)
        for p in [part.frame.place(f.at.x, f.at.y)]
    }
    pockets, through = _spots(drawn)
    assert pockets | through == seen


def _hidden(feature, face):
    return one_sided(feature) and feature.face != face


def test_outlines_stay_anticlockwise_with_the_same_area(piece, settings):
    for group in groups(piece):
        drawn = _outline(part_drawing(piece, group, settings))
        assert drawn.area == pytest.approx(group.part.outline.area)
        assert drawn.area > 0.0


def test_the_datum_end_is_on_the_same_end_of_both_hands(piece, settings):
    for mark, at in (("G-L", 0.0), ("G-R", _group(piece, "G-R").part.length)):
        ends = [s for s in _shapes(_drawn(piece, settings, mark), "datum-edge", Line)
                if s.start.x == s.end.x]  # fmt: skip
        assert [abs(s.start.x - at) < 5.0 for s in ends] == [True]


def test_work_on_the_other_face_is_hidden_and_has_a_drawing_of_its_own(piece, settings):
    both = _group(piece, "B")
    sink = (Hole(at=Point(200.0, 40.0), diameter=4.0, depth=9.0, face="show"),
            Countersink(at=Point(200.0, 40.0), diameter=8.0, face="show"))  # fmt: skip
    group = type(both)(both.mark, both.part.with_features(sink), both.count, both.keys)
    first, second = part_drawing(piece, group, settings), second_drawing(piece, group, settings)
    assert not _shapes(first, "drill-blind", Circle)
    assert not _shapes(first, "countersink", Circle)
    assert {c.radius for c in _shapes(first, "hidden-edge", Circle)} == {2.0, 4.0}
    (hole,) = _shapes(second, "drill-blind", Circle)
    (mine,) = (c for c in _shapes(first, "hidden-edge", Circle) if c.radius == 2.0)
    assert hole.centre.x == pytest.approx(group.part.length - mine.centre.x)
    assert not _shapes(second, "outline", Closed)
    assert second_drawing(piece, both, settings) is None


def test_every_feature_is_drawn_on_its_layer(piece, settings):
    for group in groups(piece):
        face = worked_faces(group.part)[0]
        layers = {s.layer for s in part_drawing(piece, group, settings).strokes}
        for feature in group.part.features:
            wanted = "hidden-edge" if _hidden(feature, face) else feature.operation
            assert wanted in layers, (group.mark, feature)


def _plain(drawing):
    return plain_strokes(drawing, DEFAULT_LAYERS, once=False)


def test_no_lettering_and_nothing_twice_on_the_layers_that_are_cut(piece, settings):
    for sheet in drawings(piece, settings):
        if isinstance(sheet.content, Drawing) and sheet.format == "dxf":
            cut = [s for s in _plain(sheet.content) if s.layer in CUT]
            assert cut
            assert not any(isinstance(s.shape, Text) for s in cut)
            assert not overlaps(cut), sheet.path


def test_the_mark_is_engraved_on_the_back_only_and_clear_of_holes(piece, settings):
    back, show = _drawn(piece, settings, "A-L"), _drawn(piece, settings, "F")
    assert [s for s in back.strokes if s.layer == "part-mark"]
    assert not [s for s in show.strokes if s.layer == "part-mark"]
    marks = [p for s in back.strokes if s.layer == "part-mark" for p in s.shape.segments]
    for x, y in (m.start for m in marks):
        assert 0.0 < x < 1500.0
        assert 0.0 < y < 96.0
        assert all((x - cx) ** 2 + (y - cy) ** 2 > 25.0 for cx, cy in _spots(back)[1])
