"""A referee that shares no code and no closed form with the product.

All places within the rod's radius of any face are united with the wood (shapely, arcs as fine
chords); the rod may be where that isn't.  The angle at a rod's place is found by bracketing the
distance from turned pivot to rod (scipy's root finder for the answer, halving for the many places
on the way); a loaded seat is where that angle is least among densely sampled places of the grown
outline, starting from the dip under gravity.
"""

import math
import random
from collections import Counter

import numpy as np
import pytest
from scipy.optimize import brentq
from shapely import LineString, Polygon, unary_union
from shapely import Point as Dot

from flatpack.geometry import Point
from flatpack.mechanism.notches import Kind, NotchForm, cut, rack_contour
from flatpack.mechanism.prop import Prop
from flatpack.mechanism.seats import laid
from flatpack.mechanism.stops import Passed, Stop, Unreached, stops

MECHANISMS = 300
ANGLE = 0.01  # degrees
QUAD = 250  # chords a quarter circle of the grown outline: 15 mm radius, sagitta 7.4e-5 mm
DENSE = 0.25  # mm between places on straight runs
RIPPLE = 1e-3  # mm
HILL = 1e-4  # degrees
FLAT = 1e-7  # mm
SLIM = 2e-5  # mm off the rod's radius, so that a notch of the rod's own width stays open


def arc_of(face):
    """Centre, radius, start and sweep of an arc by plain trigonometry on chord and bulge."""
    (x0, y0), (x1, y1), bulge = face
    sweep = 4.0 * math.atan(bulge)
    chord = math.hypot(x1 - x0, y1 - y0)
    apothem = chord / 2.0 / math.tan(sweep / 2.0)
    cx = (x0 + x1) / 2.0 - (y1 - y0) / chord * apothem
    cy = (y0 + y1) / 2.0 + (x1 - x0) / chord * apothem
    return cx, cy, math.hypot(x0 - cx, y0 - cy), math.atan2(y0 - cy, x0 - cx), sweep


def along(cx, cy, radius, start, sweep, count=4 * QUAD):
    return [
        (
            cx + radius * math.cos(start + sweep * k / count),
            cy + radius * math.sin(start + sweep * k / count),
        )
        for k in range(count + 1)
    ]


def strip(face, radius):
    """All places within `radius` of a face: a strip or ring sector, and a disc at its end."""
    (x0, y0), (x1, y1), bulge = face
    if bulge == 0.0:
        k = radius / math.hypot(x1 - x0, y1 - y0)
        nx, ny = -(y1 - y0) * k, (x1 - x0) * k
        body = [(x0 + nx, y0 + ny), (x1 + nx, y1 + ny), (x1 - nx, y1 - ny), (x0 - nx, y0 - ny)]
    else:
        cx, cy, size, start, sweep = arc_of(face)
        inner = max(size - radius, 0.0)
        body = along(cx, cy, size + radius, start, sweep)
        body += along(cx, cy, inner, start, sweep)[::-1] if inner > 0.0 else [(cx, cy)]
    return [Polygon(body), Dot(x1, y1).buffer(radius, quad_segs=QUAD)]


def grown(contour, radius):
    """The upper boundary of the wood grown by the rod's radius, from left to right."""
    top = [face[0] for face in contour] + [contour[-1][1]]
    floor = min(y for _, y in top) - 100.0
    parts = [part for face in contour for part in strip(face, radius - SLIM)]
    for face in contour:  # the wood under each face, down to a floor
        (x0, _), (x1, _), bulge = face
        edge = along(*arc_of(face)) if bulge else [face[0], face[1]]
        if x1 > x0:
            parts.append(Polygon([*edge, (x1, floor), (x0, floor)]))
    ring = unary_union(parts).exterior
    order = np.array(ring.coords[:-1][:: -1 if ring.is_ccw else 1])
    ends = [
        int(np.argmin(np.hypot(order[:, 0] - x, order[:, 1] - y - radius)))
        for x, y in (top[0], top[-1])
    ]
    i, j = ends
    upper = order[i : j + 1] if i <= j else np.vstack([order[i:], order[: j + 1]])
    return np.array(LineString(upper).segmentize(DENSE).coords)


def angle_by_root(prop, place):
    """The back's angle by bracketing: the highest root of the distance, on the way up from below.

    The pivot's distance to the rod is least (or greatest) where pivot, hinge and rod are in line;
    the wanted root lies within the half turn anticlockwise of that.
    """
    px, py = prop.pivot

    def gap(angle):
        c, s = math.cos(angle), math.sin(angle)
        return math.hypot(px * c - py * s - place[0], px * s + py * c - place[1]) - prop.arm

    near = math.atan2(place[1], place[0]) - math.atan2(py, px)
    if gap(near) > 0.0 or gap(near + math.pi) < 0.0:
        return None
    return math.degrees(brentq(gap, near, near + math.pi, xtol=1e-14))


def random_form(rng, rod):
    kind = rng.choice(list(Kind))
    r = rod / 2.0
    depth = rng.uniform(0.7 * r, 1.6 * r)
    return NotchForm(
        kind=kind,
        depth=depth,
        base=rng.choice([0.0, r, 2.0 * r, rng.uniform(2.0 * r, 4.0 * r)])
        if kind is Kind.RAMP
        else rng.uniform(1.6 * r, 3.5 * r),
        ramp=rng.uniform(25.0, 80.0),
        undercut=rng.choice([0.0, 0.0, rng.uniform(0.0, 12.0)]),
        near=rng.uniform(20.0, 60.0),
        far=rng.uniform(10.0, 45.0),
        radius=rng.choice([r, r * 1.0001, rng.uniform(0.7 * r, 1.8 * r)]),
    )


def random_mechanism(rng):
    rod = rng.uniform(12.0, 30.0)
    prop = Prop(
        pivot=Point(rng.uniform(200.0, 420.0), rng.uniform(-45.0, 10.0)),
        arm=rng.uniform(180.0, 450.0),
        rod=rod,
    )
    form = random_form(rng, rod)
    floor = rng.uniform(-110.0, -60.0)
    crest = floor + form.depth
    notches, x = [], rng.uniform(30.0, 150.0)
    start = x
    for _ in range(rng.randint(2, 6)):
        chain = cut(form, Point(0.0, floor))
        x += rng.uniform(1.0, 120.0) - chain[0].start.x
        notches.append(cut(form, Point(x, floor)))
        x = notches[-1][-1].end.x
    contour = rack_contour(notches, Point(start, crest), Point(x + 60.0, crest))
    return prop, contour


def dips(line):
    """Index ranges of the boundary's dips: lowest points with higher ground on both sides.

    Chords of two parts don't join exactly: dips shallower than RIPPLE aren't any.
    """
    y = line[:, 1]
    found, low, high, peak = [], 0, 0, y[0]
    for k in range(1, len(y)):
        if y[k] < y[low] - FLAT:
            low = high = k
        elif y[k] <= y[low] + FLAT:
            high = k
        peak = max(peak, y[k])
        if y[k] > y[low] + RIPPLE:
            if max(y[max(found[-1][1] if found else 0, 0) : low + 1]) > y[low] + RIPPLE:
                found.append((low, high))
            low = high = k
    return found


def angles_by_halving(prop, places):
    """The same root for many places at once, by halving the bracket; nan where there is none."""
    px, py = prop.pivot
    x, y = places[:, 0], places[:, 1]

    def gaps(turn):
        c, s = np.cos(turn), np.sin(turn)
        return np.hypot(px * c - py * s - x, px * s + py * c - y) - prop.arm

    low = np.arctan2(y, x) - math.atan2(py, px)
    high = low + math.pi
    there = (gaps(low) <= 0.0) & (gaps(high) >= 0.0)
    for _ in range(44):
        middle = (low + high) / 2.0
        short = gaps(middle) < 0.0
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return np.where(there, np.degrees(low), np.nan)


def basin(line, dip):
    """The boundary's range from crest to crest around a dip; an overhang is no crest."""
    ends = []
    for start, step in ((dip[0], -1), (dip[1], 1)):
        top = k = start
        while 0 <= k + step < len(line):
            k += step
            overhang = step * (line[k, 0] - line[top, 0]) < 0.0
            if line[k, 1] >= line[top, 1] or overhang:
                top = k
            elif line[k, 1] < line[top, 1] - RIPPLE:
                break
        ends.append(top)
    return ends[0], ends[1]


def settle(prop, line, dip):
    """Walk from the dip to the place of least angle: that place, and whether it is a rest.

    None when the arm doesn't reach the dip; no rest when the way down leads over a crest or to
    where the arm no longer reaches.
    """
    low, high = basin(line, dip)
    angles = angles_by_halving(prop, line[low : high + 1])
    first, last = dip[0] - low, dip[1] - low
    if np.isnan(angles[first : last + 1]).any():
        return None
    k = last  # raising drags the rod in from the free end's side
    best = k
    for step in (1, -1):
        i = k
        while 0 <= i < len(angles) and angles[i] < angles[best] + HILL:
            best = i if angles[i] < angles[best] else best
            i += step
        if best != k:
            break
    else:
        return line[low + k], True
    return line[low + best], 0 <= i < len(angles) and not np.isnan(angles[i])


def lean(prop, angle, place):
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    px, py = prop.pivot.x * c - prop.pivot.y * s, prop.pivot.x * s + prop.pivot.y * c
    return math.degrees(math.atan2(place[0] - px, py - place[1]))


@pytest.fixture(scope="module")
def trial():
    """Every random mechanism's seats in pairs: the product's stop or reason, the referee's rest."""
    rng = random.Random(20)
    pairs = []
    for _ in range(MECHANISMS):
        prop, contour = random_mechanism(rng)
        line = grown(contour, prop.rod / 2.0)
        rack = laid(contour, prop.rod)
        found = stops(prop, rack)
        mine = {r.seat: r for r in (*found.stops, *found.passed)}
        theirs = [settle(prop, line, dip) for dip in dips(line)]
        assert len(rack.seats) == len(theirs)
        pairs += [(prop, mine[k], rest) for k, rest in enumerate(theirs, start=1)]
    return pairs


def test_angles_and_holds_agree(trial):
    compared = 0
    for prop, mine, rest in trial:
        if not isinstance(mine, Stop):
            continue
        assert rest is not None
        place, held = rest
        assert held == mine.held or abs(mine.loaded.margin) < 0.5  # a hair's hill
        if mine.held and held:
            assert mine.angle == pytest.approx(angle_by_root(prop, place), abs=ANGLE)
            compared += 1
    assert compared > 2 * MECHANISMS


def test_reasons_agree(trial):
    counts = Counter(mine.reason for _, mine, _ in trial if isinstance(mine, Passed))
    for prop, mine, rest in trial:
        if isinstance(mine, Stop):
            continue
        if mine.reason in (Unreached.TOO_FAR, Unreached.TOO_NEAR):
            assert rest is None
            continue
        place, held = rest
        angle = angle_by_root(prop, place)
        if held and mine.reason is Unreached.BELOW_FLAT:
            assert angle <= 0.0
        if held and mine.reason is Unreached.PAST_UPRIGHT:
            assert lean(prop, angle, place) <= 0.0
    for reason in (Unreached.TOO_FAR, Unreached.TOO_NEAR, Unreached.PAST_UPRIGHT):
        assert counts[reason] > 10


def test_the_trial_covers_what_is_hard(trial):
    held = [mine for _, mine, _ in trial if isinstance(mine, Stop) and mine.held]
    loose = [mine for _, mine, _ in trial if isinstance(mine, Stop) and not mine.held]
    assert sum(mine.lean < 5.0 for mine in held) > 20  # arms near upright
    assert sum(len(mine.loaded.faces) == 1 for mine in held) > 50  # round seats
    assert sum(len(mine.loaded.faces) > 1 for mine in held) > 200  # floor and face, lips
    assert len(loose) > 20
