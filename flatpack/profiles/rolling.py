"""Round bars and wheels."""

from __future__ import annotations

from flatpack.parameters import UNSET, choice, length, lengths, notes, number, record, text


@record
class Rod:
    """A round bar in the lengths that are sold."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=3, most=80, does="diameter, measured")
    lengths: tuple[float, ...] = lengths(UNSET, least=100, fewest=1, does="lengths sold")
    material: str = choice(
        UNSET, ("hardwood", "softwood", "steel", "stainless steel"), does="made of"
    )
    density: float = number(UNSET, least=50, most=9000, unit="kg/m3", does="mean density")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")


@record
class Wheel:
    """A wheel that turns on a bar; `hub_width` is its width at the axle."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=20, most=800, does="over the tyre")
    width: float = length(UNSET, least=5, most=200, does="tyre across")
    bore: float = length(UNSET, least=3, most=60, does="hole for the axle")
    hub_width: float = length(UNSET, least=5, most=250, does="hub along the axle")
    axle: float = length(UNSET, least=3, most=60, does="diameter of the bar that it turns on")
    load: float = number(UNSET, least=1, most=2000, unit="kg", does="load that it carries")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")
