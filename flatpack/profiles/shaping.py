"""How things are shaped: notches for the rod, and the pocket-hole jig."""

from __future__ import annotations

from flatpack.parameters import (
    UNSET,
    angle,
    choice,
    length,
    notes,
    number,
    record,
    tables,
    text,
)


@record
class Notch:
    r"""A notch in a rack for a rod of diameter d.

        vee          ramp and stop       half-round       square
        \    /        \       |          |     |         |     |
         \  /           \_____|          |     |         |_____|
          \/             floor            \___/          corners relieved

    `depth` and `floor` are shares of d, so that one profile serves every rod.  `ramp` is the
    slope of the side that the rod climbs when the back is raised, `stop` of the side that it
    thrusts against: degrees from the bar's length, 90 upright, less leaning away from the notch,
    more leaning over the rod.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    shape: str = choice(UNSET, ("vee", "ramp", "half-round", "square"), does="shape of the notch")
    depth: float = number(UNSET, least=0.2, most=3, does="depth below the bar's edge, share of d")
    floor: float = number(0.0, least=0, most=4, does="flat floor, share of d")
    ramp: float = angle(90.0, least=10, most=90, does="slope of the side that the rod climbs")
    stop: float = angle(90.0, least=30, most=120, does="slope of the side that holds the rod")
    clearance: float = length(0.0, least=0, most=10, does="notch wider than the rod by this")
    root_radius: float = length(0.0, least=0, most=30, does="rounding in the bottom corners")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")


@record
class ScrewRule:
    """Pocket screw for boards up to a thickness."""

    up_to: float = length(UNSET, least=5, most=100, does="board's thickness, this or less")
    screw: float = length(UNSET, least=10, most=200, does="length of the screw")


@record
class PocketJig:
    """A pocket-hole jig with its stepped drill.

    `shoulder_share` gives the place of the shoulder that the screw's head sits on, measured along
    the screw's axis from the board's end: that share of the board's thickness, which is what
    setting collar and jig to the thickness comes to.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    angle: float = angle(UNSET, least=5, most=30, does="axis of the drill to the board's face")
    drill: float = length(UNSET, least=4, most=20, does="thick part of the stepped drill")
    pilot: float = length(UNSET, least=1, most=10, does="thin part of the stepped drill")
    shoulder_share: float = number(UNSET, least=0.5, most=2, does="shoulder, share of thickness")
    thinnest: float = length(UNSET, least=5, most=60, does="thinnest board that the jig takes")
    thickest: float = length(UNSET, least=10, most=100, does="thickest board that the jig takes")
    screws: tuple[ScrewRule, ...] = tables(ScrewRule, does="screw by thickness", fewest=1)
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")

    def shoulder(self, thickness: float) -> float:
        """Shoulder from the board's end along the screw's axis, mm, in a board `thickness` mm."""
        return self.shoulder_share * thickness

    def screw_length(self, thickness: float) -> float:
        """Length of screw for a board, mm; the longest of the table for a thicker one."""
        rules = sorted((rule.up_to, rule.screw) for rule in self.screws)
        return next((screw for up_to, screw in rules if thickness <= up_to), rules[-1][1])
