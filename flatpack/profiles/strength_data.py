"""Strength of materials, and the loads that a family of pieces is checked against."""

from __future__ import annotations

from flatpack.parameters import (
    UNSET,
    choice,
    count,
    length,
    notes,
    number,
    numbers,
    record,
    tables,
    text,
)


@record
class Strength:
    """Characteristic values, N/mm2 and kg/m3; `across` is square to the grain or face grain.

    `thickness` and `layers` say which panel a row of plywood is for; 0 is any.  `planar` is
    plywood's rolling shear.  A value that is left out isn't known: what needs it isn't checked.
    """

    thickness: float = length(0.0, least=0, most=200, does="nominal thickness, 0: any")
    layers: int = count(0, least=0, most=60, does="plies, 0: any")
    bending: float = number(UNSET, least=0.1, most=500, unit="N/mm2", does="along the grain")
    bending_across: float | None = number(None, least=0.1, most=500, unit="N/mm2", does="across")
    tension: float = number(UNSET, least=0.1, most=500, unit="N/mm2", does="along the grain")
    tension_across: float = number(UNSET, least=0.1, most=500, unit="N/mm2", does="across")
    compression: float = number(UNSET, least=0.1, most=500, unit="N/mm2", does="along the grain")
    compression_across: float = number(UNSET, least=0.1, most=500, unit="N/mm2", does="across")
    shear: float | None = number(None, least=0.1, most=100, unit="N/mm2", does="shear, panel shear")
    planar: float | None = number(None, least=0.1, most=100, unit="N/mm2", does="rolling shear")
    stiffness: float = number(UNSET, least=10, most=40000, unit="N/mm2", does="mean, along")
    stiffness_low: float = number(UNSET, least=10, most=40000, unit="N/mm2", does="5 %, along")
    stiffness_across: float = number(UNSET, least=1, most=40000, unit="N/mm2", does="mean, across")
    shear_stiffness: float = number(UNSET, least=1, most=10000, unit="N/mm2", does="shear modulus")
    density_low: float = number(UNSET, least=50, most=1500, unit="kg/m3", does="characteristic")
    density: float = number(UNSET, least=50, most=1500, unit="kg/m3", does="mean")


@record
class Material:
    """What a material bears.

    The profile's key is looked up by a board's key first, then by its material in lower case with
    hyphens ("birch plywood" -> birch-plywood), and last the lowest class of its kind is taken.
    `service_class` is the dampest use that it is made for.  `k_mod_dry` (service classes 1, 2)
    and `k_mod_wet` (3) are for permanent, long, medium, short and instantaneous loads; `k_def` is
    creep in classes 1, 2 and 3.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in reports", longest=60)
    kind: str = choice(UNSET, ("softwood", "hardwood", "plywood", "steel"), does="what it is")
    edition: str = text(UNSET, does="standard and year of the values", longest=120)
    rows: tuple[Strength, ...] = tables(Strength, does="values, one row a panel thickness")
    gamma: float = number(UNSET, least=1, most=3, does="partial factor of the material")
    service_class: int = count(3, least=1, most=3, does="dampest use: 1 dry, 2 covered, 3 outside")
    k_mod_dry: tuple[float, ...] = numbers((), least=0, most=1.2, does="classes 1 and 2")
    k_mod_wet: tuple[float, ...] = numbers((), least=0, most=1.2, does="class 3")
    k_def: tuple[float, ...] = numbers((), least=0, most=5, does="creep in classes 1, 2, 3")
    movement: float | None = number(
        None, least=0, most=0.01, does="change across the grain per % moisture, tangential"
    )
    saturation: float | None = number(
        None, least=15, most=40, unit="%", does="moisture above which nothing moves"
    )
    tensile: float | None = number(None, least=100, most=2000, unit="N/mm2", does="steel, breaking")
    proof: float | None = number(None, least=50, most=2000, unit="N/mm2", does="steel, yield")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")


@record
class LoadSet:
    """Loads that a family is checked against, before partial factors.

    A share is a share of one person's weight.  A value whose source says 'assumed' stands for a
    test load that isn't to be had; change it in a file of your own.  `use` says what the piece is
    for: it is sat on, laid as a table, filled with soil, a box whose lid is sat on, or a stand
    with shelves.  `frame` says how it is looked at: as two sides with parts across, or as one
    frame in space.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in reports", longest=60)
    use: str = choice("sit", ("sit", "table", "soil", "lid", "stand"), does="what the piece is for")
    frame: str = choice("whole", ("whole", "sides"), does="one frame in space, or two sides")
    person: float = number(UNSET, least=20, most=300, unit="kg", does="mass of one person")
    persons: int = count(UNSET, least=1, most=8, does="persons at once")
    service_class: int = count(3, least=1, most=3, does="1 dry, 2 covered, 3 outside")
    gamma_dead: float = number(UNSET, least=1, most=2, does="partial factor, own weight")
    gamma_live: float = number(UNSET, least=1, most=2, does="partial factor, persons")
    seat_along: float = length(UNSET, least=50, most=2000, does="a person's seat, square to slats")
    seat_across: float = length(UNSET, least=50, most=2000, does="a person's seat, along slats")
    spot_share: float = number(UNSET, least=0, most=2, does="share of a person on one spot")
    spot_size: float = length(UNSET, least=20, most=500, does="side of the square spot")
    edge_share: float = number(UNSET, least=0, most=2, does="share at the front edge")
    end_share: float = number(UNSET, least=0, most=2, does="share at an end beyond the legs")
    back_share: float = number(UNSET, least=0, most=2, does="share of a person on the back")
    back_height: float = length(UNSET, least=0, most=2000, does="along the back to that load")
    sway_share: float = number(UNSET, least=0, most=1, does="push along the piece, share")
    arm_down: float = number(UNSET, least=0, most=3000, unit="N", does="arm rest pressed down")
    arm_out: float = number(UNSET, least=0, most=3000, unit="N", does="arm rest pushed outwards")
    impact: float = number(UNSET, least=1, most=10, does="factor on a person who drops down")
    lift_factor: float = number(UNSET, least=1, most=5, does="factor on the weight when lifted")
    table_edge: float = number(UNSET, least=0, most=5000, unit="N", does="load at a table's edge")
    top_load: float = number(0.0, least=0, most=20000, unit="N/m2", does="all over a table")
    push: float = number(0.0, least=0, most=3000, unit="N", does="sideways at the top, either way")
    soil_density: float = number(0.0, least=0, most=3000, unit="kg/m3", does="wet soil")
    soil_pressure: float = number(0.0, least=0, most=2, does="soil's push sideways over downwards")
    contents: float = number(0.0, least=0, most=500, unit="kg", does="what lies in a box")
    lid_pull: float = number(0.0, least=0, most=500, unit="N", does="on an open lid, backwards")
    lasting_share: float = number(0.0, least=0, most=1, does="share of the load that makes creep")
    deflection: float = number(UNSET, least=50, most=1000, does="span over deflection, at least")
    friction: float = number(UNSET, least=0, most=1.5, does="feet on the ground")
    tip_margin: float = number(UNSET, least=1, most=3, does="holding over tipping moment, at least")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")
