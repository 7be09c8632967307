"""Glue and surface finish."""

from __future__ import annotations

from flatpack.parameters import UNSET, choice, count, notes, number, record, text


@record
class Glue:
    """A glue for outdoor work; `spread` is what one joint face takes."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    water_class: str = choice(UNSET, ("D1", "D2", "D3", "D4"), does="water resistance by EN 204")
    spread: float = number(UNSET, least=20, most=1000, unit="g/m2", does="glue on a joint face")
    open_minutes: float = number(
        UNSET, least=0.5, most=240, unit="min", does="time to close the joint"
    )
    clamp_minutes: float = number(UNSET, least=1, most=5000, unit="min", does="time in clamps")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")


@record
class Finish:
    """A finish: area that a litre covers in one coat, least and most, and how it is put on."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    kind: str = choice(UNSET, ("stain", "oil", "paint", "sealer"), does="sort of finish")
    coverage_least: float = number(UNSET, least=0.5, most=50, unit="m2/l", does="thirsty surface")
    coverage_most: float = number(UNSET, least=0.5, most=50, unit="m2/l", does="smooth surface")
    coats: int = count(UNSET, least=1, most=10, does="coats")
    dry_hours: float = number(
        UNSET, least=0, most=240, unit="h", does="drying before the next coat"
    )
    grit: int = count(UNSET, least=40, most=600, does="last sanding grit before the first coat")
    renew_years: float = number(UNSET, least=0.25, most=30, unit="years", does="life until renewed")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")
