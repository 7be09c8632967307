"""The pictures of a moving page: bodies once, as named shapes, and pictures that use them.

Three groups move as one: what stands still, the back, and the arm with its rod.  The rack lies
before the arm's end and is painted last of all, its near side only dashed.
"""

from __future__ import annotations

from itertools import groupby

from flatpack.drawings.moving import MovingPage
from flatpack.drawings.moving.record import Place, StopPicture
from flatpack.drawings.moving.views import Seen
from flatpack.geometry import Outline, Point, Segment
from flatpack.wording import english_moving as words
from flatpack.writers.svg_shapes import escaped

_RING = 16.0
"""Radius of the ring round the nearest pair, mm."""
CARRIERS = {"frame": "frame", "ground": "frame", "back": "back", "arm": "arm", "rod": "arm"}
"""What a body is fixed to -> the group that it moves with."""


def body_id(number: int) -> str:
    """Name of a body's shape in the file."""
    return f"b{number}"


def body_ids(page: MovingPage) -> dict[str, str]:
    """Body's key -> name of its shape."""
    return {seen.name: body_id(number) for number, seen in enumerate(page.bodies)}


def defined(page: MovingPage) -> str:
    """Every body's outline, and the groups that move as one; nothing of it is shown here."""
    groups = (
        ("still", ("frame",)), ("backs", ("back",)), ("arms", ("arm", "rod")),
        ("front", ("rack", "near")),
    )  # fmt: skip
    made = "\n".join(f'<g id="{name}">{_bodies(page, looks)}</g>' for name, looks in groups)
    return (
        '<svg width="0" height="0" style="position:absolute" aria-hidden="true" focusable="false">'
        f"<defs>\n{made}\n</defs></svg>"
    )


def _bodies(page: MovingPage, looks: tuple[str, ...]) -> str:
    """Shapes in the order of painting; each run of one look is a group that says how it looks."""
    kept = [(number, seen) for number, seen in enumerate(page.bodies) if seen.look in looks]
    runs = ((look, tuple(run)) for look, run in groupby(kept, key=lambda item: item[1].look))
    return "".join(
        f'<g class="{look}">{"".join(_shape(page, *item) for item in run)}</g>'
        for look, run in runs
    )


def _shape(page: MovingPage, number: int, seen: Seen) -> str:
    outline = seen.outline.moved(page.arm, 0.0) if seen.look == "rod" else seen.outline
    return f'<path id="{body_id(number)}" d="{outline_path(outline)}"/>'


def outline_path(outline: Outline) -> str:
    """A closed path, to 0.01 mm."""
    steps = "".join(_side(s) for s in outline)
    return f"M{_xy(outline.segments[0].start)}{steps}Z"


def _side(segment: Segment) -> str:
    if segment.bulge == 0.0:
        return f"L{_xy(segment.end)}"
    r, flags = _n(segment.radius), f"{int(abs(segment.bulge) > 1.0)} {int(segment.bulge < 0.0)}"
    return f"A{r} {r} 0 {flags} {_xy(segment.end)}"


def turns(place: Place) -> tuple[str, str]:
    """Transforms of the back and of the arm."""
    x, y = place.pivot
    back, heading = _n(-place.back, 4), _n(-place.heading, 4)
    return f"rotate({back})", f"translate({_n(x, 3)} {_n(-y, 3)}) rotate({heading})"


def picture(page: MovingPage, stop: StopPicture) -> str:
    """One picture of the strip."""
    back, arm = turns(page.moments[stop.moment].place)
    name = escaped(words.picture_of(stop.name))
    return (
        f'<svg class="view" role="img" aria-label="{name}" viewBox="{_view(page)}">'
        f'{_ground(page)}<use href="#still"/><use href="#backs" transform="{back}"/>'
        f'<use href="#arms" transform="{arm}"/><use href="#front"/>{_AXIS}</svg>'
    )


def shown_moment(page: MovingPage) -> str:
    """The picture that the script moves, at the first moment; `bold` repeats what is nearest."""
    back, arm = turns(page.moments[0].place)
    name = escaped(words.told(words.MOVE, page))
    return (
        f'<svg class="view" role="img" aria-label="{name}" viewBox="{_view(page)}">'
        f'{_ground(page)}<use href="#still"/>'
        f'<g id="back" transform="{back}"><use href="#backs"/>{_bold("back")}</g>'
        f'<g id="arm" transform="{arm}"><use href="#arms"/>{_bold("arm")}</g>'
        f'<use href="#front"/>{_bold("frame")}{_AXIS}'
        f'<g id="ring" visibility="hidden"><circle class="ring" r="{_n(_RING)}"/></g></svg>'
    )


def _bold(group: str) -> str:
    return f'<use id="bold-{group}" class="bold"/>'


_AXIS = '<circle class="axis" r="4"/>'


def _ground(page: MovingPage) -> str:
    x0, _, x1, _ = page.box
    y = _n(-page.ground)
    return f'<line class="ground" x1="{_n(x0)}" y1="{y}" x2="{_n(x1)}" y2="{y}"/>'


def _view(page: MovingPage) -> str:
    x0, y0, x1, y1 = page.box
    return f"{_n(x0)} {_n(-y1)} {_n(x1 - x0)} {_n(y1 - y0)}"


def _xy(p: Point) -> str:
    return f"{_n(p.x)} {_n(-p.y)}"


def _n(value: float, places: int = 2) -> str:
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
