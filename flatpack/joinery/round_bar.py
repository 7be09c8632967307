"""A round bar in holes: the prop rod in its arms, an axle with its wheels."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.joinery.axis import bore
from flatpack.model import Assembly, Fastener, Feature, Hardware, Machining, cylinder
from flatpack.profiles import Wheel

FITS = {"fixed": 0.2, "free": 0.6}
"""Play of a round bar in a hole in wood, mm: glued or pinned, or free to turn (common practice,
no source)."""


@frozen
class BarInHoles:
    """The bar `bar` runs through a hole in each of `holders`; `fit` is 'fixed' or 'free'."""

    key: str
    step: str
    bar: str
    holders: tuple[str, ...]
    fit: str = "fixed"
    play: float | None = None
    use: str = ""

    @property
    def parts(self) -> tuple[str, ...]:
        """The bar and the parts that hold it."""
        return (self.bar, *self.holders)

    def words(self) -> str:
        """How it is made."""
        if self.fit == "fixed":
            return "glue the rod in its holes, arms in one plane on a flat bench"
        return "leave free to turn; wax, no glue"

    def machine(self, assembly: Assembly) -> Machining:
        """A hole in each holder."""
        bar = assembly.bars[self.bar]
        play = FITS[self.fit] if self.play is None else self.play
        features: list[tuple[str, Feature]] = [
            (
                key,
                bore(
                    assembly.parts[key],
                    bar.frame.origin,
                    bar.frame.z,
                    diameter=bar.stock.diameter + play,
                    depth=None,
                    fit=f"rod {self.fit} in wood",
                    purpose=f"{bar.name}, {self.fit}",
                ),
            )
            for key in self.holders
        ]
        return Machining(tuple(features))


@frozen
class WheelsOnAxle:
    """A wheel on each end of the axle `bar`, each held by a push-on cap.

    `inner` is the distance along the axle from each end to the wheel hub's inner face.
    """

    key: str
    step: str
    bar: str
    wheel: Wheel
    inner: float

    @property
    def parts(self) -> tuple[str, ...]:
        """The axle."""
        return (self.bar,)

    def words(self) -> str:
        """How it is made."""
        return f"two wheels on the axle, washer each side, cap knocked on: {self.wheel.name}"

    def machine(self, assembly: Assembly) -> Machining:
        """No holes: the two wheels as bodies, their washers and caps as hardware."""
        bar = assembly.bars[self.bar]
        wheels = []
        for number in (1, 2):
            away = bar.frame.z if number == 2 else bar.frame.z.negated()
            end = bar.frame.origin.plus(bar.frame.z, bar.length if number == 2 else 0.0)
            hub = (self.wheel.hub_width - self.wheel.width) / 2.0
            inside = end.plus(away, -self.inner + hub)
            name = f"{self.key}/{number}"
            wheels.append(
                Fastener(
                    key=name,
                    kind="wheel",
                    item=self.wheel.name,
                    size=f"Ø{self.wheel.diameter:g} x {self.wheel.width:g}",
                    start=inside,
                    direction=away,
                    length=self.wheel.width,
                    diameter=self.wheel.diameter,
                    passes=(),
                    inside=(self.bar,),
                    solids=(
                        cylinder(name, inside, away, self.wheel.diameter / 2.0, self.wheel.width),
                    ),
                    hardware=(
                        Hardware(self.wheel.name, f"Ø{self.wheel.diameter:g}", 1, "axle"),
                        Hardware("Axle cap", f"Ø{bar.stock.diameter:g}", 1, "axle end"),
                        Hardware("Axle washer", f"Ø{bar.stock.diameter:g}", 2, "each side"),
                    ),
                    step=self.step,
                    joint=self.key,
                )
            )
        return Machining((), tuple(wheels))
