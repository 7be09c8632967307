"""Every example's placing sentences against where the parts' sides lie in the piece."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from flatpack import job
from flatpack.drawings.book.matter import Matter, matter
from flatpack.drawings.book.placing import places
from flatpack.drawings.book.settings import BookSettings
from flatpack.drawings.book.steps import BuildStep, build_steps
from flatpack.drawings.book.work import work
from flatpack.drawings.settings import Settings
from flatpack.geometry import Vec
from flatpack.model import Assembly, Part, placed_corners
from flatpack.profile_files import profile_texts, read_text
from flatpack.profiles import load

FOLDER = Path(__file__).parents[3] / "profiles" / "pieces"
NAMES = sorted(path.stem for path in FOLDER.glob("*.toml"))
SENTENCE = re.compile(
    r"^(?P<part>.+?) on (?P<base>[^:]+?)(?: \(the one at [^)]+\))?: (?P<lies>.*)\.$"
)
SIDE = r"(?:(?P<{0}>[a-z ]+?) )?(?P<{0}_kind>end|edge|show face|back face)s?"
ALONG = re.compile(
    "^" + SIDE.format("near")
    + r" (?:(?P<past>[\d., ]+) mm past)?(?: and )?"
    + r"(?:(?P<on>[\d., ]+) mm from|(?P<level>level with))?"
    + r" the .+?'s (?P<end>[a-z ]+?) end;"
)  # fmt: skip
ACROSS = re.compile(
    r"; (?P<side>[a-z ]+?) (?P<mm>[\d.]+) mm (?P<way>from|beyond)"
    r" its (?P<edge>[a-z ]+?) edge(?:;|$)"
)
AXES = {"left": (1, -1), "right": (1, 1), "bottom": (2, -1), "top": (2, 1)}
FORE_AND_AFT = {
    "lying": {"foot": (0, -1), "head": (0, 1)},
    "opening": {"rear": (0, -1), "front": (0, 1)},
}


@cache
def told(name: str) -> tuple[Matter, tuple[tuple[BuildStep, str], ...]]:
    drawing = Settings(workshop=load(profile_texts()).workshop("default"), code="QRST-1234")
    made = job.design(read_text(str(FOLDER / f"{name}.toml")), name, profile_texts())
    m = matter(made.assembly, None, (), BookSettings(drawing=drawing))
    every = ((s, text) for s in build_steps(m.assembly) for text in work(m, s, False))
    others = re.compile("^Wheels on|.*hinged to")
    return m, tuple(
        (s, text)
        for s, text in every
        if SENTENCE.match(text) and not others.match(text) and "'s " in text
    )


def axis_of(word: str, assembly: Assembly) -> tuple[int, int]:
    own = FORE_AND_AFT.get(assembly.bearing, {"front": (0, -1), "rear": (0, 1)})
    return (AXES | own)[word.removesuffix(" end")]


def towards(base: Part, axis: int, sign: int) -> Vec:
    """The base's own axis that looks most nearly that way: it may lean."""
    frame = base.frame
    ways = (v for u in (frame.x, frame.y, frame.z) for v in (u, u.negated()))
    return max(ways, key=lambda v: sign * v[axis])


def kind_there(part: Part, out: Vec) -> str:
    """What of the part looks that way, from its frame's axes."""
    along = [abs(out.dot(v)) for v in (part.frame.x, part.frame.y, part.frame.z)]
    of_face = "show face" if out.dot(part.frame.z) > 0.0 else "back face"
    return ("end", "edge", of_face)[along.index(max(along))]


def pairs(m: Matter, step: BuildStep, text: str) -> Iterator[tuple[Part, Part]]:
    """The joined parts that a sentence speaks of."""
    said = SENTENCE.match(text)
    assert said
    for joint in step.joints:
        keys = [k for k in joint.parts if k in m.assembly.parts]
        for one, other in ((a, b) for a in keys for b in keys if a != b):
            words = (said["part"], said["base"])
            if all(re.search(rf"\b{re.escape(m.mark_of[k])}(?:,|$)", w)
                   for k, w in zip((one, other), words, strict=True)):  # fmt: skip
                yield m.assembly.parts[one], m.assembly.parts[other]


def apart(part: Part, base: Part, out: Vec) -> float:
    """How far a part's outermost corner lies within its base's the same way, mm."""
    far, own = (max(out.dot(c) for c in placed_corners(p)) for p in (base, part))
    return far - own


def holds(
    stated: list[float], kind: str, way: str, held: tuple[tuple[Part, Part], ...], m: Matter
) -> bool:
    """True when each distance is that of a named side of one of the parts from its base's."""
    axis, sign = axis_of(way, m.assembly)
    lies = [(p, b, towards(b, axis, sign)) for p, b in held]
    right = [apart(p, b, out) for p, b, out in lies if kind_there(p, out) == kind]
    return all(any(abs(value - found) < 0.11 for found in right) for value in stated)


@pytest.mark.parametrize("name", NAMES)
def test_the_side_named_lies_where_it_is_said_to(name: str) -> None:
    m, sentences = told(name)
    for step, text in sentences:
        held = tuple(pairs(m, step, text))
        lies = text.split(": ", 1)[1].removesuffix(".")
        along = ALONG.match(f"{lies};")
        assert held, text
        assert along, text
        stated = [-float(v) for v in (along["past"] or "").split(", ") if v]
        stated += [float(v) for v in (along["on"] or "").split(", ") if v]
        stated += [0.0] if along["level"] else []
        assert holds(stated, along["near_kind"].strip(), along["end"], held, m), text
        across = ACROSS.search(lies)
        if across:
            kind = re.sub("^.*?(end|edge|show face|back face)$", r"\1", across["side"])
            value = float(across["mm"]) * (1.0 if across["way"] == "from" else -1.0)
            assert holds([value], kind, across["edge"], held, m), text


def test_a_wrong_side_or_distance_is_seen() -> None:
    m, sentences = told("harvest-bench")
    step, text = next(s for s in sentences if s[1].startswith("Apron D on leg A"))
    held = tuple(pairs(m, step, text))
    away = float(re.search(r"show face ([\d.]+) mm from its front edge", text)[1])  # type: ignore[index]  # a sentence by hand
    assert holds([away], "show face", "front", held, m)
    assert not holds([away + 1.0], "show face", "front", held, m)
    assert not holds([away], "back face", "front", held, m)
    assert not holds([away], "show face", "rear", held[:1], m)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_said_twice(name: str) -> None:
    _, sentences = told(name)
    for step in {step.key for step, _ in sentences}:
        texts = [text for s, text in sentences if s.key == step]
        assert len(texts) == len(set(texts))


def test_what_one_sentence_leaves_open_another_says() -> None:
    """A slat over a rail's edge is placed along the rail and across it."""
    for name in NAMES:
        m, sentences = told(name)
        for step in {s.key: s for s, _ in sentences}.values():
            for place in places(m.assembly, step, m.mark_of):
                if place.face or place.across is not None:
                    continue
                keys = {(a, b) for a in place.part for b in place.base}
                again = [j for j in step.joints if len(set(j.parts) & set(place.part)) == 1]
                others = {frozenset(j.parts) for j in again} - {frozenset(k) for k in keys}
                known = [p for p in places(m.assembly, step, m.mark_of) if p is not place]
                said = {frozenset((a, b)) for p in known for a in p.part for b in p.base}
                held = any(set(place.part) <= body for body in step.together)
                assert held or not others or others & said, (name, place)
