"""A hinged back, its prop and rack: seats, stops, design, holds, tolerances and motion.

`prop` has the circles, `locus` the rod's path over a rack, `seats` and `stops` where it rests and
at which angle; `design`, `pitch` and `as_made` go the other way, from angles to notches; `faults`
and `remedies` judge a `plan`; `hold`, `ridges` and `tolerance` say whether a stop can be trusted.
"""

from flatpack.mechanism.as_made import AsMade, Resolved, as_built, resolve
from flatpack.mechanism.design import Design, Placed, notches_for, worked
from flatpack.mechanism.hold import FaceForce, Hold, Load, hold
from flatpack.mechanism.locus import locus, traced
from flatpack.mechanism.notches import Kind, NotchForm, cut, play, rack_contour, seat_of
from flatpack.mechanism.pitch import EvenPitch, design_even_pitch
from flatpack.mechanism.plan import Fault, Plan, Problem, Remedy, Room, changed
from flatpack.mechanism.prop import Prop, angle_at, angles_at, pivot_at, rod_at, upright
from flatpack.mechanism.remedies import designed
from flatpack.mechanism.ridges import Knock, Ridge, knock
from flatpack.mechanism.seats import Loaded, Rack, Seat, laid, loaded_seat, seats
from flatpack.mechanism.stops import Passed, Stop, Stops, Unreached, stops
from flatpack.mechanism.tolerance import Spread, Tolerance, spreads

__all__ = [
    "AsMade",
    "Design",
    "EvenPitch",
    "FaceForce",
    "Fault",
    "Hold",
    "Kind",
    "Knock",
    "Load",
    "Loaded",
    "NotchForm",
    "Passed",
    "Placed",
    "Plan",
    "Problem",
    "Prop",
    "Rack",
    "Remedy",
    "Resolved",
    "Ridge",
    "Room",
    "Seat",
    "Spread",
    "Stop",
    "Stops",
    "Tolerance",
    "Unreached",
    "angle_at",
    "angles_at",
    "as_built",
    "changed",
    "cut",
    "design_even_pitch",
    "designed",
    "hold",
    "knock",
    "laid",
    "loaded_seat",
    "locus",
    "notches_for",
    "pivot_at",
    "play",
    "rack_contour",
    "resolve",
    "rod_at",
    "seat_of",
    "seats",
    "spreads",
    "stops",
    "traced",
    "upright",
    "worked",
]
