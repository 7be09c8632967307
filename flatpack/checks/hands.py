"""Handed parts come in pairs: the same part in a frame and in its mirror image."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry import Point
from flatpack.model import Feature, Part

SAME = 1e-3
FINE = 6  # places: inch lengths end in a 5 on fewer, where rounding is a toss-up


def check_hands(setting: Setting) -> Iterator[Finding]:
    """Each left part has one right part, alike in its own axes, in a frame of the other hand."""
    named: dict[str, list[Part]] = {}
    for part in setting:
        if part.hand:
            named.setdefault(part.name, []).append(part)
    for name, parts in named.items():
        yield from _pair(name, parts)
    yield from _one_side(named)


def _pair(name: str, parts: list[Part]) -> Iterator[Finding]:
    left = [p for p in parts if p.hand == "left"]
    right = [p for p in parts if p.hand == "right"]
    if len(left) != len(right):
        yield Finding(
            "hands-uneven", "fault", parts[0].key,
            f"{name}: {len(left)} left and {len(right)} right hand; every left needs one right",
            float(len(left)), float(len(right)), "parts",
        )  # fmt: skip
        return
    free = list(right)
    for part in left:
        mate = next((p for p in free if _alike(part, p)), None)
        if mate is None:
            yield Finding(
                "hands-differ", "fault", part.key,
                f"{name}: no right hand is the mirror image of {part.key}: {_why(part, free)}",
            )  # fmt: skip
            continue
        free.remove(mate)
        yield from _frames(part, mate)


def _alike(a: Part, b: Part) -> bool:
    return (
        a.thickness == b.thickness and _same_outline(a, b) and _work(a) == _work(b)
    )  # fmt: skip


def _same_outline(a: Part, b: Part) -> bool:
    return len(a.outline.segments) == len(b.outline.segments) and all(
        _close(s.start, t.start) and abs(s.bulge - t.bulge) < SAME
        for s, t in zip(a.outline, b.outline, strict=True)
    )


def _close(a: Point, b: Point) -> bool:
    return abs(a.x - b.x) < SAME and abs(a.y - b.y) < SAME


def _work(part: Part) -> list[str]:
    return sorted(repr(f.key()) for f in part.features)


def _why(part: Part, others: list[Part]) -> str:
    if not others:
        return "all are taken"
    other = others[0]
    if not _same_outline(part, other):
        return "the outlines differ"
    odd = sorted(set(_work(part)) ^ set(_work(other)))
    return f"{len(odd)} holes or marks differ"


def _frames(left: Part, right: Part) -> Iterator[Finding]:
    if left.frame.mirrored == right.frame.mirrored:
        yield Finding(
            "two-of-one-hand", "fault", left.key,
            f"{left.key} and {right.key} are both of one hand: neither is the other's mirror image",
            remedy="turn one of them over: mirror its frame",
        )  # fmt: skip
    elif marks_coincide(left, right):
        same = _drawn(left, _WORKED) == _drawn(right, _WORKED)
        what = "all holes" if same else "the pockets"
        yield Finding(
            "hands-indistinct", "note", left.key,
            f"{left.title} and {right.title}: laid over each other, {what} of the two drawings lie "
            "on the same places, so they don't tell the hands apart",
            remedy="go by the outline and the part marks, or make it a part without a hand",
        )  # fmt: skip


_POCKETS = ("pocket-hole",)
_WORKED = (*_POCKETS, "drill-through", "drill-blind", "counterbore", "slot", "hidden-edge")


def marks_coincide(left: Part, right: Part) -> bool:
    """True when every pocket of one hand's drawing lies on one of the other's.

    A mirrored part is drawn as its own axes mirrored in x about the middle of its length.
    """
    marks = [_drawn(part, _POCKETS) for part in (left, right)]
    return bool(marks[0]) and marks[0] == marks[1]


def _drawn(part: Part, operations: tuple[str, ...]) -> list[tuple[float, ...]]:
    low, _, high, _ = part.outline.bounds
    work = [f for f in part.features if f.operation in operations]
    return sorted(_mark(f, part.frame.mirrored, low + high) for f in work)


def _mark(feature: Feature, mirrored: bool, twice_middle: float) -> tuple[float, ...]:
    at = feature.at
    x = twice_middle - at.x if mirrored else at.x
    return (round(x, FINE) + 0.0, round(at.y, FINE) + 0.0, float(feature.face == "show"))


def _one_side(named: dict[str, list[Part]]) -> Iterator[Finding]:
    """All left hands lie on the same side of their right hands.

    Hands that lie across corners (a box's posts: left hand at one corner and at the one opposite)
    have a middle in common and no side.
    """
    sides: dict[bool, list[str]] = {}
    for name, parts in named.items():
        places: dict[str, list[float]] = {}
        for p in parts:
            places.setdefault(p.hand, []).append(_across(p))
        across = {hand: sum(ys) / len(ys) for hand, ys in places.items()}
        if len(across) == 2 and abs(across["left"] - across["right"]) > SAME:
            sides.setdefault(across["left"] < across["right"], []).append(name)
    if len(sides) == 2:
        few = min(sides.values(), key=lambda names: (len(names), names))
        for name in few:
            yield Finding(
                "hands-swapped", "fault", named[name][0].key,
                f"{name}: left and right hand are named the other way round than on other parts",
                remedy="swap the two names",
            )  # fmt: skip


def _across(part: Part) -> float:
    x0, y0, x1, y1 = part.outline.bounds
    return part.frame.place((x0 + x1) / 2.0, (y0 + y1) / 2.0, part.thickness / 2.0).y
