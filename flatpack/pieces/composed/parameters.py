"""Keys of a piece of one's own: boards, measures, parts, where they stand, and how they join."""

from __future__ import annotations

from typing import Any

from flatpack import parameters as keys
from flatpack.parameters import Sum, record
from flatpack.pieces.composed import starter
from flatpack.pieces.composed.joint_records import JOINT_KINDS
from flatpack.pieces.composed.part_records import PART_KINDS, TOGETHER
from flatpack.pieces.finishing import Finishing

BEARINGS = {"sat on": "", "lain on": "lying", "stood at": "standing"}


@record
class Size:
    """Overall size: pairs mirror across the middle of the width."""

    width: float = keys.length(600.0, least=50, most=6000, does="overall, left to right")
    depth: float = keys.length(300.0, least=20, most=6000, does="overall, front to rear")


@record
class Fixings:
    """What joints use that don't name their own."""

    jig: str = keys.item("pocket-jigs", "pocket-15", does="pocket-hole jig and stepped drill")
    pocket_screw: str = keys.item("screws", "pocket-coarse", does="pocket screw")
    wood_screw: str = keys.item("screws", "wood-5", does="countersunk screw")
    bolt: str = keys.item("coach-bolts", "coach-m8", does="coach bolt")
    nut: str = keys.item("nuts", "lock-m8", does="lock nut")
    washer: str = keys.item("washers", "washer-m8", does="washer")
    knock_down_bolt: str = keys.item("furniture-bolts", "furniture-m6", does="bolt that undoes")
    barrel_nut: str = keys.item("barrel-nuts", "barrel-m6-16", does="barrel nut")
    insert: str = keys.item("inserts", "insert-m6", does="threaded insert")
    hinge: str = keys.item("hinges", "butt-75", does="hinge")
    hinge_screw: str = keys.item("screws", "wood-4", does="screw of a hinge")
    tip_cover: float = keys.length(
        3.0, least=1, most=15, does="wood left between a screw's tip and the far face"
    )
    fit: float | None = keys.number(
        None, least=-1, most=2, unit="mm", does="slot less tongue of halvings and tenons, as "
        "chosen on the trial piece; left out: of the workshop", example=0.1,
    )  # fmt: skip


@record
class StepHere:
    """A step of putting it together, in order."""

    name: str = keys.text(keys.UNSET, longest=40, does="as joints name it", example="frames")
    title: str = keys.text(keys.UNSET, longest=80, does="as the book calls it", example="Frames")
    words: str = keys.text("", longest=400, does="what to mind")
    measures: tuple[str, ...] = keys.texts(
        (), longest=80, does="beginnings of the names of workings to measure then"
    )
    spacers: tuple[str, ...] = keys.texts(
        (), longest=80, does="beginnings of the uses of spacers needed then"
    )


@record
class SpacerHere:
    """A spacer or stop block to cut from an offcut."""

    name: str = keys.text(keys.UNSET, longest=60, does="its name", example="Stop block")
    length: Sum = keys.total(keys.UNSET, least=5, does="its length", example=120.0)
    width: Sum = keys.total(keys.UNSET, least=1, does="its width: what it sets", example=20.0)
    pieces: int = keys.count(2, least=1, most=20, does="how many")
    use: str = keys.text("", longest=80, does="where it goes")


@record
class Felt:
    """Measures that a body feels, compared with published ranges; leave out what it hasn't."""

    seat_height: Sum | None = keys.place(None, does="ground to the seat's top")
    seat_depth: Sum | None = keys.place(None, does="seat's front to the back rest")
    seat_slope: float | None = keys.angle(None, least=-20, most=45, does="seat's fall to the rear")
    back_angle: float | None = keys.angle(None, least=60, most=180, does="between seat and back")
    arm_height: Sum | None = keys.place(None, does="arm's top above the seat")
    table_height: Sum | None = keys.place(None, does="ground to the table's top")
    knee_room: Sum | None = keys.place(None, does="ground to what is lowest above the knees")
    knee_depth: Sum | None = keys.place(None, does="depth free for the knees")
    seat_to_table: Sum | None = keys.place(None, does="from seat to table top")


@record
class Composed:
    """A piece of your own: boards, parts by their shape, where each stands, what joins them."""

    name: str = keys.text("Plant step", longest=60, does="name on every sheet")
    date: str | None = keys.date(None, does="date of issue on every sheet", example="2031-04-12")
    workshop: str = keys.item("workshops", "default", does="workshop that cuts it")
    used: str = keys.choice("stood at", tuple(BEARINGS), does="what it is for, in drawings")
    loads: str | None = keys.item(
        "loads", None, does="loads that its strength is judged by", example="bench"
    )
    size: Size = keys.table(Size)
    boards: Any = keys.named(
        keys.board(None, does="The boards, each under a name of your own."),
        default=starter.boards(),
        left_out="must",
    )
    measures: Any = keys.named(
        keys.total(None, least=-10000, does="Lengths that other keys may name."),
        default=starter.measures(),
    )
    parts: Any = keys.named(
        keys.kinds(
            PART_KINDS,
            "shape",
            does="The parts. Left and right are those of somebody who sits on the piece and looks "
            "to its front. A place is so far from the ground, the front or the left end, or a side "
            "of another part with a length added (to the rear, right, up) or taken: "
            '"leg.top less 18 mm".',
        ),
        default=starter.parts(PART_KINDS),
        together=TOGETHER,
        left_out="must",
    )
    joints: Any = keys.kinds(
        JOINT_KINDS,
        "kind",
        default=starter.joints(JOINT_KINDS),
        does="The joints: fasteners stand where the parts meet.",
    )
    steps: tuple[StepHere, ...] = keys.tables(StepHere)
    spacers: tuple[SpacerHere, ...] = keys.tables(SpacerHere)
    felt: Felt = keys.table(Felt)
    fixings: Fixings = keys.table(Fixings)
    finishing: Finishing = keys.table(Finishing)
