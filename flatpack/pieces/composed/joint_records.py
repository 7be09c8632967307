"""Keys of the joints of a piece of one's own; places follow from where the parts meet."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from flatpack import parameters as keys
from flatpack.parameters import UNSET, Spec, Sum, record, specs_of
from flatpack.pieces.composed.part_records import SIDES, WAYS


def _names(does: str, example: str) -> Any:
    return keys.texts(
        UNSET, does=does, longest=60, fewest=1, most_count=40, lone=True, example=(example,)
    )


def _own(among: str, does: str) -> Any:
    return keys.item(among, None, does=f"{does}; left out: of [fixings]")


@record
class _Both:
    """What every joint says."""

    through: tuple[str, ...] = _names("part or parts that the fastener comes from", "rail")
    into: tuple[str, ...] = _names("part or parts that it goes into", "leg")
    step: str = keys.text("", longest=60, does="one of [[steps]] at which it is made")


@record
class _Spots:
    """How many fasteners stand where the parts meet, and where."""

    count: int = keys.count(1, least=1, most=40, does="fasteners, shared evenly where parts meet")
    depth: tuple[Sum, ...] | None = keys.places(None, does="places from front to rear, instead")
    width: tuple[Sum, ...] | None = keys.places(None, does="places from left to right, instead")
    height: tuple[Sum, ...] | None = keys.places(
        None, does="places above ground, instead; lists of two ways pair, first with first"
    )
    use: str = keys.text("", longest=60, does="what it is for, in the hardware list")


@record
class PocketScrewsHere:
    """Screws out of pockets in one part's face, through its end or edge into another part."""

    count: int = keys.count(2, least=1, most=12, does="screws where two parts meet")
    pockets: str = keys.choice("back", ("back", "show"), does="the face with the pockets")
    clear_of: tuple[str, ...] = keys.texts(
        (), longest=60, most_count=20, lone=True, does="parts that the pockets keep clear of"
    )
    glue: bool = keys.flag(True, does="glued as well")
    screw: str | None = _own("screws", "pocket screw")
    jig: str | None = _own("pocket-jigs", "jig")


@record
class FaceScrewsHere:
    """Countersunk screws through one part's face into another."""

    glue: bool = keys.flag(False, does="glued as well")
    screw: str | None = _own("screws", "wood screw")


@record
class BoltHere:
    """Coach bolts right through both parts, with washer and nut."""

    between: tuple[str, ...] = keys.texts(
        (), longest=60, most_count=6, lone=True, does="parts that it passes on the way"
    )
    turning: tuple[str, ...] = keys.texts(
        (), longest=60, most_count=6, lone=True, does="parts that turn on it: the pivot's fit"
    )
    bolt: str | None = _own("coach-bolts", "coach bolt")
    nut: str | None = _own("nuts", "nut")
    washer: str | None = _own("washers", "washer")


@record
class BarrelNutHere:
    """Bolts that come apart: through one part's face into a barrel nut in the other's end."""

    from_end: Sum = keys.total(Sum(32.0), least=10, most=120, does="nut's middle from the end")
    nut_face: str = keys.choice("back", ("back", "show"), does="face that the nut is put in from")
    bolt: str | None = _own("furniture-bolts", "bolt that undoes")
    nut: str | None = _own("barrel-nuts", "barrel nut")


@record
class InsertHere:
    """Bolts that come apart: through one part into threaded inserts in the other's face."""

    bolt: str | None = _own("furniture-bolts", "bolt that undoes")
    insert: str | None = _own("inserts", "threaded insert")


@record
class GlueHere:
    """Faces glued together."""


@record
class HingeHere:
    """Hinges across the line where two parts meet, their leaves flat on one side of both."""

    on: str = keys.choice(UNSET, SIDES, does="the side that the leaves lie on")
    hinge: str | None = _own("hinges", "hinge")
    screw: str | None = _own("screws", "screw of the hinge")


@record
class BarHere:
    """A round bar in a hole in each part that it meets."""

    through: tuple[str, ...] = _names("the round bar", "rail")
    into: tuple[str, ...] = _names("parts that hold it", "side")
    step: str = keys.text("", longest=60, does="one of [[steps]] at which it is made")
    fit: str = keys.choice("fixed", ("fixed", "free"), does="glued in, or free to turn")
    use: str = keys.text("", longest=60, does="what it is for")


@record
class WheelsHere:
    """A wheel on each end of a round bar."""

    through: tuple[str, ...] = _names("the axle, a round bar", "axle")
    step: str = keys.text("", longest=60, does="one of [[steps]] at which it is made")
    wheel: str = keys.item("wheels", UNSET, does="the wheel", example="wheel-160")
    inner: Sum = keys.total(
        Sum(60.0), least=5, most=300, does="from the axle's end to the wheel's hub"
    )


@record
class HalvingHere:
    """Two boards let into each other where they cross; `through` slides over `into`."""

    slides: str = keys.choice("down", WAYS, does="the way that the first part slides")
    share: float = keys.number(
        0.5, least=0.1, most=0.9, does="of the overlap: how much of it the second part keeps"
    )


@record
class TenonsHere:
    """Tenons on the first part's end or edge through mortises in the other part."""

    tenon: Sum = keys.total(UNSET, least=10, most=600, does="width of a tenon", example=60.0)
    hold: str = keys.choice("glue", ("glue", "press"), does="glued, or driven in tight")
    shy: Sum = keys.total(Sum(0.0), most=10, does="how far a tenon ends below the far face")


@record
class WedgedHere:
    """Tenons with loose wedges behind the part that they go through; they come apart again."""

    tenon: Sum = keys.total(UNSET, least=20, most=600, does="width of a tenon", example=60.0)
    wedge: Sum = keys.total(Sum(24.0), least=8, most=80, does="wedge's width where it enters")
    relish: Sum = keys.total(Sum(25.0), least=10, most=120, does="wood beyond the wedge's slot")
    taper: float = keys.number(8.0, least=5, most=15, does="wedge's length for 1 mm of width")
    drive: str = keys.choice("down", WAYS, does="the way that the wedge is driven")
    wedge_step: str = keys.text("", longest=60, does="step at which it is driven; left out: same")
    moves: str = keys.choice("through", ("through", "into"), does="which of the two is moved")


def _joint(cls: Any, *shared: Any) -> Any:
    known: dict[str, Spec] = {n: s for one in shared for n, s in specs_of(one).items()}
    return record(type(cls.__name__, (), {"__doc__": cls.__doc__, **known, **specs_of(cls)}))


JOINT_KINDS: Mapping[str, Any] = MappingProxyType(
    {
        "pocket screws": _joint(PocketScrewsHere, _Both),
        "screws": _joint(FaceScrewsHere, _Both, _Spots),
        "bolts": _joint(BoltHere, _Both, _Spots),
        "barrel nuts": _joint(BarrelNutHere, _Both, _Spots),
        "inserts": _joint(InsertHere, _Both, _Spots),
        "glue": _joint(GlueHere, _Both),
        "hinges": _joint(HingeHere, _Both, _Spots),
        "halving": _joint(HalvingHere, _Both),
        "tenons": _joint(TenonsHere, _Both, _Spots),
        "wedged tenons": _joint(WedgedHere, _Both, _Spots),
        "bar": BarHere,
        "wheels": WheelsHere,
    }
)
"""Every joint, by the word that a file says for it, with its keys."""
