"""What a picture hides, against rays cast at the bodies themselves.

For places spread over the picture, the first body that a ray of sight meets is found by cutting
it with the plane of every face of every prism (plane geometry; nothing of the painting is used).
The picture must show that body there: its last filled face that covers the place.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from flatpack.drawings.book.picture import Shown, ordered, picture
from flatpack.drawings.book.sight import cover_view, paintable, views_of
from flatpack.drawings.book.whole import exploded
from flatpack.drawings.projection import view_box
from flatpack.model import posed

from .conftest import built, studied

ASIDE = 1.5
"""Places nearer to a drawn edge than this, model mm, are left out: either side is right there."""


def first_met(bodies, view, places):
    """Number of the body that each ray meets first, -1 for none."""
    depth = np.full(len(places), -np.inf)
    hit = np.full(len(places), -1)
    right, up, toward = (np.array(v) for v in (view.right, view.up, view.toward))
    starts = places[:, :1] * right + places[:, 1:] * up
    for number, body in enumerate(bodies):
        f = body.frame
        axes = np.array([f.x, f.y, f.z])
        at, way = (starts - np.array(f.origin)) @ axes.T, axes @ toward
        for along in crossings(body, at, way):
            nearer = along > depth
            depth = np.where(nearer, along, depth)
            hit = np.where(nearer, number, hit)
    return hit


def crossings(body, at, way):
    """Distances along the rays at which they cross the body's two ends and its sides."""
    corners = np.array(body.outline.sampled(0.05))
    shape = shapely.Polygon(corners)
    with np.errstate(divide="ignore", invalid="ignore"):
        for height in (body.low, body.high):
            s = (height - at[:, 2]) / way[2]
            p = at[:, :2] + s[:, None] * way[:2]
            inside = np.isfinite(s) & shapely.contains_xy(shape, np.nan_to_num(p))
            yield np.where(inside, s, -np.inf)
        for a, b in zip(corners, np.roll(corners, -1, axis=0), strict=True):
            normal = np.array([b[1] - a[1], a[0] - b[0]])
            s = ((a - at[:, :2]) @ normal) / (normal @ way[:2])
            p = at + s[:, None] * way
            share = ((p[:, :2] - a) @ (b - a)) / ((b - a) @ (b - a))
            inside = (share >= 0) & (share <= 1) & (p[:, 2] >= body.low) & (p[:, 2] <= body.high)
            yield np.where(inside & np.isfinite(s), s, -np.inf)


def shares_right(piece, view, toward=None) -> float:
    """Share of places at which the picture shows what the ray meets first."""
    bodies = paintable(piece)
    painted = ordered(bodies, view)
    boxes = np.array([view_box(b, view) for b in bodies])
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    places = np.random.default_rng(7).uniform(low, high, (4000, 2))
    met = first_met(bodies, view._replace(toward=toward or view.toward), places)
    shown, edge = np.full(len(places), -1), np.full(len(places), np.inf)
    numbers = {id(b): n for n, b in enumerate(bodies)}
    points = shapely.points(places)
    for body, faces in painted:
        for outline in faces:
            shape = shapely.Polygon(outline.sampled(0.05))
            if shape.area < 1.0:
                continue
            shown[shapely.contains_xy(shape, places)] = numbers[id(body)]
            edge = np.minimum(edge, shapely.distance(shape.exterior, points))
    clear = (edge > ASIDE) & ((met >= 0) | (shown >= 0))
    keys = np.array([b.key for b in bodies] + [""])  # a bar's lengths count as one
    return float(np.mean(keys[met[clear]] == keys[shown[clear]]))


@pytest.mark.parametrize("number", range(0, 16, 3))
def test_nearer_bodies_hide_those_behind(family: str, number: int) -> None:
    """In a few views of the bench three parts hide one another in a ring: one must give way."""
    piece = built(family)
    assert shares_right(piece, views_of(piece)[number]) >= 0.975


@pytest.mark.parametrize("number", [0, 8])
def test_first_views_are_right_to_the_last_percent(family: str, number: int) -> None:
    piece = built(family)
    assert shares_right(piece, views_of(piece)[number]) >= 0.995


def test_raised_back_hides_what_is_behind_it() -> None:
    top = studied("lounger").found.stops[-1]
    piece = posed(built("lounger"), top.angle, top.rod)
    assert shares_right(piece, cover_view(piece)) >= 0.995


def test_exploded_parts_hide_what_is_behind_them(family: str) -> None:
    piece = exploded(built(family))
    assert shares_right(piece, views_of(built(family))[0]) >= 0.995


def test_the_referee_sees_a_wrong_order(family: str) -> None:
    """Told that the reader stands on the other side, it finds many places wrong."""
    view = views_of(built(family))[0]
    assert shares_right(built(family), view, view.toward.negated()) < 0.9


def test_every_new_part_can_be_told_by_its_mark() -> None:
    piece = built("lounger")
    view = views_of(piece)[0]
    shown = Shown(ordered(paintable(piece), view), {}, {}, "", {"Z": ("slat-3",)})
    drawing = picture("p", "p", shown, view)
    assert [s.shape.text for s in drawing.strokes if hasattr(s.shape, "text")] == ["Z"]
