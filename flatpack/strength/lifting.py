"""Being lifted by an end, and arm rests pressed down and out."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.geometry import Vec, X, Y, Z
from flatpack.model import Part
from flatpack.strength import joint_checks, member_checks
from flatpack.strength.crossing import VecPatch, bend_part
from flatpack.strength.joint_forces import shared
from flatpack.strength.layout import Link, is_across, is_deck, reach
from flatpack.strength.loading import Loading, Slats
from flatpack.strength.records import Case, Check
from flatpack.strength.rules import members as m
from flatpack.strength.setting import Setting
from flatpack.strength.supports import supports


def lifted(setting: Setting, deck: Slats) -> Iterator[Check]:
    """Half the weight, with its factors, at the middle of what is gripped at the head end."""
    loads = setting.loads
    force = setting.weight[0] / 2.0 * loads.gamma_dead * loads.lift_factor
    words = f"lifted by the end, half its weight times {loads.lift_factor:g}"
    factor = loads.gamma_dead * loads.lift_factor
    loading = Loading(case=Case("lift", words), factor=factor)
    for part in _grips(setting, deck):
        middle = part.length / 2.0 if is_across(part) and not is_deck(part) else part.length
        patch = VecPatch(middle, middle, Vec(0.0, 0.0, force / len(_grips(setting, deck))))
        bent = bend_part(setting, part, supports(setting, part), (patch,))
        if bent is None:
            yield member_checks.unknown(setting, part)
            continue
        yield from member_checks.checks_of(setting, bent, loading)
        for support, down in bent.borne:
            if support.link is not None:
                sign = 1.0 if support.link.first == part.key else -1.0
                way = Vec(sign * down.x, sign * down.y, sign * down.z)
                yield from joint_checks.checks_of(setting, shared(support.link, loading, way))


def _grips(setting: Setting, deck: Slats) -> list[Part]:
    """The end rail at the far end, or where there is none the outermost slats' ends."""
    rails = [
        p
        for p in setting.assembly.parts.values()
        if p.key.startswith("end-rail") and is_across(p) and not is_deck(p)
    ]
    if rails:
        return [max(rails, key=lambda p: reach(p, X)[1])]
    return [deck.parts[0], deck.parts[-1]]


def arm_rests(setting: Setting) -> Iterator[Check]:
    """An arm rest pressed down in the middle of its free length, and its post pushed outwards."""
    loads = setting.loads
    for part in setting.assembly.parts.values():
        level = abs(part.frame.z.dot(Z)) > 0.99 and part.group == "frame"
        if not (level and part.key.startswith("arm-") and not is_across(part)):
            continue
        held = [k for k in setting.links if part.key in (k.first, k.second)]
        down = loads.arm_down * loads.gamma_live
        if down > 0.0 and len(held) >= 2:
            yield from _pressed(setting, part, held, down)
        out = loads.arm_out * loads.gamma_live
        if out > 0.0:
            yield from _pushed(setting, part, held, out)


def _pressed(setting: Setting, part: Part, held: list[Link], down: float) -> Iterator[Check]:
    loading = Loading(case=Case("arm down", f"arm rest pressed down, {down / 1.5:.0f} N"))
    at = sorted((_place(part, k), k.other(part.key), k) for k in held)
    from flatpack.strength.supports import Support

    stands = tuple(Support(place, other, link) for place, other, link in at)
    middle = (stands[0].place + stands[-1].place) / 2.0
    patch = VecPatch(middle, middle, Vec(0.0, 0.0, -down))
    bent = bend_part(setting, part, stands, (patch,))
    if bent is None:
        yield member_checks.unknown(setting, part)
        return
    yield from member_checks.checks_of(setting, bent, loading)
    for support, force in bent.borne:
        if support.link is not None:
            sign = 1.0 if support.link.first == part.key else -1.0
            way = Vec(sign * force.x, sign * force.y, sign * force.z)
            yield from joint_checks.checks_of(setting, shared(support.link, loading, way))


def _place(part: Part, link: Link) -> float:
    xs = [part.frame.local(f.start).x for f in link.fasteners]
    return min(max(sum(xs) / len(xs) - part.outline.bounds[0], 0.0), part.length)


def _pushed(setting: Setting, part: Part, held: list[Link], out: float) -> Iterator[Check]:
    """The arm's post as a cantilever bent flat from its topmost bolt, half the push each end."""
    loading = Loading(case=Case("arm out", f"arm rest pushed outwards, {out / 1.5:.0f} N"))
    for link in held:
        post = setting.part(link.other(part.key))
        root = [
            max(f.start.z for f in k.fasteners)
            for k in setting.links
            if post.key in (k.first, k.second) and part.key not in (k.first, k.second)
            and setting.part(k.other(post.key)).key.startswith("leg")
        ]  # fmt: skip
        stuff = setting.stuff(post)
        if not root or stuff.row is None:
            continue
        lever = max(reach(post, Z)[1] - max(root), 0.0)
        moment = out / 2.0 * lever
        values = stuff.bent(stuff.row, post.thickness, True)
        two = [(m.bending_stress(moment, post.width * post.thickness**2 / 6.0), values.bending)]
        yield member_checks.bending(setting, post, two, loading)
        side = Vec(0.0, out / 2.0 if reach(part, Y)[0] > 0.0 else -out / 2.0, 0.0)
        yield from joint_checks.checks_of(setting, shared(link, loading, side))
