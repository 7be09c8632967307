"""The layer table: what each drawn line means, and how it looks on paper and in a file.

A drawing names a layer by its key; a workshop may give a layer another name, short name, colour,
line or weight, never another meaning.  Layers are told apart by line type and weight, so that a
black-and-white print still tells a blind hole from one that goes through.

Line patterns and weights follow ISO 128-2: lengths are multiples of the line's own width d
(short dash 6d, dash 12d, long dash 24d, gap 3d, wide gap 18d, dot 0.5d); neighbouring weights
that must be told apart stand at least 2 : 1.  Colours are index colours of the DXF palette; 7 is
black on white paper and white on a dark screen.  What must be read or measured is 7: a printer
breaks a thin grey line up into dots.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from flatpack.frozen import field, frozen, replace

#: Line type -> dash, gap, dash, gap ... in multiples of the line width; empty: continuous.
LINES: Mapping[str, tuple[float, ...]] = {
    "continuous": (),
    "dashed": (12, 3),
    "dashed-spaced": (12, 18),
    "dotted": (0.5, 3),
    "dash-dot": (12, 3, 0.5, 3),
    "dash-double-dot": (12, 3, 0.5, 3, 0.5, 3),
    "long-dash-dot": (24, 3, 0.5, 3),
    "long-dash-double-dot": (24, 3, 0.5, 3, 0.5, 3),
    "long-dash-short-dash": (24, 3, 6, 3),
}

#: Line widths in mm (ISO 128-2 series).
WEIGHTS: tuple[float, ...] = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)

_SHORT = r"[A-Z0-9_$-]{1,31}"
_NAME = r"[^\x00-\x1f<>/\\\":;?*|=,`']{1,255}"
_MAY_CHANGE = ("name", "short", "colour", "line", "weight")


@frozen(kw_only=False)
class Layer:
    """One layer: `cut` when the machine works along it, `text` when it may carry lettering.

    `name` is for files with long names, `short` for those that allow only 31 upper-case letters,
    digits, _ - $.  `colour` is a palette index 1 to 255, `line` a key of LINES, `weight` mm.
    """

    key: str
    name: str
    short: str
    colour: int
    line: str
    weight: float
    cut: bool = False
    text: bool = False


@frozen(kw_only=False)
class LayerSet:
    """The layers of one workshop, in the order of the table; hashable."""

    layers: tuple[Layer, ...]
    _rows: dict[str, Layer] = field(init=False, compare=False)

    def __post_init__(self) -> None:
        """Index the rows by key."""
        object.__setattr__(self, "_rows", {layer.key: layer for layer in self.layers})

    def __getitem__(self, key: str) -> Layer:
        """The layer with this key; KeyError when the table has none."""
        return self._rows[key]

    def __iter__(self) -> Iterator[Layer]:
        """Layers in the order of the table."""
        return iter(self.layers)


_TABLE: tuple[Layer, ...] = (
    Layer("sheet-edge", "Sheet edge", "SHEET_EDGE", 8, "long-dash-double-dot", 0.35),
    Layer("outline", "Outline", "OUTLINE", 7, "continuous", 0.5, cut=True),
    Layer("opening", "Opening", "OPENING", 7, "continuous", 0.25, cut=True),
    Layer("drill-through", "Hole through", "HOLE_THROUGH", 7, "continuous", 0.13, cut=True),
    Layer("drill-blind", "Hole blind", "HOLE_BLIND", 7, "dashed", 0.13, cut=True),
    Layer("counterbore", "Counterbore", "COUNTERBORE", 35, "dash-double-dot", 0.25, cut=True),
    Layer("countersink", "Countersink", "COUNTERSINK", 35, "dotted", 0.35, cut=True),
    Layer("slot", "Slot", "SLOT", 95, "dash-dot", 0.35, cut=True),
    Layer("housing", "Housing", "HOUSING", 95, "dashed", 0.35, cut=True),
    Layer("register-hole", "Register hole", "REGISTER_HOLE", 7, "long-dash-dot", 0.25, cut=True),
    Layer("tab", "Tab", "TAB", 8, "continuous", 0.7),
    Layer("arris", "Arris", "ARRIS", 8, "long-dash-short-dash", 0.25, cut=True),
    Layer("part-mark", "Part mark", "PART_MARK", 252, "continuous", 0.25, cut=True),
    Layer("pocket-hole", "Pocket hole", "POCKET_HOLE", 7, "long-dash-double-dot", 0.25),
    Layer("bevel", "Bevelled cut", "BEVELLED_CUT", 7, "dash-double-dot", 0.5),
    Layer("visible-edge", "Visible edge", "VISIBLE_EDGE", 7, "continuous", 0.25),
    Layer("hidden-edge", "Hidden edge", "HIDDEN_EDGE", 7, "dashed", 0.18),
    Layer("datum-edge", "Datum edge", "DATUM_EDGE", 7, "long-dash-dot", 0.7),
    Layer("centre-line", "Centre line", "CENTRE_LINE", 7, "long-dash-dot", 0.18),
    Layer("grain", "Grain", "GRAIN", 8, "continuous", 0.18),
    Layer("thin-line", "Thin line", "THIN_LINE", 7, "continuous", 0.18),
    Layer("dimension", "Dimension", "DIMENSION", 7, "continuous", 0.18, text=True),
    Layer("text", "Text", "TEXT", 7, "continuous", 0.25, text=True),
    Layer("not-for-cutting", "Not for cutting", "NOT_FOR_CUTTING", 7, "continuous", 0.7, text=True),
)

DEFAULT_LAYERS = LayerSet(_TABLE)


def layer_set(overrides: Mapping[str, Mapping[str, object]] | None = None) -> LayerSet:
    """The table with a workshop's own names, colours, lines and weights.

    Args:
        overrides: layer key -> any of name, short, colour, line, weight.

    Raises:
        ValueError: with every fault that `layer_faults` finds.
    """
    overrides = overrides or {}
    faults = layer_faults(overrides)
    if faults:
        raise ValueError("; ".join(faults))
    return LayerSet(_changed(overrides)) if overrides else DEFAULT_LAYERS


def layer_faults(overrides: Mapping[str, Mapping[str, object]]) -> tuple[str, ...]:
    """Every fault of a workshop's layers, as "key: what is wrong, what is allowed"."""
    known = {layer.key for layer in _TABLE}
    faults = [f"{key}: no such layer; there are {', '.join(sorted(known))}"
              for key in overrides if key not in known]  # fmt: skip
    for key, changes in overrides.items():
        faults += [f"{key}.{name}: can't be changed; only {', '.join(_MAY_CHANGE)} can"
                   for name in changes if name not in _MAY_CHANGE]  # fmt: skip
        faults += [f"{key}.{name}: {value!r} is not {_ALLOWED[name]}"
                   for name, value in changes.items()
                   if name in _MAY_CHANGE and not _fits(name, value)]  # fmt: skip
    return tuple(faults) or _shared_names(_changed(overrides))


_ALLOWED: Mapping[str, str] = {
    "name": "a name of 1 to 255 characters without < > / \\ \" : ; ? * | = , ` '",
    "short": "1 to 31 of A-Z 0-9 _ - $",
    "colour": "a palette index from 1 to 255",
    "line": f"one of {', '.join(LINES)}",
    "weight": f"one of {', '.join(map(str, WEIGHTS))} mm",
}


def _fits(name: str, value: object) -> bool:
    if name == "colour":
        return isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 255
    if name == "weight":
        return not isinstance(value, bool) and value in WEIGHTS
    if not isinstance(value, str):
        return False
    if name == "line":
        return value in LINES
    pattern = _SHORT if name == "short" else _NAME
    return re.fullmatch(pattern, value) is not None and value == value.strip()


def _changed(overrides: Mapping[str, Mapping[str, object]]) -> tuple[Layer, ...]:
    rows = (_with(layer, overrides.get(layer.key, {})) for layer in _TABLE)
    return tuple(rows)


def _with(layer: Layer, changes: Mapping[str, object]) -> Layer:
    return replace(layer, **changes) if changes else layer  # checked by _fits


def _shared_names(layers: tuple[Layer, ...]) -> tuple[str, ...]:
    """One layer an operation: two layers under one name would mix what the machine does."""
    faults: list[str] = []
    for attribute in ("name", "short"):
        seen: dict[str, str] = {"0": "the format", "defpoints": "the format"}
        for layer in layers:
            folded = str(getattr(layer, attribute)).casefold()
            if folded in seen:
                faults.append(f"{layer.key}.{attribute}: already used by {seen[folded]}")
            seen.setdefault(folded, layer.key)
    return tuple(faults)
