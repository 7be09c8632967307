"""Letting every joint work its parts: the one place where features and hardware come from."""

from __future__ import annotations

from collections import Counter

from flatpack.frozen import replace
from flatpack.geometry import Outline
from flatpack.geometry.recess import recessed
from flatpack.geometry.relief import relieved
from flatpack.model import Assembly, Fastener, Feature, Fit, Hardware, Part, Recess, Working


def machine(assembly: Assembly) -> Assembly:
    """The piece with all joints made: features in the parts, fasteners, hardware, workings.

    Raises:
        ValueError: two joints share a key, or a joint names a part that doesn't exist (a bug).
    """
    worked: dict[str, list[Feature]] = {key: [] for key in assembly.parts}
    fasteners: list[Fastener] = []
    mates: list[tuple[str, str]] = []
    loose: list[Hardware] = []
    workings: list[Working] = []
    fits: list[Fit] = []
    shaped: dict[str, list[Recess]] = {}
    opened: dict[str, list[Outline]] = {}
    seen: set[str] = set()
    for joint in assembly.joints:
        if joint.key in seen:
            raise ValueError(f"two joints are called {joint.key}")
        seen.add(joint.key)
        made = joint.machine(assembly)
        for key, feature in made.features:
            worked[key].append(feature)
        fasteners += made.fasteners
        mates += made.mates
        loose += made.hardware
        workings += [w for w in made.workings if w not in workings]
        fits += made.fits
        for key, recess in made.recesses:
            shaped.setdefault(key, []).append(recess)
        for key, opening in made.openings:
            opened.setdefault(key, []).append(opening)
    parts = {
        key: _shaped(part, shaped.get(key, []), opened.get(key, [])).with_features(
            tuple(worked[key])
        )
        for key, part in assembly.parts.items()
    }
    return replace(
        assembly,
        parts=parts,
        fasteners=(*assembly.fasteners, *fasteners),
        mates=(*assembly.mates, *mates),
        hardware=bill(fasteners, (*assembly.hardware, *loose)),
        workings=(*assembly.workings, *workings),
        fits=(*assembly.fits, *fits),
        machined=True,
    )


def _shaped(part: Part, recesses: list[Recess], openings: list[Outline]) -> Part:
    """The part with slots and tenons in its outline, and openings.

    One that finds no edge to stand on is left out: the check of fits then misses it.
    """
    if not recesses and not openings:
        return part
    outline = part.outline
    for one in recesses:
        made = recessed(outline, one.mouth, one.inward, one.width, one.depth)
        if made is None:
            continue
        outline = made.outline
        if one.relief is not None:
            radius, sided = one.relief
            outline = relieved(outline, radius, one_sided=sided, only=made.hollow).outline
    # In the order of their places, so that parts alike are alike whatever joint came first.
    opened = sorted(openings, key=lambda one: one.bounds)
    return replace(part, outline=outline, openings=(*part.openings, *opened))


def bill(fasteners: list[Fastener], loose: tuple[Hardware, ...]) -> tuple[Hardware, ...]:
    """Bought items counted by name and size, with every use once, in alphabetical order."""
    counts: Counter[tuple[str, str]] = Counter()
    uses: dict[tuple[str, str], list[str]] = {}
    for item in (*(h for f in fasteners for h in f.hardware), *loose):
        counts[item.item, item.size] += item.pieces
        known = uses.setdefault((item.item, item.size), [])
        if item.use and item.use not in known:
            known.append(item.use)
    return tuple(
        Hardware(name, size, counts[name, size], "; ".join(uses[name, size]))
        for name, size in sorted(counts)
    )
