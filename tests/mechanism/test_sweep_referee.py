"""An independent referee for the travel and its clearances.

It shares no code with the product: the rack is a polygon buffered by shapely, the rod is let down
by looking along the arm's circle in small steps, gaps come from the hull of all differences of
corner points, and minima are polished by scipy.  Tolerances: 0.05 mm and 0.01 degree.
"""

import math
import random
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from scipy.optimize import brentq, minimize_scalar
from shapely import affinity
from shapely.geometry import MultiPoint, Polygon

from flatpack.geometry import Point, chain, closed
from flatpack.mechanism.bodies import Body, Carrier, arm_outline, disc, oblong, rod_body
from flatpack.mechanism.fold import fold_range
from flatpack.mechanism.locus import locus
from flatpack.mechanism.pairs import pairs
from flatpack.mechanism.path import at_angle, travel
from flatpack.mechanism.prop import Miss, Prop, angle_at
from flatpack.mechanism.sweep import Clash, examine
from flatpack.mechanism.track import Phase


class Mechanism:
    """A random prop and rack: as the product takes them, and as plain polygons."""

    def __init__(self, seed: int) -> None:
        rnd = random.Random(seed)
        self.rod = rnd.uniform(16.0, 30.0)
        self.pivot = (rnd.uniform(250.0, 420.0), rnd.uniform(-40.0, -10.0))
        self.arm = rnd.uniform(250.0, 400.0)
        floor = rnd.uniform(-110.0, -75.0)
        corners: list[tuple[float, float, float]] = [(60.0, floor, 0.0)]
        x = 60.0 + rnd.uniform(60.0, 120.0)
        seats = []
        end = self.pivot[0] + self.arm + 60.0
        for _ in range(rnd.randint(1, 4)):
            width, tip = rnd.uniform(25.0, 45.0), rnd.uniform(10.0, 30.0)
            if rnd.random() < 0.4:  # a round seat, half a circle wider than the rod
                r = self.rod / 2.0 * rnd.uniform(1.0, 1.6)
                start = x - 2.0 * r
                if start < corners[-1][0] + 5.0:
                    x, start = x + 2.0 * r + 5.0, x + 5.0
                corners += [(start, floor, math.tan(math.pi / 4.0)), (x, floor, 0.0)]
                seats.append(Point(start + r, floor - r + self.rod / 2.0))
            else:
                corners.append((x, floor, 0.0))
                seats.append(Point(x - self.rod / 2.0, floor + self.rod / 2.0))
            corners += [(x, floor + tip, 0.0), (x + rnd.uniform(3.0, 8.0), floor + tip, 0.0)]
            corners.append((corners[-1][0] + width, floor, 0.0))
            x = corners[-1][0] + rnd.uniform(30.0, 110.0)
        corners.append((max(end, x), floor, 0.0))
        self.contour = chain(corners)
        self.seat = seats[0]
        self.prop = Prop(pivot=Point(*self.pivot), arm=self.arm, rod=self.rod)
        self.corners = corners
        top = self._sampled(corners)
        self.rack = Polygon([*top, (top[-1][0], floor - 200.0), (top[0][0], floor - 200.0)])
        # the referee's open left end: only what the contour's upper side gives
        self.barred = self.rack.buffer(self.rod / 2.0, quad_segs=256)
        shapely.prepare(self.barred)

    @staticmethod
    def _sampled(corners: list[tuple[float, float, float]]) -> list[tuple[float, float]]:
        points = []
        for (x0, y0, bulge), (x1, _, _) in pairwise(corners):
            points.append((x0, y0))
            if bulge:
                r = (x1 - x0) / 2.0
                angles = math.pi + np.linspace(0.0, math.pi, 400)[1:-1]
                points += [(x0 + r + r * math.cos(a), y0 + r * math.sin(a)) for a in angles]
        points.append(corners[-1][:2])
        return points

    def pivot_at(self, degrees: float) -> np.ndarray:
        t = math.radians(degrees)
        x, y = self.pivot
        return np.array([x * math.cos(t) - y * math.sin(t), x * math.sin(t) + y * math.cos(t)])

    def rod_at(self, degrees: float, lean: float | np.ndarray) -> np.ndarray:
        p = self.pivot_at(degrees)
        return np.array([p[0] + self.arm * np.sin(lean), p[1] - self.arm * np.cos(lean)]).T

    def free(self, degrees: float, leans: np.ndarray) -> np.ndarray:
        points = self.rod_at(degrees, leans)
        return ~shapely.contains_xy(self.barred, points[:, 0], points[:, 1])

    def rest(self, degrees: float, lean: float, step: float = 4e-4) -> float:
        """Where the rod comes to rest from a lean: pushed up while barred, else let down."""
        up = np.append(np.arange(lean, lean + 0.2, step), lean + 0.2)
        open_up = self.free(degrees, up)
        first = int(np.argmax(open_up))
        if first > 0:
            return self._border(degrees, up[first - 1], up[first])
        down = np.append(np.arange(lean, 0.0, -step), 0.0)
        shut = ~self.free(degrees, down)
        if not shut.any():
            return 0.0
        k = int(np.argmax(shut))
        return self._border(degrees, down[k], down[k - 1])

    def _border(self, degrees: float, shut: float, free: float) -> float:
        for _ in range(30):
            middle = (shut + free) / 2.0
            if self.free(degrees, np.array([middle]))[0]:
                free = middle
            else:
                shut = middle
        return free


def _travelled(mechanism: Mechanism):
    highest = angle_at(mechanism.prop, mechanism.seat)
    if isinstance(highest, Miss) or not 15.0 < highest < 100.0:
        return None
    rack = locus(mechanism.contour, mechanism.rod / 2.0)
    return travel(mechanism.prop, rack, highest, mechanism.seat, limit=12.0)


def _usable(count: int):
    found = []
    for seed in range(400):
        mechanism = Mechanism(seed)
        path = _travelled(mechanism)
        if path is not None:
            found.append((mechanism, path))
        if len(found) == count:
            return found
    raise AssertionError("too few mechanisms work")


def _left_end(mechanism: Mechanism, rod: np.ndarray) -> bool:
    """Past the rack's open end, where the buffered polygon also has an end face."""
    return bool(rod[0] < mechanism.corners[0][0] + 1.0)


@pytest.fixture(scope="module")
def mechanisms():
    return _usable(40)


def test_the_rod_is_where_stepping_puts_it(mechanisms) -> None:
    compared = 0
    for mechanism, path in mechanisms:
        lean = mechanism.rest(0.0, 2.2)
        for degrees in np.arange(0.0, path.over, 0.4):
            lean = mechanism.rest(degrees, lean)
            rod = mechanism.rod_at(degrees, lean)
            if _left_end(mechanism, rod):
                break
            stand = at_angle(path, float(degrees))
            # within the step in which a tooth is passed, either side of it is right
            drops = [s.start for s in path.raising if s.phase is Phase.DROPPING]
            if min((abs(d - degrees) for d in drops), default=9.0) < 0.01:
                continue
            assert math.dist(stand.rod, rod) < 0.1, (mechanism.prop, degrees, stand, rod)
            compared += 1
    assert compared > 3000


def test_tooth_passed_angles_agree(mechanisms) -> None:
    """The angle of each drop, found by halving on whether the rod still stays above."""
    compared = 0
    for mechanism, path in mechanisms:
        for drop in (s for s in path.raising if s.phase is Phase.DROPPING):
            before = at_angle(path, drop.start - 0.05)
            if drop.track.start.x < mechanism.corners[0][0] + 40.0 or drop.track.length < 1.0:
                continue
            lean = (
                math.atan2(before.rod.x - before.pivot.x, before.pivot.y - before.rod.y)
                + 0.5 / mechanism.arm
            )
            fallen = math.atan2(
                drop.track.end.x - before.pivot.x, before.pivot.y - drop.track.end.y
            )
            half = (lean + fallen) / 2.0

            def stays(degrees: float, lean=lean, half=half, m=mechanism) -> float:
                return 1.0 if m.rest(degrees, lean, step=2e-5) > half else -1.0

            angle = brentq(stays, drop.start - 0.05, drop.start + 0.05, xtol=1e-4)
            assert angle == pytest.approx(drop.start, abs=0.01)
            compared += 1
    assert compared >= 15


def _difference_gap(a: np.ndarray, b: np.ndarray) -> float:
    """Signed gap of two convex point sets: from the origin to the hull of all differences."""
    hull = MultiPoint((b[:, None, :] - a[None, :, :]).reshape(-1, 2)).convex_hull
    origin = shapely.Point(0.0, 0.0)
    return hull.exterior.distance(origin) * (-1.0 if hull.contains(origin) else 1.0)


def _stadium(x0: float, x1: float, r: float, count: int = 180) -> np.ndarray:
    right = np.linspace(-math.pi / 2, math.pi / 2, count)
    left = np.linspace(math.pi / 2, 3 * math.pi / 2, count)
    return np.vstack(
        [
            np.column_stack([x1 + r * np.cos(right), r * np.sin(right)]),
            np.column_stack([x0 + r * np.cos(left), r * np.sin(left)]),
        ]
    )


def _placed(points: np.ndarray, turn: float, shift: np.ndarray) -> np.ndarray:
    c, s = math.cos(turn), math.sin(turn)
    return points @ np.array([[c, s], [-s, c]]) + shift


def _random_box(rnd: random.Random, where: tuple[float, float, float, float]):
    x, y = rnd.uniform(*where[:2]), rnd.uniform(*where[2:])
    w, h = rnd.uniform(10.0, 90.0), rnd.uniform(10.0, 40.0)
    box = (x, y, x + w, y + h)
    points = np.array([(x, y), (x + w, y), (x + w, y + h), (x, y + h)])
    return oblong(*box), points


def _sampled_positions(mechanism: Mechanism, path, step: float = 0.2):
    """The way up in (degrees, lean), with drops sampled too."""
    lean = mechanism.rest(0.0, 2.2)
    for degrees in np.append(np.arange(0.0, path.over, step), path.over):
        following = mechanism.rest(degrees, lean)
        if lean - following > 4.0 / mechanism.arm:
            kept, lost, half = degrees - step, degrees, (lean + following) / 2.0
            for _ in range(20):
                middle = (kept + lost) / 2.0
                stays = mechanism.rest(middle, lean, step=5e-5) > half
                kept, lost = (middle, lost) if stays else (kept, middle)
            above = mechanism.rest(kept, lean, step=5e-5)
            below = mechanism.rest(lost, lean, step=5e-5)
            yield kept, above
            yield from ((lost, k) for k in np.linspace(above, below, 60))
        lean = following
        yield degrees, lean


def test_arm_and_rod_against_frame_and_back(mechanisms) -> None:
    """Least gaps on the way up, referee polished to neighbouring positions."""
    compared = clashed = 0
    for number, (mechanism, path) in enumerate(mechanisms[:9]):
        if any(_left_end(mechanism, np.array(s.track.end)) for s in path.raising):
            continue
        up = replace(path, stretches=path.raising)
        rnd = random.Random(1000 + number)
        r = mechanism.rod / 2.0 + rnd.uniform(3.0, 12.0)
        shapes = {
            Carrier.ARM: (arm_outline(mechanism.arm, 2.0 * r), _stadium(0.0, mechanism.arm, r)),
            Carrier.ROD: (
                disc(Point(0.0, 0.0), mechanism.rod / 2.0),
                _stadium(0.0, 0.0, mechanism.rod / 2.0) + np.array([mechanism.arm, 0.0]),
            ),
        }
        reach = mechanism.pivot[0] + mechanism.arm
        boxes = [_random_box(rnd, (100.0, reach, -60.0, 120.0)) for _ in range(2)]
        braces = [_random_box(rnd, (30.0, reach, -90.0, 20.0)) for _ in range(2)]
        positions = list(_sampled_positions(mechanism, up))
        for carrier, (outline, points) in shapes.items():
            moving = Body(name="moving", outlines=(outline,), lane=(0.0, 9.0), carrier=carrier)
            for still_on, others in ((Carrier.FRAME, boxes), (Carrier.BACK, braces)):
                for box, corners in others:
                    still = Body(name="still", outlines=(box,), lane=(0.0, 9.0), carrier=still_on)
                    (pair,) = pairs((still, moving), mechanism.arm)
                    found = examine(pair, up, fold_range(up), 0.0, reach=1e4)

                    def gap(degrees, lean, m=mechanism, on=still_on, c=corners, p=points):
                        arm = _placed(p, lean - math.pi / 2.0, m.pivot_at(degrees))
                        turn = math.radians(degrees) if on is Carrier.BACK else 0.0
                        return _difference_gap(_placed(c, turn, np.zeros(2)), arm)

                    sparse = points[::8] if len(points) > 40 else points
                    rough = [gap(d, k, p=sparse) for d, k in positions[::2]]
                    least = min(
                        _polished(mechanism, gap, positions[max(2 * k - 3, 0) : 2 * k + 4])
                        for k in _valleys(rough)
                    )
                    value = -found.depth if isinstance(found, Clash) else found.least
                    assert value == pytest.approx(least, abs=0.05), (number, carrier, still_on)
                    compared += 1
                    clashed += isinstance(found, Clash)
    assert compared > 40
    assert clashed > 5


def _valleys(rough: list[float]) -> list[int]:
    """Indices of the lowest places that could hold the least gap, given chords for arcs."""
    padded = [math.inf, *rough, math.inf]
    floors = [k for k, v in enumerate(rough) if v <= padded[k] and v <= padded[k + 2]]
    return [k for k in floors if rough[k] < min(rough) + 1.0]


def _polished(mechanism: Mechanism, gap, near) -> float:
    """The least gap at sampled positions or between neighbours of one smooth way."""
    values = [gap(*q) for q in near]
    k = int(np.argmin(values))
    least = values[k]
    for (d0, k0), (d1, k1) in zip(near[max(k - 1, 0) : k + 1], near[k : k + 2], strict=False):
        if d1 - d0 < 1e-3:
            fit = minimize_scalar(
                lambda x, d=d0: gap(d, x), bounds=sorted((k0, k1)), method="bounded"
            )
        else:
            fit = minimize_scalar(
                lambda d, x=k0: gap(d, mechanism.rest(d, x, step=2e-3)),
                bounds=(d0, d1),
                method="bounded",
                options={"maxiter": 12},
            )
        least = min(least, fit.fun)
    return least


def _turned(polygon: Polygon, degrees: float) -> Polygon:
    return affinity.rotate(polygon, degrees, origin=(0.0, 0.0))


def test_back_against_frame_least_gap_and_first_contact(mechanisms) -> None:
    """Shapes turning about the hinge: gap by shapely's distance, contact by root finding."""
    path = next(p for _, p in mechanisms if p.over > 60.0)
    rnd = random.Random(5)
    clashed = 0
    for case in range(120):
        on_frame, a = _random_box(rnd, (-150.0, 60.0, -60.0, 60.0))
        on_back, b = _random_box(rnd, (20.0, 150.0, -60.0, 40.0))
        if case % 3 == 0:  # a hooked part: not convex
            on_back = closed(
                ((60, 0, 0), (120, 0, 0), (120, 30, 0), (90, 30, 0), (90, 60, 0), (60, 60, 0))
            )
            b = np.array(on_back.points)
        still, moving = Polygon(a), Polygon(b)
        if still.distance(moving) < 1.0:
            continue
        frame = Body(name="f", outlines=(on_frame,), lane=(0.0, 1.0), carrier=Carrier.FRAME)
        back = Body(name="b", outlines=(on_back,), lane=(0.0, 1.0), carrier=Carrier.BACK)
        (pair,) = pairs((frame, back), path.prop.arm)
        found = examine(pair, path, fold_range(path), 0.0, reach=1e4)

        def gap(degrees: float, still=still, moving=moving) -> float:
            return still.distance(_turned(moving, degrees))

        angles = np.arange(0.0, path.over + 0.05, 0.1).clip(max=path.over)
        gaps = [gap(t) for t in angles]
        k = int(np.argmin(gaps))
        if gaps[k] > 0.0:
            fit = minimize_scalar(
                gap,
                bounds=(angles[max(k - 1, 0)], angles[min(k + 1, len(angles) - 1)]),
                method="bounded",
                options={"xatol": 1e-6},
            )
            least = min(fit.fun, gaps[k])
            if least > 0.01:
                assert not isinstance(found, Clash)
                assert found.least == pytest.approx(least, abs=0.05)
            continue
        clashed += 1
        assert isinstance(found, Clash)
        first = next(i for i, g in enumerate(gaps) if g == 0.0)
        low, high = angles[first - 1], angles[first]
        while high - low > 1e-5:
            middle = (low + high) / 2.0
            low, high = (low, middle) if gap(middle) == 0.0 else (middle, high)
        assert found.starts == pytest.approx(high, abs=0.01)
    assert clashed >= 20


def test_arm_against_frame_first_contact(mechanisms) -> None:
    """The back angle at which a rising arm first meets a fixed block."""
    compared = 0
    for number, (mechanism, path) in enumerate(mechanisms[:20]):
        up = replace(path, stretches=path.raising)
        if any(_left_end(mechanism, np.array(s.track.end)) for s in path.raising):
            continue
        rnd = random.Random(number)
        box, corners = _random_box(rnd, (150.0, 420.0, 40.0, 120.0))
        still = Body(name="s", outlines=(box,), lane=(0.0, 1.0), carrier=Carrier.FRAME)
        outline, points = arm_outline(mechanism.arm, 40.0), _stadium(0.0, mechanism.arm, 20.0)
        arm = Body(name="a", outlines=(outline,), lane=(0.0, 1.0), carrier=Carrier.ARM)
        (pair,) = pairs((still, arm), mechanism.arm)
        found = examine(pair, up, fold_range(up), 0.0)
        if not isinstance(found, Clash) or found.phase is not Phase.RAISING or found.starts == 0.0:
            continue
        lean = mechanism.rest(0.0, 2.2)

        def gap(degrees, lean, m=mechanism, c=corners, p=points):
            arm = _placed(p, lean - math.pi / 2.0, m.pivot_at(degrees))
            return _difference_gap(c, arm)

        for degrees in np.arange(0.0, up.over, 0.1):
            following = mechanism.rest(degrees, lean)
            if gap(degrees, following) < 0.0:
                angle = brentq(
                    lambda d, k=lean, m=mechanism: gap(d, m.rest(d, k)), degrees - 0.1, degrees
                )
                assert found.starts == pytest.approx(angle, abs=0.01)
                compared += 1
                break
            lean = following
    assert compared >= 4


def test_no_sampled_position_of_the_whole_travel_is_nearer(mechanisms) -> None:
    """Lifting, lowering and settling too, with three shapes of arm; and the least is attained."""
    compared = 0
    for number, (mechanism, path) in enumerate(mechanisms[14:34]):
        rnd = random.Random(number)
        r = rnd.uniform(12.0, 20.0)
        square = number % 2 == 0
        outline = arm_outline(mechanism.arm, 2.0 * r, 1.3 * r if square else None)
        points = _stadium(0.0, mechanism.arm, r, 45)
        if square:
            end = mechanism.arm + 1.3 * r
            points = np.vstack([points[45:], [(0.0, -r), (end, -r), (end, r), (0.0, r)]])
        arm = Body(name="a", outlines=(outline,), lane=(0.0, 1.0), carrier=Carrier.ARM)
        reach = mechanism.pivot[0] + mechanism.arm
        box, corners = _random_box(rnd, (20.0, reach, -230.0, 160.0))
        still = Body(name="s", outlines=(box,), lane=(0.0, 1.0), carrier=Carrier.FRAME)
        (pair,) = pairs((still, arm), mechanism.arm)
        found = examine(pair, path, fold_range(path), 0.0, reach=1e4)
        value = -found.depth if isinstance(found, Clash) else found.least

        def gap(share: float, stretch, c=corners, p=points) -> float:
            stand = stretch.at(float(share))
            heading = math.atan2(stand.rod.y - stand.pivot.y, stand.rod.x - stand.pivot.x)
            return _difference_gap(c, _placed(p, heading, np.array(stand.pivot)))

        shares = np.linspace(0.0, 1.0, 41)
        sampled = [(gap(k, s), k, s) for s in path.stretches for k in shares]
        lowest = sorted(sampled, key=lambda x: x[0])[:4]
        least = lowest[0][0]
        for _, share, stretch in lowest:
            bounds = (max(share - 0.025, 0.0), min(share + 0.025, 1.0))
            fit = minimize_scalar(gap, bounds=bounds, args=(stretch,), method="bounded")
            least = min(least, fit.fun)
        assert value == pytest.approx(least, abs=0.05), number
        compared += 1
    assert compared == 20


def test_rod_body_is_a_full_circle() -> None:
    assert rod_body(22.0, (0.0, 1.0)).shapes[0].carriers == ((0.0, 0.0, 11.0),)
