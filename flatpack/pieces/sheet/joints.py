"""Joints of a stool or table from sheet, in the order of making, and the wedges that they need."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from flatpack.frozen import replace
from flatpack.geometry import Vec, X, Y, Z
from flatpack.joinery import Halving, TenonThrough, ThroughTenon, Wedged, WedgedTenon, wedge_part
from flatpack.model import Joint, Part, Step
from flatpack.pieces.sheet.parameters import Sheet
from flatpack.pieces.sheet.setting_out import SettingOut

Parts = Mapping[str, Part]
PRESSED = (
    "The top holds by its press fit alone: lift the piece by its legs or stretchers, never by the "
    "top. To take it off, knock upwards from below beside each tenon in turn, on a block."
)
WEDGES = (
    "The frame is loose until all wedges are home: nobody leans or sits on it before. Try them "
    "again whenever it was moved."
)
_SIDES = (
    Step("stretchers", "Stretchers into the left side", "", ("Tenon of",)),
    Step("sides", "Right side onto the stretchers"),
    Step("wedges", "Wedges", WEDGES, ("Wedge, spare",)),
)


def steps(p: Sheet, out: SettingOut) -> tuple[Step, ...]:
    """Steps of putting it together."""
    words = "" if p.top.hold == "glue" else PRESSED
    top = Step("top", "Top on the tenons", words, ("Mortise for",))
    if out.crossed:
        return (Step("legs", "Legs let into each other", "", ("Halving slot",)), top)
    return (*_SIDES, top)


def joints(p: Sheet, out: SettingOut, parts: Parts) -> Iterator[Joint]:
    """Every joint."""
    if out.crossed:
        yield Halving(
            key="legs-cross", step="legs", lower="leg-lower", upper="leg-upper",
            direction=Z.negated(), fitting=out.fitting, share=p.legs.lap,
        )  # fmt: skip
        feet: tuple[tuple[str, Vec], ...] = (("leg-lower", X), ("leg-upper", Y))
    else:
        made = tuple(stretched(p, out, parts))
        yield from (TenonThrough(made=one) for one in made)
        yield from (Wedged(made=one, wedge=f"wedge-{one.key}") for one in made)
        feet = (("side-left", X), ("side-right", X))
    for key, way in feet:
        yield _tenons(p, out, parts[key], way)


def _tenons(p: Sheet, out: SettingOut, part: Part, way: Vec) -> Joint:
    """The tenons of a leg or side into the top, either side of its middle."""
    _, y0, _, y1 = part.outline.bounds
    middle = part.frame.place(out.leg.tall, (y0 + y1) / 2.0, part.thickness / 2.0)
    return ThroughTenon(
        key=f"{part.key}-in-top",
        step="top",
        part=part.key,
        into="top",
        places=tuple(middle.plus(way, aside) for aside in out.leg.tenons),
        direction=Z,
        width=out.leg.tenon,
        fitting=out.fitting,
        grip="glue" if p.top.hold == "glue" else "press",
        shy=p.top.shy,
    )


def stretched(p: Sheet, out: SettingOut, parts: Parts) -> Iterator[WedgedTenon]:
    """Wedged tenons: every stretcher into the left side, then the right side onto them all.

    Wedges are driven from the nearer of front and rear.
    """
    s, t = out.stretchers, out.legs.thickness
    for side, step, way in (("left", "stretchers", Y.negated()), ("right", "sides", Y)):
        face = out.faces[0] + t if side == "left" else out.faces[1] - t
        for number, x in enumerate(s.places, 1):
            key = f"stretcher-{number}"
            yield WedgedTenon(
                key=f"{key}-{side}",
                step=step,
                wedge_step="wedges",
                part=key,
                into=f"side-{side}",
                place=Vec(x, face, s.low + s.width / 2.0),
                out=way,
                drive=X.negated() if x > out.middle + 1.0 else X,
                width=s.tenon,
                relish=p.wedge.relish,
                size=out.wedge,
                thickness=parts[key].thickness,
                fitting=out.fitting,
                slides=key if side == "left" else "side-right",
            )


def wedges(p: Sheet, out: SettingOut, parts: Parts) -> Iterator[Part]:
    """A wedge for each end of each stretcher."""
    for one in stretched(p, out, parts):
        made = wedge_part(f"wedge-{one.key}", one, parts[one.part], parts[one.into])
        yield replace(made, arris=p.top.edge_round)
