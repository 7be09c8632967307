"""English: every sentence that the sheets and the page of a moving back or lid print.

{panel} stands for what lifts and {rest} for how it lies at 0 degrees; `told` puts them in.
"""

from __future__ import annotations

from typing import Protocol

TITLE = "Moving {panel}"
STOPS_TYPE = "Stops of the moving {panel}"
CLOSE_TYPE = "Rod and notch at each stop"
SIDE = "Side, near side taken away"
FLAT = "{rest}"
HINGE = "hinge axis"
DASHED = "dashed: what stands before the rack"
PURPOSES = {
    "stops": "side view with every stop, notches from the rack's datum end",
    "close-ups": "rod and notch at 1:1, contact points and thrust",
    "stops-table": "every stop in numbers: angle, spread, thrust, margin",
    "page": "the {panel} moved on the screen, with its clearances; a strip of stops on paper",
}


class Lifted(Protocol):
    """What lifts, and how it lies at 0 degrees, in words."""

    @property
    def panel(self) -> str:
        """E.g. "back"."""

    @property
    def rest(self) -> str:
        """E.g. "flat"."""


def told(text: str, what: Lifted) -> str:
    """A sentence with the words for what lifts put in."""
    return text.format(panel=what.panel, Panel=what.panel.capitalize(), rest=what.rest)


# --- table --------------------------------------------------------------------------------------

STOPS_HEADER = (
    "stop", "notch", "angle wanted", "angle", "as made, low", "as made, high", "lean from upright",
    "headroom to upright", "rack left, x from datum end", "rack left, y from datum edge",
    "rack right, x from datum end", "rack right, y from datum edge", "thrust per arm N",
    "load N", "load from hinge", "margin", "margin as made", "friction needed", "drop if knocked",
    "falls to", "stays in a knock of 5", "remark",
)  # fmt: skip
SHORT_HEADER = (
    ("stop", "notch", "wanted", "angle", "as made", "lean", "head-", "rod x", "rod y", "thrust",
     "margin", "if knocked"),
    ("", "", "°", "°", "°", "°", "room °", "datum end", "edge", "N an arm", "°", "drops °, to"),
)  # fmt: skip
YES, NO, NEVER = "yes", "no", "no limit"


def joined(first: str, second: str) -> str:
    """The two lines of a column's head in one; a word parted between them is whole again."""
    return f"{first} {second}".strip().replace("- ", "")


def stops_title(force: str, along: str, panel: str) -> str:
    """Title of the table of stops."""
    return f"Stops under {force} N square into the {panel}, {along} from the hinge axis"


def as_made(tolerance: str) -> str:
    """What "as made" means."""
    return f"as made: hinge, pivot, arm, notches and racks each up to {tolerance} mm off"


def passed(reason: str, amount: str) -> str:
    """Why a notch gives no stop."""
    return f"no stop: {reason}, by {amount}"


def no_stop(number: int, reason: str, amount: str) -> str:
    """A notch that gives no stop, named."""
    return f"notch {number or '-'}: {passed(reason, amount)}"


# --- sheets -------------------------------------------------------------------------------------


def stop_label(number: int, angle: str) -> str:
    """Beside a back in thin line."""
    return f"{number}: {angle}°"


def hands_alike(alike: bool) -> str:
    """What the dimensions along the rack are measured from."""
    tail = "left and right alike" if alike else "L left, R right rack"
    return f"rods' centres from the racks' datum ends: {tail}"


def hand_letter(hand: str) -> str:
    """Short name of a hand."""
    return {"left": "L", "right": "R"}.get(hand, "")


def close_title(number: int, notch: int, angle: str) -> str:
    """Over a close-up."""
    return f"Stop {number}, notch {notch or '-'}: {angle}°"


def faces_touched(count: int) -> str:
    """How many faces of the notch the rod touches."""
    return "touches 1 face" if count == 1 else f"touches {count} faces"


def thrust(newton: str) -> str:
    """Thrust in one arm."""
    return f"thrust {newton} N an arm"


def margin(degrees: str, held: bool) -> str:
    """Angle from the reaction to the edge of the cone of normals."""
    return f"margin {degrees}°" if held else f"outside by {degrees}°: not held"


def face_force(number: int, newton: str) -> str:
    """Force on a contact point."""
    return f"{number}: {newton} N"


CLOSE_NOTES = (
    "Full size: the rod's circle lies on the rod, the notch on the notch.",
    "Arrow: thrust of one arm. Dots: where the rod touches; the force on each is in newtons.",
    "Long dashes: outermost normals of the faces touched. The rod holds without",
    "friction while the arm lies between them; the arc is the margin in degrees.",
    "Dashed circle: where the rod rests without load.",
)

# --- page ---------------------------------------------------------------------------------------

MOVE = "Move the {panel}"
SLIDER = "Position along the whole travel"
SLIDER_HELP = (
    "Arrow keys go a step, Page Up and Page Down ten; Home is {rest}, End folded down again."
)
GO_TO = "Go to"
BACK_ANGLE, ROD_STATE, NEAREST = "{Panel}", "Rod", "Nearest pair"
CLEARANCES = "Clearances at this position"
CLEARANCE_HEADER = ("pair", "gap here, mm", "least on the whole travel, mm", "at")
NEAREST_MARK = "nearest"
OVERLAP = "overlap"
STRIP = "All stops"
PICTURE = "Side view; the ring shows where the nearest pair comes closest."
ALL_FAR = "No pair comes near on the whole travel."
STATES = {
    "flat": "{rest}, rod folded",
    "raising": "dragged along the rack while the {panel} rises",
    "dropping": "drops past a tooth",
    "seating": "slides into its notch as the {panel} leans on it",
    "lifting": "lifted by hand over the teeth",
    "lowering": "carried by hand above the teeth while the {panel} comes down",
    "settling": "let down to its folded place",
}
CAUTIONS = (
    "Keep fingers out of the hinge joint, the rack and the arms while the {panel} moves; keep "
    "children away.",
    "To lower, hold the {panel}'s weight with one hand before lifting the rod with the other.",
    "Sizes in millimetres, angles in degrees. The left half is shown; the right is its mirror "
    "image.",
)


def at_stop(number: int, notch: int) -> str:
    """State of the rod at a stop."""
    return f"resting at stop {number}, in notch {notch or '-'}"


def stop_button(number: int, angle: str) -> str:
    """Button of a stop."""
    return f"stop {number}, {angle}°"


def picture_of(name: str) -> str:
    """What a picture of the strip shows."""
    return f"Side view of the piece, {name}"


def spread(low: str, high: str) -> str:
    """Range of a stop's angle as made."""
    return f"{low}° to {high}° as made"


def rod_place(x: str, y: str) -> str:
    """Where the rod lies on its rack."""
    return f"rod's centre {x} from the rack's datum end, {y} up"


def to_lower(degrees: str, lift: str, panel: str) -> str:
    """How to let go of a stop."""
    return f"to lower: raise the {panel} by {degrees}°, then lift the rod by {lift} mm"


NO_RELEASE = "to lower: the rod doesn't come free within 30° above this stop"


def at_angle(degrees: str, doing: str) -> str:
    """Where on the travel a gap is least."""
    return f"{degrees}°, {doing}"


DOING = {
    "raising": "raising", "dropping": "raising", "lifting": "lifting", "lowering": "lowering",
    "settling": "lowered",
}  # fmt: skip


def sheet_place(number: int, count: int) -> str:
    """Number of a sheet among its kind."""
    return f"{number}/{count}"
