"""Racking of a piece with two sides: a person on it pushes across, the frame alone resists.

The frame is what stands, the sides' parts that it holds, and what is fastened across them on edge;
slats on top, which brace it too, are left out (on the safe side), so that few parts are looked at
in space.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.frozen import replace
from flatpack.geometry import Vec, Z
from flatpack.strength import tilting, whole_joints, whole_members
from flatpack.strength.frames import UnstableError
from flatpack.strength.layout import is_across, is_deck, is_side, middle, reach
from flatpack.strength.loading import Loading, Slats
from flatpack.strength.meeting import feet_of
from flatpack.strength.records import EC5, Case, Check
from flatpack.strength.setting import Setting
from flatpack.strength.sides import side_links
from flatpack.strength.use_cases import Use, own_weight
from flatpack.strength.whole import Push, whole
from flatpack.strength.whole_solving import solved

WORDS = "one person in the middle, pushing {share:.0%} of it across"


def checks_of(setting: Setting, deck: Slats) -> Iterator[Check]:
    """Checks of the frame's parts and joints when it is pushed across."""
    bare = _frame(setting)
    tilting.share(setting, bare)
    use = _case(bare, setting, deck)
    own = own_weight(bare, setting.loads.gamma_dead)
    places: dict[str, list[Vec]] = {}
    for push in (*own, *use.pushes):
        places.setdefault(push.part, []).append(push.place)
    frame = whole(bare, places)
    if frame is None:
        return
    try:
        states = solved(frame, (use,), own)
    except UnstableError:
        why = "without its slats, which aren't counted, the frame falls over sideways"
        yield Check("piece", "piece", "racking", use.loading.case.words, None, "", "5.4", EC5, why)
        return
    checks, _ = whole_members.checks_of(bare, frame, states)
    yield from checks
    yield from whole_joints.checks_of(bare, states)


def case(setting: Setting) -> Case:
    """The case in words."""
    return Case("sway across", WORDS.format(share=setting.loads.sway_share))


def _frame(setting: Setting) -> Setting:
    """The sides, and what is fastened across them on edge, with the joints between them."""
    across = {
        p.key
        for p in setting.assembly.parts.values()
        if p.group == "frame" and is_across(p) and not is_deck(p)
    }
    standing = {k for k, p in setting.assembly.parts.items() if feet_of(p)}
    sides = {
        k
        for link in side_links(setting)
        if {link.first, link.second} & standing
        for k in (link.first, link.second)
    }
    kept = {k: p for k, p in setting.assembly.parts.items() if k in sides | across}
    fasteners = tuple(
        f for f in setting.assembly.fasteners if f.passes and all(k in kept for k in f.passes)
    )
    made = {f.joint for f in fasteners}
    joints = tuple(j for j in setting.assembly.joints if j.key in made)
    bare = replace(
        setting.assembly, parts=kept, bars={}, fasteners=fasteners, joints=joints, motion=None
    )
    return Setting(bare, setting.profiles, setting.loads, setting.grades)


def _case(bare: Setting, setting: Setting, deck: Slats) -> Use:
    """The person's weight and push, shared by the longest part of each side, at its upper edge."""
    loads = setting.loads
    sides = [p for p in bare.assembly.parts.values() if is_side(p)]
    y = sum(deck.across) / 2.0
    rails = [
        max((p for p in sides if (middle(p).y > y) == right), key=lambda p: (p.length, p.key))
        for right in (False, True)
        if any((middle(p).y > y) == right for p in sides)
    ]
    size = setting.person * loads.gamma_live / len(rails)
    force = Vec(0.0, loads.sway_share * size, -size)
    pushes = tuple(Push(p.key, Vec(middle(p).x, middle(p).y, reach(p, Z)[1]), force) for p in rails)
    loading = Loading(case=case(setting), factor=loads.gamma_live)
    return Use(loading=loading, pushes=pushes)
