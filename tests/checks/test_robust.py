"""Whatever a design is, checks answer with findings: they never raise and never skip in silence."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from flatpack.checks import CHECKS, run
from flatpack.features import EdgeHole, Hole, PocketHole, Slot
from flatpack.geometry import Frame, Outline, Point, Vec, closed
from flatpack.geometry.shapes import disc, rectangle
from flatpack.model import Assembly, Feature

Change = Callable[..., Assembly]
BOW = closed(((0, 0, 0), (600, 0, 0), (0, 60, 0), (700, 90, 0)))
THIN = closed(((0, 0, 0), (600, 0, 0), (600, 0.01, 0), (0, 0.01, 0)))
SPIKE = closed(((0, 0, 0), (600, 0, 0), (300, 0, 0), (300, 60, 0)))


@pytest.mark.parametrize(
    "outline", [BOW, THIN, SPIKE, rectangle(600, 60).reversed(), disc(40.0), disc(0.001)]
)
@pytest.mark.parametrize("key", ["rail-left", "slat-1", "leg-right", "end-rail"])
def test_odd_outlines(frame: Assembly, changed: Change, outline: Outline, key: str) -> None:
    findings = run(changed(frame, key, outline=outline))
    assert any(f.severity == "fault" for f in findings)


@pytest.mark.parametrize(
    "feature",
    [
        Hole(at=Point(-500.0, 9000.0), diameter=8.0),
        Hole(at=Point(300.0, 30.0), diameter=900.0),
        Hole(at=Point(300.0, 30.0), diameter=8.0, depth=90.0),
        Hole(at=Point(300.0, 30.0), diameter=0.0),
        Slot(start=Point(300.0, 30.0), end=Point(300.0, 30.0), width=6.0),
        Slot(start=Point(300.0, 30.0), end=Point(900.0, 30.0), width=6.0),
        EdgeHole(at=Point(0.0, 30.0), inward=Point(1.0, 0.0), height=9.0, diameter=7.0, depth=None),
        EdgeHole(at=Point(0.0, 30.0), inward=Point(1.0, 0.0), height=99.0, diameter=7.0, depth=9.0),
        PocketHole(
            exit=Point(300.0, 0.0), inward=Point(0.0, 1.0), thickness=18.0, face="show",
            slope=15.0, diameter=9.5, pilot=4.0, shoulder=500.0,
        ),
    ],
    ids=range(9),
)  # fmt: skip
def test_odd_features(frame: Assembly, changed: Change, feature: Feature) -> None:
    part = frame.parts["slat-2"]
    features = (*part.features, feature)
    findings = run(changed(frame, "slat-2", features=features))
    assert any(f.severity == "fault" and "slat-2" in f.part for f in findings)


def test_parts_that_are_missing(frame: Assembly) -> None:
    parts = {k: p for k, p in frame.parts.items() if k != "slat-2"}
    found = {f.code for f in run(replace(frame, parts=parts)) if f.severity != "note"}
    assert {"passes-nothing", "mates"} <= found


def test_a_piece_with_nothing_in_it() -> None:
    assert run(Assembly(family="t", name="t", parts={})) == ()


def test_one_on_top_of_the_other(frame: Assembly) -> None:
    """Two of the same part at the same place share all their room: 18 thick, so 18 deep."""
    twin = replace(frame.parts["slat-1"], key="twin", features=())
    one = replace(frame.parts["slat-1"], features=())
    piece = Assembly(family="t", name="t", parts={"slat-1": one, "twin": twin})
    (found,) = run(piece, only=("space",))
    assert found.measured == pytest.approx(18.0, abs=0.05)


@pytest.mark.parametrize("name", CHECKS)
def test_far_from_the_origin_turned_and_mirrored(frame: Assembly, name: str) -> None:
    """Where the piece stands changes nothing."""

    def away(f: Frame) -> Frame:
        turned = f.swung(Vec(11.0, 0.0, -7.0), 37.0).mirrored_across(1234.5)
        return replace(turned, origin=turned.origin.plus(Vec(9e3, -8e3, 7e3)))

    bare = replace(frame, fasteners=(), joints=(), bars={})
    parts = {k: replace(p, frame=away(p.frame)) for k, p in bare.parts.items()}
    here, there = (run(piece, only=(name,)) for piece in (bare, replace(bare, parts=parts)))
    assert [(f.code, f.part, f.measured) for f in here if f.code != "shared-space"] == [
        (f.code, f.part, f.measured) for f in there if f.code != "shared-space"
    ]
    assert {f.part for f in here} == {f.part for f in there}
