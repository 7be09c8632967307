"""Joints without hardware against manifold3d, which shares no code with the product.

The solids of the parts are moved against one another until they meet: what they can move both ways
is slot less tongue.  Source of every wanted value: the fit that the joint was asked for.
"""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest

from flatpack.geometry import Frame, Outline, Vec
from flatpack.model import Assembly, Fit, Part
from flatpack.parameters import BoardChoice, replace
from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load

PROFILES = load(profile_texts())
SAGITTA = 0.01
CONTACT = 1e-3
"""Volume below which two solids only touch, mm3: rounding of coordinates in the library."""
FAR = 3000.0


def prism(outline: Outline, low: float, high: float) -> manifold3d.Manifold:
    points = np.array(outline.sampled(SAGITTA), dtype=np.float64)
    section = manifold3d.CrossSection([points])
    return manifold3d.Manifold.extrude(section, high - low).translate((0.0, 0.0, low))


def solid(part: Part, frame: Frame | None = None) -> manifold3d.Manifold:
    made = prism(part.outline, 0.0, part.thickness)
    for opening in part.openings:
        made -= prism(opening, -1.0, part.thickness + 1.0)
    f = frame or part.frame
    return made.transform(np.array((f.x, f.y, f.z, f.origin)).T)


def shared(a: manifold3d.Manifold, b: manifold3d.Manifold, by: Vec) -> float:
    return float((a.translate(tuple(by)) ^ b).volume())


def travel(a: manifold3d.Manifold, b: manifold3d.Manifold, way: Vec) -> float:
    """How far `a` can be pushed along a way before it bites into `b`, mm, within 5 mm."""
    low, high = 0.0, 5.0
    if shared(a, b, Vec(0.0, 0.0, 0.0).plus(way, high)) <= CONTACT:
        return math.inf
    for _ in range(24):
        middle = (low + high) / 2.0
        free = shared(a, b, Vec(0.0, 0.0, 0.0).plus(way, middle)) <= CONTACT
        low, high = (middle, high) if free else (low, middle)
    return low


def built(family: str, **tables: object) -> Assembly:
    record = PIECES[family].record(name="Trial")
    for name, values in tables.items():
        old = getattr(record, name)
        made = replace(old, **values) if isinstance(values, dict) else values
        record = replace(record, **{name: made})
    assert list(PIECES[family].conflicts(record, PROFILES)) == []
    return PIECES[family].build(record, PROFILES)


def pair(piece: Assembly, fit: Fit) -> tuple[manifold3d.Manifold, manifold3d.Manifold]:
    return solid(piece.parts[fit.part]), solid(piece.parts[fit.onto])


@pytest.mark.parametrize(
    ("allowance", "measured", "relief"),
    [
        (0.0, 17.3, "small-router"),
        (0.1, 18.4, "older-router"),
        (0.25, 17.3, "default"),
        (0.25, 18.4, "small-router"),
    ],
)
def test_a_halving_has_the_fit_asked_for(allowance: float, measured: float, relief: str) -> None:
    """Slot = other board's measured thickness + fit, whatever the corners look like."""
    piece = built(
        "sheet-stool",
        workshop=relief,
        boards={"timber": BoardChoice("ply-18", measured)},
        fit={"allowance": allowance},
    )
    fits = [f for f in piece.fits if f.joint == "legs-cross"]
    assert len(fits) == 2
    upper, lower = pair(piece, fits[0])
    assert shared(upper, lower, Vec(0.0, 0.0, 0.0)) < CONTACT
    for fit in fits:
        (way,) = fit.across
        play = travel(upper, lower, way) + travel(upper, lower, way.negated())
        assert play == pytest.approx(allowance, abs=2e-3)
    # Floor on floor: it goes no further down, and comes off straight up.
    assert travel(upper, lower, Vec(0.0, 0.0, -1.0)) < 2e-3
    assert travel(upper, lower, Vec(0.0, 0.0, 1.0)) == math.inf


def test_unequal_boards_make_unequal_slots() -> None:
    """Hand: legs of 17.7 and a top of 23.9 give tenons 17.7 thick and 23.4 long (0.5 shy)."""
    piece = built(
        "sheet-table",
        construction="crossed",
        boards={"legs": BoardChoice("ply-18", 17.7), "top": BoardChoice("ply-24", 23.9)},
    )
    leg = piece.parts["leg-lower"]
    assert leg.outline.bounds[2] == pytest.approx(730.0 - 0.5)
    narrow = [min(x1 - x0, y1 - y0) for x0, y0, x1, y1 in _inner(piece.parts["top"])]
    assert narrow == pytest.approx([17.7 - 0.1] * 4)


def _inner(part: Part) -> list[tuple[float, float, float, float]]:
    """Bounds of each opening between its straight sides, the relief at its corners left out."""
    found = []
    for opening in part.openings:
        straight = [s for s in opening if s.bulge == 0.0]
        xs = sorted(s.start.x for s in straight if s.start.x == s.end.x)
        ys = sorted(s.start.y for s in straight if s.start.y == s.end.y)
        found.append((xs[0], ys[0], xs[-1], ys[-1]))
    return found


@pytest.mark.parametrize("family", ["sheet-stool", "sheet-table"])
@pytest.mark.parametrize("construction", ["crossed", "sides"])
def test_every_fit_of_a_piece_is_as_asked(family: str, construction: str) -> None:
    """All joints: play where there is play, and volume squeezed where it is pressed in."""
    piece = built(family, construction=construction)
    assert len(piece.fits) >= 4
    for fit in piece.fits:
        moved, still = pair(piece, fit)
        if fit.clearance >= 0.0:
            assert shared(moved, still, Vec(0.0, 0.0, 0.0)) < CONTACT
            for way in fit.across:
                play = travel(moved, still, way) + travel(moved, still, way.negated())
                assert play == pytest.approx(fit.clearance, abs=2e-3), fit
        else:
            # Hand: both tenons bite s / 2 into the mortise on all four sides, as deep as they
            # stand in it: 2 x (width + thickness) x s x depth, less what the relief takes off.
            tenoned = piece.parts[next(k for k in fit.tongues)]
            top = piece.parts[fit.part]
            wide, deep = tenon_of(tenoned), top.thickness - 0.5
            whole = 2.0 * (wide + tenoned.thickness) * -fit.clearance * deep
            found = shared(moved, still, Vec(0.0, 0.0, 0.0))
            assert 0.75 * whole < found < whole


def tenon_of(part: Part) -> float:
    """Width of a tenon: the outline's straight pieces at the part's far end."""
    far = part.outline.bounds[2]
    ends = [s.chord for s in part.outline if s.start.x == s.end.x == far]
    assert len(ends) == 2
    return ends[0]


def test_a_wedge_touches_side_and_slot_and_nothing_else() -> None:
    piece = built("sheet-table")
    wedges = [f for f in piece.fits if f.hold == "wedge"]
    assert len(wedges) == 4
    for fit in wedges:
        wedge, stretcher = pair(piece, fit)
        side = solid(piece.parts[f"side-{fit.part.rpartition('-')[2]}"])
        out = piece.parts[fit.part].frame.y
        still = Vec(0.0, 0.0, 0.0)
        assert shared(wedge, side, still) < CONTACT
        assert shared(wedge, stretcher, still) < CONTACT
        assert travel(wedge, side, out.negated()) < 2e-3
        assert travel(wedge, stretcher, out) < 5e-3  # a line of contact: volume grows slowly
        # Hand: driven on by d it bites d / taper deep, so 0.8 mm of drive are 0.1 mm at 1 in 8.
        further = shared(wedge, stretcher, still.plus(fit.direction, 0.8))
        assert further > CONTACT
        # It draws: were the side 1 mm thinner, the wedge would still bear on it, not on the slot.
        assert travel(wedge, stretcher, out.negated()) > 1.0


@pytest.mark.parametrize("family", ["sheet-stool", "sheet-table"])
@pytest.mark.parametrize("construction", ["crossed", "sides"])
def test_each_part_slides_home_past_what_is_there(family: str, construction: str) -> None:
    """The way home in steps of a few mm, against the product's exact smearing of prisms.

    Where parts are pressed, so much is shared all the way in; the way is free of more than that.
    """
    piece = built(family, construction=construction)
    order = {step.key: n for n, step in enumerate(piece.steps)}
    when = {joint.key: order[joint.step] for joint in piece.joints}
    there: list[str] = []
    for fit in sorted(piece.fits, key=lambda f: when[f.joint]):
        there += [k for k in (fit.onto,) if k not in there]
        if fit.part not in there:
            moved = solid(piece.parts[fit.part])
            others = [solid(piece.parts[k]) for k in there]
            at_home = [shared(moved, o, Vec(0.0, 0.0, 0.0)) for o in others]
            for back in (*np.arange(1.0, 60.0, 9.0), *np.arange(60.0, 1300.0, 170.0)):
                by = Vec(0.0, 0.0, 0.0).plus(fit.direction, -float(back))
                for other, least in zip(others, at_home, strict=True):
                    assert shared(moved, other, by) <= least + CONTACT, (fit.part, back)
            there.append(fit.part)
