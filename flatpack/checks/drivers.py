"""A straight path for the driver to every screw and bolt, at the step when it is driven.

What stands in the way is what is joined to the fastener's own parts by then: parts and bars that
joints of this step or an earlier one tie to them, directly or through others, and hardware of
earlier steps on those parts.  A frame made on its own on the bench is in nobody's way.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.body import Body
from flatpack.checks.broad import boxes, meeting
from flatpack.checks.narrow import shared
from flatpack.checks.setting import Setting
from flatpack.finding import Finding
from flatpack.geometry.shapes import disc
from flatpack.model import Assembly, Driver, Fastener, axis_frame


def check_drivers(setting: Setting) -> Iterator[Finding]:
    """One finding for each fastener and each body that blocks its driver."""
    tied = Tied(setting.assembly)
    paths = [
        (f, _path(f, driver, number))
        for f in setting.assembly.fasteners
        for number, driver in enumerate(f.drivers, 1)
    ]
    standing = [(setting.fasteners.get(body.owner), body) for body in setting.bodies]
    if not paths:
        return
    r = setting.limits.driver.value / 2.0
    told: set[tuple[str, str]] = set()
    pairs = meeting(boxes([p for _, p in paths], r), boxes(setting.bodies, r))
    for i, j in pairs.tolist():
        (f, path), (owner, body) = paths[i], standing[j]
        pair = f.key, body.owner
        if pair in told or not _in_the_way(tied, f, owner, body):
            continue
        if shared(path, body, r) is not None:
            told.add(pair)
            yield _blocked(setting, f, body)


def _path(f: Fastener, driver: Driver, number: int) -> Body:
    frame = axis_frame(driver.start, driver.direction)
    return Body(f.key, f"driver {number}", frame, disc(driver.radius), 0.0, driver.length)


def _in_the_way(tied: Tied, f: Fastener, owner: Fastener | None, body: Body) -> bool:
    """True when the body is there at the fastener's step and isn't meant to be passed."""
    if body.owner == f.key or body.owner in f.passes or body.owner in f.inside:
        return False
    home = _home(tied, f)
    if owner is None:
        return tied.by(f.step, body.owner) == tied.by(f.step, home)
    if owner.joint == f.joint or tied.order(owner.step) >= tied.order(f.step):
        return False
    return tied.by(f.step, _home(tied, owner)) == tied.by(f.step, home)


def _home(tied: Tied, f: Fastener) -> str:
    """A part that the fastener is in; of one that passes none, a part of its joint."""
    return f.passes[0] if f.passes else tied.joint_part.get(f.joint, f.key)


def _blocked(setting: Setting, f: Fastener, body: Body) -> Finding:
    return Finding(
        "driver-blocked", "fault", f"{f.key} / {body.owner}",
        f"no straight way for the driver to {f.item.lower()} {f.key} "
        f"at step {_step(setting, f)}: {body.name} is there",
        None, None, "mm", setting.limits.driver.source,
        "make this joint at an earlier step, or move the screw",
    )  # fmt: skip


def _step(setting: Setting, f: Fastener) -> str:
    """A step by its title, where that says more than its key."""
    title = next((s.title for s in setting.assembly.steps if s.key == f.step), "")
    return f"'{title}'" if title and title != f.step else f.step or "one"


class Tied:
    """Which parts hang together at each step."""

    def __init__(self, assembly: Assembly) -> None:
        """Note the order of steps: as the piece lists them, else as joints come."""
        steps = [s.key for s in assembly.steps] or [j.step for j in assembly.joints]
        self._order = {key: number for number, key in reversed(list(enumerate(steps)))}
        self._joints = assembly.joints
        self._groups: dict[str, dict[str, str]] = {}
        self.joint_part = {j.key: j.parts[0] for j in assembly.joints if j.parts}

    def order(self, step: str) -> int:
        """Number of a step; one that isn't listed comes last."""
        return self._order.get(step, len(self._order))

    def by(self, step: str, key: str) -> str:
        """Name of the group that a part is in once this step is done."""
        if step not in self._groups:
            self._groups[step] = self._joined(self.order(step))
        return _root(self._groups[step], key)

    def _joined(self, last: int) -> dict[str, str]:
        over: dict[str, str] = {}
        for joint in self._joints:
            if self.order(joint.step) <= last:
                for key in joint.parts[1:]:
                    over[_root(over, key)] = _root(over, joint.parts[0])
        return {k: v for k, v in over.items() if k != v}


def _root(over: dict[str, str], key: str) -> str:
    while over.get(key, key) != key:
        key = over[key]
    return key
