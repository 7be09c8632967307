"""A tenon left standing on a board's edge, through a mortise in another board's face.

====.    .====   top        length: the other board's measured thickness less `shy`
    |    |                  mortise: tenon's width and own board's thickness + fit
----o    o----   shoulder   o: corners eased, so that the other board seats
"""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.geometry import Vec
from flatpack.joinery.fitting import Fitting, flat, flat_way, mortise
from flatpack.model import Assembly, Fit, Hold, Machining, Recess, Working


@frozen
class ThroughTenon:
    """A tenon on `part` at each of `places` (middles of its shoulder) along `direction`.

    `into` has the mortises.  `grip` says how it holds: "press" drives it home, "glue" glues it
    with a push fit, "" leaves it to other joints.  `slides` is the part that is moved.
    """

    key: str
    step: str
    part: str
    into: str
    places: tuple[Vec, ...]
    direction: Vec
    width: float
    fitting: Fitting
    grip: Hold = ""
    shy: float = 0.0
    slides: str = ""
    kind: str = "tenon"

    @property
    def parts(self) -> tuple[str, ...]:
        """The part with the tenons, then the one that they go through."""
        return (self.part, self.into)

    @property
    def glue(self) -> bool:
        """True when it is glued."""
        return self.grip == "glue"

    @property
    def allowance(self) -> float:
        """Mortise less tenon, mm."""
        return self.fitting.press if self.grip == "press" else self.fitting.push

    def words(self) -> str:
        """How it is made."""
        return {
            "press": "tenons driven home with a mallet and a block until the shoulders seat",
            "glue": "tenons glued into their mortises, down to the shoulders",
        }.get(self.grip, "tenons pushed into their mortises, down to the shoulders")

    def machine(self, assembly: Assembly) -> Machining:
        """Tenons and mortises; the shoulder must meet the face."""
        part, into = assembly.parts[self.part], assembly.parts[self.into]
        across = self.direction.cross(part.frame.z)
        inward = flat_way(part, self.direction.negated())
        tall = into.thickness - self.shy
        relief, gap = self.fitting.relief, self.allowance
        recesses = tuple(
            (self.part, Recess(flat(part, place), inward, self.width, -tall, relief))
            for place in self.places
        )
        openings = tuple(
            (self.into,
             mortise(into, middle, across, self.width + gap, part.thickness + gap, relief))
            for middle in (self._middle(part.frame.z, part.thickness, place, assembly)
                           for place in self.places)
        )  # fmt: skip
        moved = self.slides or self.into
        way = self.direction if moved == self.part else self.direction.negated()
        still = self.into if moved == self.part else self.part
        fit = Fit(self.key, moved, still, way, (part.frame.z, across), gap, self.grip,
                  tongues=(self.part,))  # fmt: skip
        working = Working(
            f"Mortise for {part.name.lower()} in {into.name.lower()}",
            part.thickness + gap,
            f"{part.thickness:g} {part.name.lower()} as measured "
            f"{'+' if gap >= 0.0 else '-'} {abs(gap):g} fit; {self.width + gap:g} long",
        )
        return Machining(
            recesses=recesses, openings=openings, fits=(fit,), mates=((self.part, self.into),),
            workings=(working,),
        )  # fmt: skip

    def _middle(self, normal: Vec, thickness: float, place: Vec, assembly: Assembly) -> Vec:
        """The place moved to the middle of the tenon's thickness."""
        part = assembly.parts[self.part]
        off = part.frame.local(place).z
        return place.plus(normal, thickness / 2.0 - off)
