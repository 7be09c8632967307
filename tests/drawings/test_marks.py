from dataclasses import replace

from flatpack.drawings.marks import bar_groups, groups, marks_by_key
from flatpack.features import Hole
from flatpack.geometry import Point
from flatpack.model import Assembly


def _marks(piece):
    return {g.mark: g for g in groups(piece)}


def test_parts_that_are_alike_share_a_mark_and_are_counted(piece):
    found = _marks(piece)
    assert found["C"].part.name == "deck slat"
    assert found["C"].count == 9
    assert sum(g.count for g in found.values()) == len(piece.parts)


def test_hands_share_a_letter(piece):
    found = _marks(piece)
    assert [found[m].part.hand for m in ("A-L", "A-R")] == ["left", "right"]
    assert found["A-L"].part.name == found["A-R"].part.name == "side rail"


def test_parts_of_one_name_that_differ_get_a_digit(piece):
    odd = piece.parts["slat-4"].with_features((Hole(at=Point(100.0, 20.0), diameter=5.0),))
    changed = replace(piece, parts={**piece.parts, "slat-4": odd})
    found = _marks(changed)
    assert found["C1"].count == 8
    assert found["C2"].keys == ("slat-4",)


def test_a_thousandth_is_alike_and_a_hundredth_is_not(piece):
    def with_hole(x):
        hole = Hole(at=Point(x, 20.0), diameter=5.0)
        return {
            **piece.parts,
            "slat-1": piece.parts["slat-1"].with_features((replace(hole, at=Point(50.0, 20.0)),)),
            "slat-2": piece.parts["slat-2"].with_features((hole,)),
        }

    def alike(x):
        marks = marks_by_key(groups(replace(piece, parts=with_hole(x))))
        return marks["slat-1"] == marks["slat-2"]

    assert alike(50.0004)
    assert not alike(50.01)


def test_an_unhanded_part_in_a_mirrored_frame_is_alike_only_if_it_is_its_own_mirror(piece):
    slat = piece.parts["slat-1"]
    twin = replace(slat, key="twin", frame=slat.frame.mirrored_across(0.0))

    def kinds(*holes):
        pair = {p.key: p.with_features(holes) for p in (slat, twin)}
        return len(groups(Assembly(family="", name="", parts=pair)))

    middle = slat.length / 2.0
    assert kinds() == 1
    assert kinds(Hole(at=Point(middle, 20.0), diameter=5.0)) == 1
    assert kinds(Hole(at=Point(middle - 30.0, 20.0), diameter=5.0)) == 2


def test_letters_that_read_as_figures_are_left_out(piece):
    many = {
        f"p{i}": replace(piece.parts["slat-1"], key=f"p{i}", name=f"part {i}") for i in range(30)
    }
    marks = [g.mark for g in groups(Assembly(family="", name="", parts=many))]
    assert not {"I", "O"} & set(marks)
    assert marks[:3] == ["A", "B", "C"]
    assert marks[23:26] == ["Z", "AA", "AB"] or marks[24:26] == ["AA", "AB"]
    assert len(set(marks)) == 30


def test_bars_go_on_after_the_parts_letters(piece):
    assert [(b.mark, b.bar.name) for b in bar_groups(piece)] == [("H", "prop rod"), ("J", "axle")]
