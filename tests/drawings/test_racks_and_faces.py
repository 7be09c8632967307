"""Running dimensions to rods, room for what is drawn, and which way a face looks."""

import itertools
from dataclasses import replace

import pytest

from flatpack.drawings.boxes import box_of, meet
from flatpack.drawings.drilling_sheet import drilling_sheets
from flatpack.drawings.facing import facing
from flatpack.drawings.marks import groups
from flatpack.drawings.part_view import part_drawing
from flatpack.drawings.shapes import Circle, Dimension, Text
from flatpack.features import Notch
from flatpack.geometry import Point


@pytest.fixture(scope="module")
def racked(piece, sizes):
    """The recliner with rods that stand out of its rails' upper edges."""
    rods = tuple(
        Notch(at=Point(x, sizes.rail + 11.0), number=n, diameter=22.0, shape="ramp")
        for n, x in enumerate((90.0, 300.0, 412.5), 1)
    )
    parts = {
        key: replace(part, features=(*(f for f in part.features if f.operation != "thin-line"),
                                     *rods))
        if key in ("rail-left", "rail-right") else part
        for key, part in piece.parts.items()
    }  # fmt: skip
    return replace(piece, parts=parts)


def _rails(piece, settings):
    found = tuple(g for g in groups(piece) if g.part.name == "side rail")
    assert [g.part.hand for g in found] == ["left", "right"]
    return [*(part_drawing(piece, g, settings) for g in found),
            *drilling_sheets(piece, found, settings)]  # fmt: skip


def test_rods_are_dimensioned_from_the_datum_end(racked, settings, sizes):
    for drawing in _rails(racked, settings):
        turned = [s.shape for s in drawing.strokes
                  if s.layer == "dimension" and isinstance(s.shape, Text)]  # fmt: skip
        assert sorted(t.text for t in turned) == ["300", "412.5", "90"]
        (origin,) = (s.shape.centre.x for s in drawing.strokes
                     if s.layer == "dimension" and isinstance(s.shape, Circle))  # fmt: skip
        assert origin in (0.0, sizes.long)
        for t in turned:
            assert abs(t.at.x - origin) == pytest.approx(float(t.text))


def test_nothing_written_lies_on_a_rod_or_on_other_words(racked, settings):
    for drawing in _rails(racked, settings):
        texts = [box_of(s.shape) for s in drawing.strokes if isinstance(s.shape, Text)]
        sizes = [box_of(s.shape) for s in drawing.strokes if isinstance(s.shape, Dimension)]
        rods = [box_of(s.shape) for s in drawing.strokes
                if s.layer == "thin-line" and isinstance(s.shape, Circle)]  # fmt: skip
        assert len(rods) == 3
        for a, b in itertools.combinations(texts, 2):
            assert not meet(a, b)
        for rod in rods:
            assert not any(meet(rod, t) for t in texts)
            over = [d for d in sizes if d[0] < rod[0] and rod[2] < d[2]]
            assert over
            assert all(d[3] > rod[3] for d in over)
        x0, y0, x1, y1 = drawing.bounds
        assert all(x0 <= a and y0 <= b and c <= x1 and d <= y1 for a, b, c, d in (*texts, *rods))


# By hand: rails, and end rails at both ends, show their good face outwards; slats show it upwards;
# the legs' frames look across to the other side; a lone rear end rail looks the way its x goes.
@pytest.mark.parametrize(
    ("name", "face", "said"),
    [
        ("side rail", "show", "outwards"),
        ("side rail", "back", "to the middle"),
        ("end rail", "show", "outwards"),
        ("end rail", "back", "to the middle"),
        ("deck slat", "show", "up"),
        ("deck slat", "back", "down"),
        ("leg", "show", "to the middle"),
        ("leg", "back", "outwards"),
    ],
)
def test_a_face_is_told_by_where_it_looks(piece, name, face, said):
    for group in groups(piece):
        if group.part.name == name:
            assert said in facing(piece, group, face)


def test_a_part_by_itself_faces_an_end(piece):
    alone = replace(piece, parts={k: p for k, p in piece.parts.items() if k != "end-foot"})
    group = next(g for g in groups(alone) if g.part.name == "end rail")
    assert "to the rear" in facing(alone, group, "show")
    assert "to the front" in facing(alone, group, "back")
    bed = replace(alone, bearing="lying")
    assert "to the head end" in facing(bed, group, "show")


def test_a_part_in_the_middle_faces_the_side_of_one_hand(piece, sizes):
    rail = piece.parts["rail-left"]
    place = replace(rail.frame, origin=rail.frame.origin._replace(y=sizes.wide / 2.0 + 30.0))
    middle = replace(rail, key="m", name="middle rail", hand="", frame=place)
    more = replace(piece, parts={**piece.parts, "m": middle})
    group = next(g for g in groups(more) if g.part.name == "middle rail")
    assert "left-hand" in facing(more, group, "show")
    assert "right-hand" in facing(more, group, "back")


def test_parts_that_look_different_ways_are_told_nothing_false(piece):
    group = next(g for g in groups(piece) if g.part.name == "side rail")
    both = replace(group, keys=("rail-left", "slat-1"))
    assert facing(piece, both, "show") == ""


def test_the_sheets_say_where_the_drawn_face_looks(piece, settings):
    for drawing in _rails(piece, settings):
        words = [s.shape.text for s in drawing.strokes if isinstance(s.shape, Text)]
        (seen,) = (w for w in words if w.startswith("seen on"))
        assert ("back face" in seen) == ("to the middle" in seen)
        assert ("show face" in seen) == ("outwards" in seen)
