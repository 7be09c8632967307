"""Round bars in holes, and wheels on their ends."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flatpack.joinery import BarInHoles, WheelsOnAxle
from flatpack.model import Bar, Joint, Part
from flatpack.pieces.composed.joint_makers import Bench


def bars(
    bench: Bench, p: Any, key: str, step: str, ends: tuple[list[Part | Bar], list[Part | Bar]]
) -> Iterator[Joint]:
    """Each round bar in a hole in every part that its axis runs into.

    Raises:
        StuckError: one is no round bar, or meets none of the parts.
    """
    for bar in ends[0]:
        if not isinstance(bar, Bar):
            raise bench.layout.faults.stop(
                f"{key}.through", bar.key, 'a part of shape "round bar"', "no round bar"
            )
        holders = tuple(h.key for h in ends[1] if isinstance(h, Part) and _passes(bar, h))
        if not holders:
            names = ", ".join(h.key for h in ends[1])
            raise bench.layout.faults.stop(
                key, bar.key, "parts that it runs into", f"it doesn't run into {names}"
            )
        yield BarInHoles(
            key=bench.name(bar.key, holders[0]), step=step, bar=bar.key, holders=holders,
            fit=p.fit, use=p.use,
        )  # fmt: skip


def _passes(bar: Bar, part: Part) -> bool:
    """Whether a bar's axis runs through a part's box."""
    start = part.frame.local(bar.frame.origin)
    way = part.frame.local_direction(bar.frame.z)
    x0, y0, x1, y1 = part.outline.bounds
    low, high = 0.0, bar.length
    for at, go, least, most in (
        (start.x, way.x, x0, x1), (start.y, way.y, y0, y1), (start.z, way.z, 0.0, part.thickness),
    ):  # fmt: skip
        if abs(go) < 1e-9:
            if not least < at < most:
                return False
            continue
        ends = sorted(((least - at) / go, (most - at) / go))
        low, high = max(low, ends[0]), min(high, ends[1])
    return high - low > 1e-6


def wheels(bench: Bench, p: Any, key: str, step: str, axles: list[Part | Bar]) -> Iterator[Joint]:
    """Wheels on the ends of round bars.

    Raises:
        StuckError: one is no round bar.
    """
    for bar in axles:
        if not isinstance(bar, Bar):
            raise bench.layout.faults.stop(
                f"{key}.through", bar.key, 'a part of shape "round bar"', "no round bar"
            )
        inner = bench.layout.length(p.inner, f"{key}.inner")
        wheel = bench.layout.profiles.wheel(p.wheel)
        yield WheelsOnAxle(
            key=bench.name(bar.key, "wheels"), step=step, bar=bar.key, wheel=wheel, inner=inner
        )
