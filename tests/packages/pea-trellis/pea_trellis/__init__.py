"""A trellis for peas: two rails and rungs between them, pocket-screwed.

The whole of a family: its keys, where its parts stand, what joins them, what doesn't go together.
"""

from __future__ import annotations

from collections.abc import Iterator

from flatpack import parameters as keys
from flatpack.geometry import Frame, Vec, X, Y, Z
from flatpack.geometry.shapes import rectangle
from flatpack.joinery import PocketScrews, machine
from flatpack.model import Assembly, Part, Step
from flatpack.parameters import BoardChoice, Conflict, record
from flatpack.pieces import Family
from flatpack.pieces.family import Workings, mm, sold_width
from flatpack.pieces.finishing import Finishing
from flatpack.profiles import Profiles


@record
class Trellis:
    """A trellis for peas: two rails, rungs between them."""

    name: str = keys.text("Pea trellis", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    timber: BoardChoice = keys.board("larch-27", does="board of rails and rungs")
    width: float = keys.length(640.0, least=200, most=1500, does="overall, left to right")
    height: float = keys.length(1100.0, least=300, most=2400, does="of the rails")
    rail: float = keys.length(70.0, least=40, most=150, does="rails; planed: nearest sold")
    rung: float = keys.length(45.0, least=35, most=150, does="rungs; planed: nearest sold")
    rungs: int = keys.count(4, least=2, most=20, does="number of rungs")
    foot: float = keys.length(180.0, least=0, most=800, does="rails below the lowest rung")
    finishing: Finishing = keys.table(Finishing)


def build(p: Trellis, profiles: Profiles) -> Assembly:
    """The trellis, joints made."""
    notes, board = Workings(), profiles.board(p.timber)
    rail, rung = sold_width(board, p.rail), sold_width(board, p.rung)
    t = board.thickness
    step = notes.add(
        "Rung to rung",
        (p.height - p.foot - rung) / (p.rungs - 1),
        f"({mm(p.height)} - {mm(p.foot)} foot - {mm(rung)} rung) / {p.rungs - 1}",
    )
    left = Part(
        key="rail-left",
        name="Rail",
        board=board,
        outline=rectangle(p.height, rail),
        frame=Frame(Vec(rail, t, 0.0), Z, X.negated(), Y.negated()),
        hand="left",
    )
    parts = [left, left.other_hand("rail-right", p.width / 2.0)]
    for number in range(p.rungs):
        low = p.foot + number * step
        parts.append(
            Part(
                key=f"rung-{number + 1}",
                name="Rung",
                board=board,
                outline=rectangle(p.width - 2.0 * t, rung),
                frame=Frame(Vec((rail - t) / 2.0, t, low), Y, Z, X),
            )
        )
    whole = Assembly(
        family="trellis",
        name=p.name,
        date=p.date or "",
        parts={part.key: part for part in parts},
        joints=tuple(_joints(p, profiles)),
        steps=(Step("rungs", "Rungs between the rails", "", ("Rung to rung",)),),
        workings=tuple(notes.rows),
        bearing="standing",
    )
    return machine(whole)


def _joints(p: Trellis, profiles: Profiles) -> Iterator[PocketScrews]:
    """Two pocket screws in each end of each rung, from the face that looks to the front."""
    for number in range(1, p.rungs + 1):
        for rail, way in (("rail-left", Y.negated()), ("rail-right", Y)):
            yield PocketScrews(
                key=f"rung-{number}-to-{rail}",
                step="rungs",
                through=f"rung-{number}",
                into=rail,
                outward=way,
                pocket_face=X.negated(),
                count=2,
                jig=profiles.pocket_jig("pocket-15"),
                screw=profiles.screw("pocket-coarse"),
            )


def conflicts(p: Trellis, profiles: Profiles) -> Iterator[Conflict]:
    """Rungs that don't fit above the foot."""
    width = sold_width(profiles.board(p.timber), p.rung)
    room = p.height - p.foot
    if p.rungs * width > room:
        fit = f"at most {int(room / width)}: {mm(room)} above the foot for rungs {mm(width)} wide"
        yield Conflict("rungs", p.rungs, fit, "more rungs than fit")


def family() -> Family:
    """What the entry point names; called once flatpack is asked for a trellis."""
    return Family("trellis", "Trellis for peas", Trellis, build, conflicts)
