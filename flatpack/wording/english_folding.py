"""What the sheet of a folding piece says."""

from __future__ import annotations

OPEN, FOLDED = "open", "folded flat"
VIEWS = {OPEN: "Open", FOLDED: "Folded flat, seat stowed"}
TITLE = "Open and folded"
PURPOSE = "side views open and folded flat, with what sets the legs' angle and what pinches"
HEADER = ("what", "how much")
ANGLE = "angle between the legs, stopped by the seat"
PER_MM = "angle gained by 1 mm more between the slots"
PULL = "pull in the seat, person of {mass:g} kg in its middle"
HELD = "spare before the bars leave their slots"
PASS = "rear bar past the inner legs' tops"
PINCH = "fingers: {first}, 7 to 18 mm from {second}"


def degrees(value: float) -> str:
    """To 0.1 degree."""
    return f"{value:.1f}°"


def newtons(value: float) -> str:
    """To 10 N."""
    return f"{round(value, -1):.0f} N"


def between(start: float, end: float) -> str:
    """From one angle of the legs to another."""
    return f"{start:.0f}° to {end:.0f}°"
