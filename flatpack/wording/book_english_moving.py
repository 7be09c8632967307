"""English: the build book's sentences of what moves, a back or a lid."""

from __future__ import annotations

MOVING = (
    "The rod that joins the arms drops into a notch on each side. Angles are from {rest}; the "
    "'as made' column is how far they may be off when every place is off by {off}."
)
STOPS_CAPTION = "Stops"
STOPS_HEADER = (
    "notch", "angle", "as made", "rod's middle from the hinge axis", "from the rack's datum end",
)  # fmt: skip
USE = (
    "Raise: lift the {panel} by its free edge; the rod climbs each ramp and drops into the next "
    "notch. Let go only when it sits in its notch on both sides.",
    "Lower: one hand on the middle of the {panel}'s free edge. Raise that edge by about {edge} "
    "({turn}) until the rod is off its seat. With the other hand take the rod in the middle, lift "
    "it above the notches, hold it up and let the {panel} down slowly, never let it fall. Keep "
    "fingers off the ends of the rod and off the racks.",
    "Nothing holds the {panel} above its highest notch ({most}): don't push it further.",
    "{Rest}: the {panel} lies on its frame, not on the rod.",
)
BACK = (
    "Raise: lift the back by its top edge; the rod climbs each ramp and drops into the next notch. "
    "Lean back only when it sits in its notch on both sides.",
    "Lower: stand beside the back, one hand on the middle of its top edge. Raise that edge by "
    "about {edge} ({turn}) until the rod is off its seat. With the other hand take the rod in the "
    "middle, "
    "lift it above the notches, hold it up and let the back down. Keep fingers off the ends of the "
    "rod and off the racks.",
    "Nothing holds the back above its highest notch ({most}): don't push it further.",
    "Flat: the back lies on its frame, not on the rod.",
)
USES = {"back": BACK}
TRY = (
    "Before first use: try every notch empty, then with a hand's push, and measure each angle. "
    "Both ends of the rod must seat; if one rides up, the racks don't stand in line."
)


def degrees(value: float) -> str:
    """An angle."""
    return f"{value:.1f}°".replace(".0°", "°")


def spread(low: float, high: float) -> str:
    """Angles as made."""
    return f"{degrees(low)} to {degrees(high)}"
