"""The whole piece: parts and bars in place, joints, and what the joints brought along."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple, Protocol

from flatpack.finding import Finding
from flatpack.frozen import field, frozen
from flatpack.geometry import Outline, Point, Segment, Vec
from flatpack.geometry.relief import Relief
from flatpack.model.folding import Folding
from flatpack.model.part import Bar, Feature, Group, Part
from flatpack.model.solid import Solid

Bearing = Literal["", "lying", "standing", "opening"]
"""How somebody uses the piece, which names its ends and hands: sits on it facing its front, lies
on it with the feet to its foot end, or stands before it (a table, a box).  "opening": stands before
it and lifts its lid; its front is then where x grows, since a lid's hinge lies at low x."""
ComfortKind = Literal[
    "seat height", "seat depth", "seat slope", "back angle", "arm height", "table height",
    "knee room", "knee depth", "seat to table",
]  # fmt: skip
"""Back angle: between seat and back.  Arm height: above the seat.  Knee room and depth: height and
depth free under the apron.  Seat to table: from the seat up to the table's top."""


class Working(NamedTuple):
    """How a derived dimension came about: `sum` is the arithmetic in words and numbers."""

    name: str
    value: float
    sum: str
    unit: str = "mm"


class Hardware(NamedTuple):
    """A bought item: what it is called in the list, its size as sold, and how many."""

    item: str
    size: str
    pieces: int
    use: str


class Driver(NamedTuple):
    """The straight room that a driver, bit or socket needs: from `start` along `direction`."""

    start: Vec
    direction: Vec
    radius: float
    length: float


@frozen
class Fastener:
    """One screw, bolt, nut set, hinge or wheel in place.

    `start` and `direction` are its axis (start under the head, towards the tip) in the piece.
    `passes` are the parts that its axis runs through, head side first; `inside` are those in
    which its body may lie (thread in wood, neck, pocket), so that sharing their room is meant.
    `threads` is the last part when it holds by its thread.  `bite` is the length held there,
    `tip_cover` the wood left over the tip, `tip_end` how far the tip stands from that part's
    nearest edge or end, all mm, None where they don't apply.
    """

    key: str
    kind: str
    item: str
    size: str
    start: Vec
    direction: Vec
    length: float
    diameter: float
    passes: tuple[str, ...]
    inside: tuple[str, ...] = ()
    solids: tuple[Solid, ...] = ()
    drivers: tuple[Driver, ...] = ()
    hardware: tuple[Hardware, ...] = ()
    step: str = ""
    group: Group = "frame"
    bite: float | None = None
    tip_cover: float | None = None
    tip_end: float | None = None
    joint: str = ""


class Recess(NamedTuple):
    """A slot cut in a part's edge (`depth` > 0), or a tenon left standing on it (`depth` < 0).

    `mouth` is the middle of the edge that it stands on, `inward` the unit vector into the part,
    both in the part's own axes.  Its hollow corners are eased as `relief` says; None: left square.
    """

    mouth: Point
    inward: Point
    width: float
    depth: float
    relief: Relief | None


Hold = Literal["", "press", "glue", "wedge"]
"""What keeps two parts from parting again the way they came: nothing but others, a tight fit,
glue, or a wedge's friction."""


class Fit(NamedTuple):
    """How a part goes home in another: it slides along `direction`, held sideways by the joint.

    `across` are the directions (both ways) in which it has `clearance` in all, mm; negative where
    it is pressed in.  `slope` is a wedge's taper, width over length; 0 for any other part.
    `tongues` are those of the two that go through the other.  After `travel` mm it is free and can
    be taken away any other way; 0: it must come from afar.
    """

    joint: str
    part: str
    onto: str
    direction: Vec
    across: tuple[Vec, ...]
    clearance: float
    hold: Hold = ""
    slope: float = 0.0
    tongues: tuple[str, ...] = ()
    travel: float = 0.0


class Machining(NamedTuple):
    """What a joint does: features per part, fasteners, and pairs of parts whose faces must meet.

    `recesses` and `openings` change outlines: of joints that hold without fasteners.
    """

    features: tuple[tuple[str, Feature], ...] = ()
    fasteners: tuple[Fastener, ...] = ()
    mates: tuple[tuple[str, str], ...] = ()
    hardware: tuple[Hardware, ...] = ()
    workings: tuple[Working, ...] = ()
    recesses: tuple[tuple[str, Recess], ...] = ()
    openings: tuple[tuple[str, Outline], ...] = ()
    fits: tuple[Fit, ...] = ()


class Joint(Protocol):
    """Joins parts: takes its position from their frames and machines matching features."""

    @property
    def key(self) -> str:
        """Unique name in the piece."""

    @property
    def step(self) -> str:
        """Assembly step at which it is made."""

    @property
    def parts(self) -> tuple[str, ...]:
        """Keys of the parts or bars that it joins."""

    def machine(self, assembly: Assembly) -> Machining:
        """Features, fasteners and mates, from the frames of the parts in `assembly`."""

    def words(self) -> str:
        """One line that says how it is made."""


class Step(NamedTuple):
    """One step of putting the piece together.

    `measures` are the beginnings of the names of the workings to measure at this step, `spacers`
    of the uses of the spacers and stop blocks that it needs.
    """

    key: str
    title: str
    words: str = ""
    measures: tuple[str, ...] = ()
    spacers: tuple[str, ...] = ()


class Comfort(NamedTuple):
    """A measure that a body feels, mm or degrees; `key` is the parameter that changes it."""

    what: ComfortKind
    value: float
    key: str


class Cutting(NamedTuple):
    """A gap spacer or stop block to cut: what it sets and how big it is."""

    name: str
    length: float
    width: float
    pieces: int
    use: str


@frozen
class Motion:
    """What moves and how far.

    `axis` is a point of the hinge axis in the piece; `pivot` the arm's pivot in the hinge frame
    with the back flat; `arm` pivot to rod centre; `rod` its diameter; `contour` the rack's upper
    edge from the hinge's end; `folded` the rod's centre with the back flat; `wanted` the angles
    asked for; `notches` the rods' centres set out for them, lowest angle first.
    `gap`, `axis_from_fixed`, `axis_depth` and `slat` describe the joint at the hinge: gap between
    the slats, the axis from the fixed slat's edge and below the slats' underside, slat thickness;
    a gap of None: no fixed slat lies before the hinge.
    `opens` is the hinge's range from leaf on leaf, `leaf_angle` its opening with the back flat.
    `push` (N) is the load judged, square into the back `push_along` from the axis; `grip` where
    a hand lifts the back, mm from the axis; `clearance` the gap wanted between parts that pass,
    `tolerance` how far each place and length may be off as made.  `keys` names the parameter
    behind a number (arm, pivot_x, gap, angles ...), for remedies.  `panel` is the word for what
    lifts and `rest` for how it lies at 0 degrees; there, parts whose keys begin as in `lying` lie
    on parts whose keys begin as in `under`.
    """

    axis: Vec
    pivot: Point
    arm: float
    rod: float
    contour: tuple[Segment, ...]
    folded: Point
    wanted: tuple[float, ...]
    notches: tuple[Point, ...]
    spare: float
    least_lean: float
    gap: float | None
    axis_from_fixed: float
    axis_depth: float
    slat: float
    opens: float
    leaf_angle: float
    push: float
    push_along: float
    grip: float
    clearance: float
    tolerance: float
    keys: tuple[tuple[str, str], ...] = ()
    panel: str = "back"
    rest: str = "flat"
    lying: tuple[str, ...] = ()
    under: tuple[str, ...] = ()


@frozen
class Assembly:
    """A piece of furniture, complete.

    `joined` are joints' keys in order of making.  `machined` says that joints have worked the
    parts.  `motion` is the moving back's data, None for a piece that stands still; `folding`
    that of a piece with crossed legs.  `fits` are the
    joints that hold by their shape; `trials` are parts that are cut first to try a fit, and no
    part of the piece.  `remarks` are what a family knows of its kind that no check works out:
    cautions, as notes, and what wasn't judged, as not done.  `origins` are the places in the
    parameter file that joints come from, with the keys that move them, by the joints' keys.
    `loose` parts make no piece: nothing is put together, and only what concerns a part by itself is
    judged and drawn.
    """

    family: str
    name: str
    parts: Mapping[str, Part]
    joints: tuple[Joint, ...] = ()
    bars: Mapping[str, Bar] = field(default_factory=dict)
    fasteners: tuple[Fastener, ...] = ()
    mates: tuple[tuple[str, str], ...] = ()
    hardware: tuple[Hardware, ...] = ()
    steps: tuple[Step, ...] = ()
    workings: tuple[Working, ...] = ()
    spacers: tuple[Cutting, ...] = ()
    motion: Motion | None = None
    folding: Folding | None = None
    bearing: Bearing = ""
    comfort: tuple[Comfort, ...] = ()
    fits: tuple[Fit, ...] = ()
    trials: tuple[Part, ...] = ()
    loose: bool = False
    remarks: tuple[Finding, ...] = ()
    origins: Mapping[str, str] = field(default_factory=dict)
    date: str = ""
    loads: str = ""
    machined: bool = False
