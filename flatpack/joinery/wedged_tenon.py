"""Through tenon with a loose wedge: it draws the shoulder home and comes apart again.

Seen square to the stretcher's face,           seen from above; the wedge is driven along d
the wedge's end in its slot:
        side |  |                                side |  |  stretcher's tenon
     --------|  |----------.                  ........|  |=================
  stretcher  |  | .------. |                          |  |   |  head |
     shoulder|  | |wedge | | width                    |  |---+-------+  <- entry: slot's outer end
             |  | '------' |                    d |   |  |   |      /      touches the slope here
     --------|  |----------'                      v   |  |---+-----+
             |  |                                     |  |   | tip |
             |<->|<-mid->|<-relish->|

The slot's inner end lies `draw` inside the side's outer face, so that the wedge bears on the side
and never on the slot.  The wedge's straight edge bears on the side, its slope on the slot's outer
end, at the face where it enters: there it is `mid` wide.  An error e of the slot, the mortise or
the side's thickness moves the wedge by e x taper, so that head and foot stand out by at least that
much more than a hand or a mallet needs.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.geometry import Frame, Outline, Vec, closed
from flatpack.joinery.fitting import Fitting, flat, flat_way, mortise
from flatpack.model import Assembly, Fit, Machining, Part, Recess, Working

GRIP = 12.0
"""Of a wedge's head left to hit, and to pull on, mm (common practice, no source)."""
TIP = 5.0
"""Of a wedge's tip left to knock it out by, mm (common practice, no source)."""
DRAW = 1.5
"""From the side's outer face in to the slot's inner end, beside all errors, mm (as the others)."""
ERRORS = 3.0
"""Places that may be off by the machine's tolerance at once: slot, mortise's side, wedge."""


class WedgeSize(NamedTuple):
    """A wedge and the slot that it needs, mm; `taper` is its length for 1 mm of width."""

    mid: float
    taper: float
    spare: float
    head: float
    foot: float
    draw: float
    through: float

    @property
    def length(self) -> float:
        """Whole length along the drive."""
        return self.head + self.through + self.foot

    @property
    def thick_end(self) -> float:
        """Width at the head."""
        return self.mid + self.head / self.taper

    @property
    def thin_end(self) -> float:
        """Width at the tip."""
        return self.thick_end - self.length / self.taper

    @property
    def outline(self) -> Outline:
        """Its shape: x along the drive from the head, the straight edge at y = 0."""
        length = self.length
        return closed(
            ((0.0, 0.0, 0.0), (length, 0.0, 0.0), (length, self.thin_end, 0.0),
             (0.0, self.thick_end, 0.0))
        )  # fmt: skip


def wedge_size(mid: float, taper: float, through: float, tolerance: float) -> WedgeSize:
    """A wedge `mid` wide where it enters a tenon `through` thick, for a machine's tolerance."""
    error = ERRORS * tolerance
    spare = math.ceil(error * taper)
    return WedgeSize(mid, taper, spare, spare + GRIP, spare + TIP, DRAW + error, through)


@frozen
class WedgedTenon:
    """`part`'s tenon through `into` along `out`, locked by `wedge`, driven along `drive`.

    `place` is the middle of the tenon's shoulder, `width` its width there, `relish` the wood
    beyond the wedge's slot.  `slides` is the part that is moved when the two are put together.
    """

    key: str
    step: str
    wedge_step: str
    part: str
    into: str
    place: Vec
    out: Vec
    drive: Vec
    width: float
    relish: float
    size: WedgeSize
    thickness: float
    fitting: Fitting
    slides: str

    @property
    def tall(self) -> float:
        """How far the tenon stands out beyond the side, mm."""
        return self.size.mid + self.relish

    def shapes(self, assembly: Assembly) -> Machining:
        """Tenon, mortise and the wedge's slot."""
        part, into = assembly.parts[self.part], assembly.parts[self.into]
        across = self.out.cross(part.frame.z)
        relief, loose = self.fitting.relief, self.fitting.slide
        inward = flat_way(part, self.out.negated())
        length = into.thickness + self.tall
        tenon = Recess(flat(part, self.place), inward, self.width, -length, relief)
        off = part.thickness / 2.0 - part.frame.local(self.place).z
        middle = self.place.plus(part.frame.z, off)
        hole = mortise(into, middle, across, self.width + loose, part.thickness + loose, relief)
        long = self.size.mid + self.size.draw
        centre = middle.plus(self.out, into.thickness + self.size.mid - long / 2.0)
        slot = mortise(part, centre, self.out, long, self.thickness + loose, relief)
        return Machining(
            recesses=((self.part, tenon),), openings=((self.into, hole), (self.part, slot))
        )


@frozen
class TenonThrough:
    """The tenon and its mortise, put together at its own step."""

    made: WedgedTenon
    kind: str = "wedged tenon"

    @property
    def key(self) -> str:
        """Unique name."""
        return self.made.key

    @property
    def step(self) -> str:
        """Step at which the tenon goes through."""
        return self.made.step

    @property
    def parts(self) -> tuple[str, ...]:
        """The part with the tenon, then the one that it goes through."""
        return (self.made.part, self.made.into)

    def words(self) -> str:
        """How it is made."""
        return "tenon pushed through its mortise until the shoulder seats"

    def machine(self, assembly: Assembly) -> Machining:
        """Tenon, mortise, the wedge's slot; the shoulder must meet the face."""
        j = self.made
        part, into = assembly.parts[j.part], assembly.parts[j.into]
        still = j.into if j.slides == j.part else j.part
        way = j.out if j.slides == j.part else j.out.negated()
        across = (part.frame.z, j.out.cross(part.frame.z))
        fit = Fit(self.key, j.slides, still, way, across, j.fitting.slide, tongues=(j.part,))
        shapes = j.shapes(assembly)
        return shapes._replace(
            fits=(fit,), mates=((j.part, j.into),), workings=_workings(j, part, into)
        )


@frozen
class Wedged:
    """The wedge, driven home at a later step."""

    made: WedgedTenon
    wedge: str
    kind: str = "wedge"

    @property
    def key(self) -> str:
        """Unique name."""
        return f"{self.made.key}-wedge"

    @property
    def step(self) -> str:
        """Step at which the wedge is driven."""
        return self.made.wedge_step

    @property
    def parts(self) -> tuple[str, ...]:
        """The wedge, then the part whose tenon it locks."""
        return (self.wedge, self.made.part)

    def words(self) -> str:
        """How it is made."""
        return "wedge driven until it stops, then no further"

    def machine(self, assembly: Assembly) -> Machining:
        """Nothing more to cut: the wedge bears on the side, and in the slot."""
        j = self.made
        wedge = assembly.parts[self.wedge]
        fit = Fit(
            self.key, self.wedge, j.part, j.drive, (wedge.frame.z,), j.fitting.slide, "wedge",
            1.0 / j.size.taper, (self.wedge,), j.size.length,
        )  # fmt: skip
        return Machining(fits=(fit,), mates=((self.wedge, j.into),))


def wedge_part(key: str, joint: WedgedTenon, board: Part, side: Part) -> Part:
    """The wedge in its place, of the same board as `board`, the part with the tenon."""
    t = board.thickness
    entry = -joint.drive.dot(board.frame.z)  # 1: it enters at the show face
    face = t if entry > 0.0 else 0.0
    off = board.frame.local(joint.place).z
    start = joint.place.plus(board.frame.z, face - off).plus(joint.drive, -joint.size.head)
    start = start.plus(joint.out, side.thickness)
    normal = joint.drive.cross(joint.out)
    frame = Frame(start.plus(normal, -joint.thickness / 2.0), joint.drive, joint.out, normal)
    return Part(key=key, name="Wedge", board=board.board, outline=joint.size.outline, frame=frame)


def _workings(j: WedgedTenon, part: Part, into: Part) -> tuple[Working, ...]:
    s, name = j.size, part.name.lower()
    return (
        Working(
            f"Tenon of {name}, beyond the shoulder",
            into.thickness + j.tall,
            f"{into.thickness:g} {into.name.lower()} as measured + {s.mid:g} wedge + "
            f"{j.relish:g} beyond it",
        ),
        Working(
            f"Wedge's slot in {name}, from the shoulder",
            into.thickness - s.draw,
            f"{into.thickness:g} {into.name.lower()} - {DRAW:g} draw - {ERRORS:g} x "
            f"{j.fitting.tolerance:g} tolerance",
        ),
        Working(
            "Wedge, spare drive each way",
            s.spare,
            f"{ERRORS:g} x {j.fitting.tolerance:g} tolerance x taper 1:{s.taper:g}, rounded up",
        ),
        Working(
            "Wedge, length",
            s.length,
            f"{s.head:g} head + {s.through:g} {name} + {s.foot:g} tip",
        ),
        Working(
            "Wedge, width at the head",
            s.thick_end,
            f"{s.mid:g} where it enters + {s.head:g} head / {s.taper:g}",
        ),
    )
