"""Every shipped profile: it reads, says where its values come from, and is sound in itself."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from flatpack.profile_files import profile_texts
from flatpack.profiles import KINDS, load

TEXTS = profile_texts()
EVERY = [(kind, key) for kind, keys in load(TEXTS).known.items() for key in keys]
IDS = ["/".join(row) for row in EVERY]


def test_every_kind_is_there(shipped):
    assert all(shipped.names(kind) for kind in KINDS)


@pytest.mark.parametrize(("kind", "key"), EVERY, ids=IDS)
def test_reads_and_knows_its_key(kind, key, shipped):
    made = shipped.get(kind, key)
    assert made.key == key
    assert type(made) is KINDS[kind]
    assert made.source.strip()
    assert shipped.get(kind, key) is made


@pytest.mark.parametrize(("kind", "key"), EVERY, ids=IDS)
def test_single_sources_belong_to_keys_of_the_file(kind, key, shipped):
    raw = tomllib.loads(TEXTS[shipped.path(kind, key)])
    assert set(raw.get("sources", {})) <= set(raw)
    assert len({made.name for made in shipped.every(kind)}) == len(shipped.names(kind))


def test_files_are_ascii_and_open_with_a_comment():
    for path, text in TEXTS.items():
        if Path(path).parent.name in KINDS:
            assert text.isascii(), path
            assert text.startswith("# "), path


def test_boards(shipped):
    for board in shipped.every("boards"):
        assert (board.kind == "sheet") == bool(board.sheets) == (not board.widths)
        assert bool(board.widths) == bool(board.lengths)
        assert board.thickness <= board.nominal
        assert board.solid == (board.layers == 1) == (board.movement > 0)
        assert list(board.widths) == sorted(set(board.widths))
        assert all(long > wide for long, wide in board.sheets)


@pytest.mark.parametrize("kind", ["screws", "coach-bolts", "hex-bolts", "furniture-bolts"])
def test_lengths_sold_ascend_and_threads_fit(kind, shipped):
    for item in shipped.every(kind):
        assert list(item.lengths) == sorted(set(item.lengths))
        assert all(0 < item.thread_length(sold) <= sold for sold in item.lengths)
        assert item.head_diameter > item.diameter


def test_screws(shipped):
    for screw in shipped.every("screws"):
        assert screw.pilot_soft <= screw.pilot_hard < screw.diameter < screw.clearance
    jig = shipped.pocket_jig("pocket-15")
    for screw in shipped.every("screws"):
        if screw.use == "pocket":
            assert screw.head_diameter < jig.drill
            assert {rule.screw for rule in jig.screws} <= set(screw.lengths)


def test_wood_is_drilled_no_more_than_a_millimetre_over_a_bolt(shipped):
    # Eurocode 5, 10.4.3 (from memory): holes in timber no more than 1 mm larger than the bolt.
    for kind in ("coach-bolts", "hex-bolts", "furniture-bolts"):
        for bolt in shipped.every(kind):
            assert bolt.diameter < bolt.hole_wood <= bolt.diameter + 1.0


def test_bolts_find_their_nuts_and_washers(shipped):
    for bolt in shipped.every("coach-bolts"):
        thread = f"m{bolt.diameter:g}"
        for nut in (shipped.nut(f"hex-{thread}"), shipped.nut(f"lock-{thread}")):
            assert nut.diameter == bolt.diameter
        for washer in (shipped.washer(f"washer-{thread}"), shipped.washer(f"wide-{thread}")):
            assert bolt.diameter < washer.inner < washer.outer
            assert washer.outer > shipped.nut(f"hex-{thread}").across_flats


def test_hinge_screws_lie_in_the_leaf_and_off_the_knuckle(shipped):
    for hinge in shipped.every("hinges"):
        head = shipped.screw(hinge.screw).diameter
        for from_axis, along in hinge.holes:
            assert hinge.knuckle_diameter / 2 + head < from_axis < hinge.leaf_width - head / 2
            assert abs(along) < hinge.leaf_length / 2 - head / 2


def test_inserts_and_barrel_nuts(shipped):
    for insert in shipped.every("inserts"):
        assert insert.diameter < insert.hole_soft <= insert.hole_hard < insert.outer
        assert shipped.furniture_bolt(f"furniture-m{insert.diameter:g}")
    for nut in shipped.every("barrel-nuts"):
        assert nut.diameter < nut.body_diameter
        assert nut.diameter / 2 < nut.cross_offset < nut.body_length - nut.diameter / 2


def test_wheels_turn_on_bars_that_are_sold(shipped):
    bars = {rod.diameter for rod in shipped.every("rods")}
    for wheel in shipped.every("wheels"):
        assert wheel.axle in bars
        assert wheel.axle < wheel.bore < wheel.diameter


def test_finishes(shipped):
    for finish in shipped.every("finishes"):
        assert finish.coverage_least < finish.coverage_most


def test_jig_chooses_longer_screws_for_thicker_boards(shipped):
    jig = shipped.pocket_jig("pocket-15")
    chosen = [jig.screw_length(t) for t in (12, 18, 25, 38, 60)]
    assert chosen == sorted(chosen)
    assert (jig.screw_length(18), jig.screw_length(20), jig.screw_length(20.1)) == (32, 32, 38)
    assert jig.shoulder(18) == 18 * jig.shoulder_share


def test_workshops(shipped):
    assert shipped.workshop("small-router").smallest_radius() == 1.5
    assert shipped.workshop("laser").smallest_radius() == 0.0
    assert shipped.workshop("default").layer_overrides() == {}
    older = shipped.workshop("older-router")
    assert older.dxf == "R12"
    assert older.layer_overrides()["outline"] == {"short": "PROFILE"}
