"""The book read as a builder reads it: is everything told, and told of this piece?"""

from __future__ import annotations

import re

import pytest

from flatpack.drawings.book import book
from flatpack.drawings.book.content import Figure, Items, Rows, Subtitle
from flatpack.drawings.book.steps import build_steps
from flatpack.drawings.marks import bar_groups, groups
from flatpack.drawings.shapes import Closed
from flatpack.parameters import replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

from .conftest import built, found, settings_for, studied


def made(family: str, **more: object):
    return book(built(family), studied(family), found(family), settings_for(family, **more))


def chapter(family: str, key: str, **more: object):
    return next(c for c in made(family, **more).chapters if c.key == key)


def texts(family: str, key: str, **more: object) -> list[str]:
    blocks = chapter(family, key, **more).blocks
    said = [t for b in blocks if isinstance(b, Items) for t in b.items]
    said += [b.text for b in blocks if hasattr(b, "text")]
    return said + [c for b in blocks if isinstance(b, Rows) for row in b.rows for c in row]


def table(family: str, key: str, caption: str, **more: object) -> Rows:
    return next(
        b for b in chapter(family, key, **more).blocks
        if isinstance(b, Rows) and b.caption == caption
    )  # fmt: skip


def test_every_part_stands_in_the_cutting_list(family: str) -> None:
    rows = table(family, "parts", "Cutting list").rows
    assert [r[0] for r in rows] == [g.mark for g in groups(built(family))]
    assert sum(int(r[3]) for r in rows) == len(built(family).parts)


def test_every_mark_comes_in_at_a_step(family: str) -> None:
    rows = [
        row for b in chapter(family, "assembly").blocks
        if isinstance(b, Rows) and b.caption == "Parts that come in" for row in b.rows
    ]  # fmt: skip
    piece = built(family)
    assert {r[0] for r in rows} == {g.mark for g in (*groups(piece), *bar_groups(piece))}
    assert sum(int(r[2]) for r in rows) == len(piece.parts) + len(piece.bars)


def test_every_step_has_a_picture_with_words_for_it(family: str) -> None:
    blocks = chapter(family, "assembly").blocks
    figures = [b for b in blocks if isinstance(b, Figure)]
    assert all(p.alt and p.caption for p in figures)
    pictures = [p for p in figures if p.drawing.name.startswith("step-")]
    assert len(pictures) == sum(isinstance(b, Subtitle) for b in blocks)


def test_glue_is_told_with_its_times() -> None:
    said = " ".join(texts("lounger", "assembly"))
    assert "within 15 minutes" in said  # profiles/hardware/glues/pu-d4.toml, open_minutes
    assert "2 hours" in said  # clamp_minutes = 120
    assert "Dry fit first" in said


def test_pairs_are_called_for_where_hands_differ() -> None:
    said = texts("lounger", "assembly")
    assert any("one of each hand (A-L, A-R)" in text for text in said)
    assert any("back to back" in text for text in texts("lounger", "making"))


def test_diagonals_of_the_frame_by_pythagoras() -> None:
    # 1960 x 640 overall: square root of 1960^2 + 640^2 = 2061.8
    assert "2061.8 mm" in texts("lounger", "assembly")


def test_leg_frames_are_measured_each_by_itself() -> None:
    piece = built("bench")
    legs = [p for key, p in piece.parts.items() if key.startswith("leg-") and "left" in key]
    xs = [p.frame.place(*q).x for p in legs for q in p.outline.points]
    wide, high = max(xs) - min(xs), legs[0].length
    long, short = sorted((wide, high), reverse=True)
    assert f"{long:g} mm by {short:g} mm" in texts("bench", "assembly")


def test_stops_are_those_of_the_study() -> None:
    rows = table("lounger", "moving", "Stops").rows
    stops = studied("lounger").found.stops
    assert [float(r[1].rstrip("°")) for r in rows] == pytest.approx(
        [s.angle for s in stops], abs=0.06
    )
    notches = [w.value for w in built("lounger").workings if w.name.startswith("Notch ")]
    assert [float(r[3]) for r in rows] == pytest.approx(notches, abs=0.06)


def test_a_piece_that_stands_still_has_no_stops() -> None:
    assert all(c.key != "moving" for c in made("bench").chapters)


def test_inches_everywhere_but_where_metal_is_sold_in_mm() -> None:
    rows = table("lounger", "parts", "Cutting list", units="inches").rows
    # 640 mm = 25.197 in; the nearest sixteenth is 25 3/16 = 25.1875
    slat = next(r for r in rows if r[1] == "Fixed slat")
    assert slat[4] == "25 3/16 (25.197)"
    said = " ".join(texts("lounger", "assembly", units="inches"))
    assert not re.search(r"\d mm from", said)


def test_faulty_design_says_so_and_a_sound_one_does_not() -> None:
    assert "NOT FOR CUTTING" in made("lounger", faulty=True).warning
    assert made("lounger").warning == ""


def test_without_finish_or_glue_the_book_says_that_none_was_chosen() -> None:
    said = " ".join(texts("bench", "needed", glue=None, finish=None, sealer=None))
    assert said.count("not chosen") == 3


def test_same_piece_same_book(family: str) -> None:
    assert made(family) == made(family)


@pytest.mark.parametrize(
    ("family", "keys", "said"),
    [
        ("bench", {"construction": "knock-down"}, "barrel nuts"),
        ("lounger", {"wheels": {"use": True}, "size": {"height": 350.0}}, "knock the cap on"),
        ("lounger", {"rack": {"kind": "blocks"}}, "clamped until the glue has set"),
    ],
)
def test_other_constructions_are_told_too(family: str, keys: dict, said: str) -> None:
    profiles = load(profile_texts())
    record = PIECES[family].record()
    for key, value in keys.items():
        inner = replace(getattr(record, key), **value) if isinstance(value, dict) else value
        record = replace(record, **{key: inner})
    piece = PIECES[family].build(record, profiles)
    whole = book(piece, None, (), settings_for(family))
    steps = next(c for c in whole.chapters if c.key == "assembly")
    work = " ".join(t for b in steps.blocks if isinstance(b, Items) for t in b.items)
    assert said in work
    brought = sum(int(r[2]) for b in steps.blocks if isinstance(b, Rows)
                  and b.caption == "Parts that come in" for r in b.rows)  # fmt: skip
    assert brought == len(piece.parts) + len(piece.bars)


def test_what_is_added_is_grey_and_heavy_and_what_is_there_is_white(family: str) -> None:
    piece = built(family)
    made_steps = build_steps(piece)
    figures = [
        b for b in chapter(family, "assembly").blocks
        if isinstance(b, Figure) and b.drawing.name.startswith("step-")
    ]  # fmt: skip
    for step, figure in zip(made_steps, figures, strict=True):
        filled = [s for s in figure.drawing.strokes if isinstance(s.shape, Closed)]
        grey = [s for s in filled if 0.7 < s.shape.tone < 0.9]
        assert bool(grey) == bool(step.new)
        assert all(s.layer == "outline" for s in grey)
        assert any(s.shape.tone == 1.0 for s in filled) or not step.old


def test_faces_and_ends_look_where_they_do_in_the_piece() -> None:
    rows = {
        row[0]: row[4:] for b in chapter("lounger", "assembly").blocks
        if isinstance(b, Rows) and b.caption == "Parts that come in" for row in b.rows
    }  # fmt: skip
    assert rows["A-L"] == ("left", "foot end", "bottom")
    assert rows["A-R"] == ("right", "foot end", "bottom")
    # both end rails, face out, turned about
    turned = "at the foot end: right; at the head end: left"
    assert rows["B"] == ("outwards", turned, "bottom")
    assert rows["F"][:2] == ("inwards", "bottom")


def test_ends_that_butt_against_a_face_are_glued_and_stay_bare() -> None:
    # Butted between the side rails (see the frame's setting out): end rails and the hinge rail.
    piece = built("lounger")
    marks = {key: g.mark for g in groups(piece) for key in g.keys}
    butted = {marks[k] for k in ("end-rail-foot", "end-rail-head", "hinge-rail")}
    line = next(t for t in texts("lounger", "finish") if t.startswith("These ends are glued"))
    assert set(line.split(": ")[1].rstrip(".").split(", ")) == butted


def test_teeth_arms_and_hinge_leaves_are_told_by_their_sides() -> None:
    profiles = load(profile_texts())
    record = PIECES["lounger"].record()
    record = replace(record, rack=replace(record.rack, kind="blocks"))
    piece = PIECES["lounger"].build(record, profiles)
    whole = book(piece, None, (), settings_for("lounger"))
    steps = next(c for c in whole.chapters if c.key == "assembly")
    said = " ".join(t for b in steps.blocks if isinstance(b, Items) for t in b.items)
    # Raising draws the rod from the head towards the hinge: it must climb the ramp on its way, so
    # the ramp falls towards the head; the arm pushes the rod back headwards on the upright face.
    assert "ramp runs down towards the head end" in said
    assert "bolts' heads outwards" in said  # nuts inside, where no clothes catch
    assert "on the head end face of hinge packer" in said
    assert "on the bottom face of back slat" in said


def test_side_views_name_what_they_cut() -> None:
    figures = {b.drawing.name: b for b in chapter("lounger", "assembly").blocks
               if isinstance(b, Figure)}  # fmt: skip
    marks = {key: g.mark for g in groups(built("lounger")) for key in g.keys}
    hinge = {
        s.shape.text for s in figures["hinge-side"].drawing.strokes if hasattr(s.shape, "text")
    }
    wanted = {marks[k] for k in ("packer-left", "hinge-rail", "back-slat-1")}
    assert wanted | {"FOOT END", "HEAD END"} <= hinge
    rods = [s for s in figures["rack-side"].drawing.strokes
            if isinstance(s.shape, Closed) and s.shape.tone == 1.0]  # fmt: skip
    assert len(rods) == len(studied("lounger").found.stops)
