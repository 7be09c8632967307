"""Joints with a single screw, and what no load case reaches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from flatpack.strength.layout import Link, is_side
from flatpack.strength.records import EC5, Check
from flatpack.strength.setting import Setting

TWO_SCREWS = 10.0
"""Width that two screws need side by side across the grain, diameters."""


def alone(setting: Setting) -> Iterator[Check]:
    """Screwed joints with one screw only, about which a part can turn unless it is glued too."""
    made = {f.joint for f in setting.assembly.fasteners}
    glued = {
        key for joint in setting.assembly.joints if joint.key not in made for key in joint.parts
    }
    for link in setting.links:
        if link.first in glued or link.second in glued:
            continue
        if len(link.fasteners) == 1 and "screw" in link.fasteners[0].kind:
            narrow = _narrow(setting, link)
            why = f"1 screw, and {narrow} is too narrow for two" if narrow else ""
            for joint in link.joints:
                yield Check(
                    joint, "joint", "one screw", "every case", None if narrow else 2.0,
                    "1 screw of at least 2",
                    "8.3.1, at least two nails in a joint (from memory)", EC5, why,
                )  # fmt: skip


def _narrow(setting: Setting, link: Link) -> str:
    """The part that can't take two screws side by side: 3 d + 4 d + 3 d of table 8.2, drilled."""
    needs = TWO_SCREWS * link.fasteners[0].diameter
    found = [p for p in (setting.part(link.first), setting.part(link.second)) if p.width < needs]
    return found[0].name.lower() if found else ""


def untouched(setting: Setting, checks: Iterable[Check], parts: Iterable[str]) -> Iterator[Check]:
    """Parts and joints that no case reaches: not judged."""
    seen = {(c.kind, c.subject) for c in checks}
    for joint in setting.assembly.joints:
        if ("joint", joint.key) not in seen:
            why = "no load case strains it, or it is only glued"
            yield Check(joint.key, "joint", "loads", "none", None, "", "", EC5, why)
    for key in parts:
        if ("part", key) not in seen:
            side = key in setting.assembly.parts and is_side(setting.part(key))
            why = "held by a single fastener" if side else "no load case strains it"
            yield Check(key, "part", "loads", "none", None, "", "", EC5, why)
