"""From the keys of a part to its outline: lengths looked up, the generator's record filled."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from flatpack.parameters import Sum, specs_of
from flatpack.pieces.common.generators import GENERATORS, Shaped
from flatpack.pieces.common.part_keys import DERIVED
from flatpack.pieces.composed.part_records import BAR

if TYPE_CHECKING:
    from flatpack.pieces.composed.lengths import Lengths


def own_extent(layout: Lengths, name: str, axis: int) -> float | None:
    """Length, width or thickness as a part's own keys give it; None where its places must.

    Raises:
        StuckError: it can't be worked out.
    """
    kind, made = layout.parts[name]
    if kind == BAR:
        thick = float(layout.profiles.rod(made.rod).diameter)
        return layout.given(name, "length") if axis == 0 else thick
    if axis == 2:
        return layout.board_of(name).thickness
    if DERIVED[axis] in specs_of(made):
        return layout.given(name, DERIVED[axis])
    bounds = shape_of(layout, name).outline.bounds
    return bounds[2 + axis] - bounds[axis]


def shape_of(layout: Lengths, name: str) -> Shaped:
    """Outline, openings and notches of a part, in its own axes.

    Raises:
        StuckError: it can't be worked out.
    """
    where = (f"parts.{name}", name)
    return layout.faults.once(
        ("shape", name), f"{name} (its shape)", where, lambda: _shape(layout, name)
    )


def _shape(layout: Lengths, name: str) -> Shaped:
    kind = layout.parts[name].kind
    generator = GENERATORS[kind]
    values = {key: _plain(layout, name, key) for key in specs_of(generator.record)}
    try:
        return generator.make(generator.record(**values), layout.profiles)
    except ValueError as wrong:
        raise layout.faults.stop(
            f"parts.{name}", "", f"keys that make a {kind}", str(wrong)
        ) from None


def _plain(layout: Lengths, name: str, key: str) -> Any:
    """A key's value with its lengths in mm."""
    made = layout.parts[name].made
    value, spec = getattr(made, key), specs_of(made)[key]
    if key in DERIVED and spec.kind == "total":
        return layout.extent(name, DERIVED.index(key))
    where = f"parts.{name}.{key}"
    if isinstance(value, Sum):
        return layout.ranged(spec, value, where)
    if spec.kind == "total" and isinstance(value, tuple):
        return tuple(layout.ranged(spec, one, f"{where}[{i}]") for i, one in enumerate(value))
    return value
