"""What goes with bolts: nuts, washers, barrel nuts, inserts; and hinges."""

from __future__ import annotations

from flatpack.parameters import UNSET, angle, choice, item, length, notes, pairs, record, text


@record
class Nut:
    """A hexagon nut; `height` and `across_corners` are the greatest."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    kind: str = choice(UNSET, ("hex", "lock"), does="plain, or with a locking insert")
    diameter: float = length(UNSET, least=2, most=30, does="thread")
    across_flats: float = length(UNSET, least=3, most=60, does="spanner size")
    across_corners: float = length(UNSET, least=3, most=70, does="across corners, greatest")
    height: float = length(UNSET, least=1, most=40, does="height, greatest")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")


@record
class Washer:
    """A plain washer; `inner` and `outer` are diameters."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=2, most=30, does="bolt that it goes on")
    inner: float = length(UNSET, least=2, most=40, does="hole")
    outer: float = length(UNSET, least=4, most=120, does="outside diameter")
    thickness: float = length(UNSET, least=0.3, most=12, does="thickness")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")


@record
class BarrelNut:
    """A cylinder with a cross thread, laid across the bolt in a bored hole.

    `cross_offset` is the distance of the thread's axis from the slotted end.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=3, most=20, does="thread")
    body_diameter: float = length(UNSET, least=5, most=40, does="hole bored for it")
    body_length: float = length(UNSET, least=5, most=80, does="length of the cylinder")
    cross_offset: float = length(UNSET, least=2, most=60, does="thread's axis from the slotted end")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")


@record
class Insert:
    """A threaded insert screwed into wood; `length` includes the flange."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=3, most=20, does="inside thread")
    outer: float = length(UNSET, least=5, most=40, does="outside thread")
    hole_soft: float = length(UNSET, least=4, most=40, does="hole in softwood, plywood")
    hole_hard: float = length(UNSET, least=4, most=40, does="hole in hardwood")
    flange_diameter: float = length(UNSET, least=5, most=60, does="flange across")
    flange_height: float = length(UNSET, least=0, most=10, does="flange's thickness")
    drive: str = text(UNSET, does="key", longest=40)
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")
    # Last, since a key named `length` hides the function of that name in a class body.
    length: float = length(UNSET, least=5, most=80, does="length with the flange")


@record
class Hinge:
    """A hinge of two like leaves.

    Looking along the axis, leaf lying on a part's face:

            (o)  knuckle              o      axis, `axis_offset` out of the part's face
        =====+------------- leaf      |<--------->| leaf_width, from the axis to the leaf's edge
        ///////////////// part

    `leaf_length` runs along the axis.  `opens` counts degrees from leaf on leaf: 180 lies flat,
    more goes past flat.  `holes` are (from the axis, along it from the leaf's middle), the same on
    both leaves; `screw` names a profile among the screws.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    leaf_width: float = length(UNSET, least=5, most=500, does="axis to the leaf's edge")
    leaf_length: float = length(UNSET, least=5, most=1000, does="leaf along the axis")
    leaf_thickness: float = length(UNSET, least=0.3, most=12, does="thickness of the leaf")
    knuckle_diameter: float = length(UNSET, least=1, most=60, does="knuckle across")
    axis_offset: float = length(UNSET, least=0, most=60, does="axis out of the part's face")
    opens: float = angle(UNSET, least=30, most=360, does="greatest opening from leaf on leaf")
    holes: tuple[tuple[float, float], ...] = pairs(UNSET, least=-1000, fewest=1, does="screw holes")
    screw: str = item("screws", UNSET, does="screw for the holes")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")
