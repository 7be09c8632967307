"""Can it be put together, and does it stay so?  Parts slid along straight ways, exactly.

A part that slides along d takes up, on its way, its own shape smeared along d.  Of a prism that is
a prism again: higher, when d runs square to its faces; of a larger outline, when d lies in them.
So "nothing is in its way" is the same question as "do two bodies share room".

    put together   in the order of the joints each part slides home through those already there
    stays          parts that wedge, glue or a press fit hold are one body; a body that can't slide
                   back out of another is held by it, and becomes one with it; whatever is left
                   apart at the end is loose
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.checks.body import Body
from flatpack.checks.narrow import shared
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.frozen import replace
from flatpack.geometry import Outline, Point, Segment, Vec
from flatpack.geometry.polygon import mended, polygon, rings, swept
from flatpack.model import Fit

SQUARE = 1e-9
UPWARDS = 0.7
"""A way that climbs steeper than this lifts the part: its weight holds it (cosine)."""


def slid(body: Body, way: Vec, length: float) -> tuple[Body, ...] | None:
    """Bodies that fill all room taken while `body` moves `length` along the unit `way`.

    None when the way runs neither square to its faces nor in them.
    """
    x, y, z = body.frame.local_direction(way)
    if abs(abs(z) - 1.0) < SQUARE:
        low, high = (0.0, length) if z > 0.0 else (-length, 0.0)
        return (replace(body, low=body.low + low, high=body.high + high, _kept={}),)
    if abs(z) > SQUARE:
        return None
    shape = mended(polygon(body.outline, holes=body.openings))
    made = swept(shape, x * length, y * length)
    return tuple(
        replace(body, outline=_outline(outer), openings=tuple(map(_outline, holes)), _kept={})
        for outer, holes in rings(made)
    )


def _outline(points: Iterable[tuple[float, float]]) -> Outline:
    corners = [Point(float(x), float(y)) for x, y in points]
    following = corners[1:] + corners[:1]
    return Outline(tuple(map(Segment, corners, following)))


class Slider:
    """The parts of a piece as bodies, and whether one meets others on its way."""

    def __init__(self, setting: Setting) -> None:
        """Gather bodies, and how tightly each pair is pressed together."""
        self.bodies = {b.owner: b for b in setting.bodies if b.owner in setting.assembly.parts}
        self.tolerance = setting.limits.overlap.value
        self.tight: dict[frozenset[str], float] = {}
        for fit in setting.assembly.fits:
            pair = frozenset((fit.part, fit.onto))
            self.tight[pair] = max(self.tight.get(pair, 0.0), -fit.clearance)
        reach = [b.outline.bounds for b in self.bodies.values()]
        self.far = 2.0 * sum(max(x1 - x0, y1 - y0) for x0, y0, x1, y1 in reach)

    def met(self, key: str, way: Vec, others: Iterable[str], length: float = 0.0) -> str | None:
        """The first of the others in the way of a part, moved `length` (0: from afar); "" unknown.

        It is unknown where the way runs askew to the part's faces.
        """
        made = slid(self.bodies[key], way, length or self.far)
        if made is None:
            return ""
        for other in others:
            r = (self.tolerance + self.tight.get(frozenset((key, other)), 0.0)) / 2.0
            if any(shared(one, self.bodies[other], r) is not None for one in made):
                return other
        return None


def check_assembling(setting: Setting) -> Iterator[Finding]:
    """Each part slides home, in the order of the steps, through all that is there already."""
    fits = _in_order(setting)
    if not fits:
        return
    slider = Slider(setting)
    there: dict[str, None] = {}
    ways: dict[str, Vec] = {}
    for fit in fits:
        known = ways.get(fit.part)
        if known is not None and known.minus(fit.direction).length > SQUARE:
            yield Finding(
                "two-ways-home", "fault", fit.part,
                f"{fit.part} would have to slide two ways at once to go home in {fit.onto}",
            )  # fmt: skip
        if known is None:
            there.setdefault(fit.onto)
            yield from _slides_home(slider, fit, [k for k in there if k != fit.part])
        ways[fit.part] = fit.direction
        there.setdefault(fit.part)


def _in_order(setting: Setting) -> list[Fit]:
    """Fits by the order of steps, then as the joints come; each part before it is slid on to."""
    steps = {step.key: n for n, step in enumerate(setting.assembly.steps)}
    when = {j.key: steps.get(j.step, len(steps)) for j in setting.assembly.joints}
    return sorted(setting.assembly.fits, key=lambda fit: when.get(fit.joint, 0))


def _slides_home(slider: Slider, fit: Fit, there: list[str]) -> Iterator[Finding]:
    met = slider.met(fit.part, fit.direction.negated(), there, fit.travel)
    if met == "":
        text = f"{fit.part} slides askew to its own faces, which can't be followed"
        yield Finding("slides-home", "not done", fit.part, text)
    elif met is not None:
        yield Finding(
            "in-the-way", "fault", f"{fit.part} / {met}",
            f"{fit.part} can't be slid home into {fit.onto}: {met} is in its way",
            remedy="put it in earlier, or from another side",
        )  # fmt: skip


def check_locked(setting: Setting) -> Iterator[Finding]:
    """Nothing comes apart the way it went together but by drawing a wedge or using force."""
    fits = setting.assembly.fits
    if not fits:
        return
    slider = Slider(setting)
    bodies = {key: key for key in slider.bodies}
    for fit in fits:
        if _holds(setting, slider, fit):
            _unite(bodies, fit.part, fit.onto)
    while any(_held_by_others(slider, bodies, fit) for fit in fits):
        pass
    for fit in fits:
        if bodies[fit.part] != bodies[fit.onto]:
            yield _loose(fit)
    yield from _wedges(setting, slider)


def _holds(setting: Setting, slider: Slider, fit: Fit) -> bool:
    """True where the joint itself holds: glued, pressed in, or by a wedge that bites."""
    if fit.hold == "wedge":
        gentle = fit.slope <= setting.limits.wedge_steepest.value
        return gentle and _bites(setting, slider, fit)
    return fit.hold == "glue" or (fit.hold == "press" and fit.clearance < 0.0)


def _bites(setting: Setting, slider: Slider, fit: Fit) -> bool:
    """True when the wedge, driven a little further, would run into the wood.

    A play p across lets it in by p / slope.
    """
    play = setting.limits.wedge_play.value + slider.tolerance
    drive = play / fit.slope if fit.slope else 0.0
    body = slider.bodies[fit.part]
    frame = replace(body.frame, origin=body.frame.origin.plus(fit.direction, drive))
    further = replace(body, frame=frame, _kept={})
    return shared(further, slider.bodies[fit.onto], slider.tolerance / 2.0) is not None


def _unite(bodies: dict[str, str], a: str, b: str) -> None:
    gone, stays = bodies[b], bodies[a]
    for key, body in bodies.items():
        if body == gone:
            bodies[key] = stays


def _held_by_others(slider: Slider, bodies: dict[str, str], fit: Fit) -> bool:
    """Unites two bodies of a joint that can't slide apart again; True when it did."""
    mine, theirs = bodies[fit.part], bodies[fit.onto]
    if mine == theirs:
        return False
    others = [key for key, body in bodies.items() if body == theirs]
    back = fit.direction.negated()
    for key in (key for key, body in bodies.items() if body == mine):
        if slider.met(key, back, others):
            _unite(bodies, fit.part, fit.onto)
            return True
    return False


def _loose(fit: Fit) -> Finding:
    pair, up = f"{fit.part} / {fit.onto}", -fit.direction.z > UPWARDS
    if up:
        return Finding(
            "held-by-weight", "warning", pair,
            f"nothing but its weight holds {fit.part} on {fit.onto}",
            source="common practice, no source", remedy="glue it, or give it a press fit",
        )  # fmt: skip
    return Finding(
        "unlocked", "fault", pair, f"{fit.part} slides out of {fit.onto} again: nothing locks it",
        remedy="lock it with a wedge",
    )  # fmt: skip


def _wedges(setting: Setting, slider: Slider) -> Iterator[Finding]:
    steepest = setting.limits.wedge_steepest
    for fit in (f for f in setting.assembly.fits if f.hold == "wedge"):
        if fit.slope > steepest.value:
            yield Finding(
                "wedge-steep", "fault", fit.part,
                f"a taper of 1 in {1.0 / fit.slope:.1f} pushes the wedge out again",
                round(fit.slope, 3), steepest.value, "", steepest.source,
                f"make it 1 in {1.0 / steepest.value:g} or gentler",
            )  # fmt: skip
        elif not _bites(setting, slider, fit):
            yield Finding(
                "wedge-loose", "fault", fit.part,
                f"{fit.part} doesn't reach the end of its slot in {fit.onto}: it locks nothing",
                remedy="make the wedge wider, or its slot shorter",
            )  # fmt: skip
    yield from _by_force(setting)


def _by_force(setting: Setting) -> Iterator[Finding]:
    """Whatever only a press fit holds up is told: a piece lifted by it may come apart."""
    pressed = [f for f in setting.assembly.fits if f.hold == "press" and f.clearance < 0.0]
    for key in dict.fromkeys(f.part for f in pressed):
        tight = min(f.clearance for f in pressed if f.part == key)
        yield Finding(
            "held-by-fit", "note", key,
            f"{key} holds by its press fit of {-tight:.2f} alone: lift the piece below it",
            round(tight, 3), None, "mm", "common practice, no source",
            "glue it if it needn't come apart",
        )  # fmt: skip
