"""A workshop: what its machine can do, and how it wants its files."""

from __future__ import annotations

from flatpack.parameters import (
    UNSET,
    choice,
    count,
    flag,
    length,
    lengths,
    notes,
    pairs,
    record,
    table,
    tables,
    text,
)

LAYERS = (
    "outline",
    "opening",
    "drill-through",
    "drill-blind",
    "counterbore",
    "countersink",
    "slot",
    "housing",
    "pocket-hole",
    "bevel",
    "arris",
    "part-mark",
    "text",
    "dimension",
    "centre-line",
    "visible-edge",
    "hidden-edge",
    "datum-edge",
    "grain",
    "thin-line",
    "sheet-edge",
    "tab",
    "register-hole",
    "not-for-cutting",
)
LINES = (
    "continuous",
    "dashed",
    "dashed-spaced",
    "dotted",
    "dash-dot",
    "dash-double-dot",
    "long-dash-dot",
    "long-dash-double-dot",
    "long-dash-short-dash",
)
WEIGHTS = ("0.13", "0.18", "0.25", "0.35", "0.5", "0.7", "1.0", "1.4", "2.0")


@record
class LayerStyle:
    """How this shop wants one layer: any of name, short name, colour, line, weight."""

    layer: str = choice(UNSET, LAYERS, does="the layer that is restyled")
    name: str | None = text(
        None,
        longest=255,
        does="its name in files with long names",
        pattern=r"""[^<>/\\":;?*|=,`']+""",
        form="""1 to 255 letters without < > / \\ " : ; ? * | = , ` '""",
        example="Outline",
    )
    short: str | None = text(
        None,
        does="its name in R12",
        pattern=r"[A-Z0-9_$-]{1,31}",
        form="1 to 31 of A-Z 0-9 _ - $",
        example="OUTLINE",
    )
    colour: int | None = count(None, least=1, most=255, does="index colour")
    line: str | None = choice(None, LINES, does="line type")
    weight: str | None = choice(None, WEIGHTS, does="line width in mm")


@record
class Tabs:
    """Bridges that hold a part in its sheet until all is cut."""

    use: bool = flag(False, does="leave tabs")
    width: float = length(6.0, least=0.5, most=50, does="length of a tab along the outline")
    height: float = length(2.0, least=0.1, most=30, does="material left under the cut")
    spacing: float = length(400.0, least=30, most=3000, does="greatest distance between tabs")


@record
class ClampZone:
    """A rectangle that a clamp keeps, from the sheet's lower left corner."""

    x: float = length(UNSET, does="along the sheet")
    y: float = length(UNSET, does="across it")
    width: float = length(UNSET, least=1, does="across it")
    # Last, since a key named `length` hides the function of that name in a class body.
    length: float = length(UNSET, least=1, does="along the sheet")


@record
class Fits:
    """Slot less tongue as this shop cuts them, mm, by how the joint goes together.

    The defaults are common practice, no source: a shop tries its own on a test piece.
    """

    press: float = length(-0.1, least=-0.6, most=0.6, does="driven home with a mallet; holds")
    push: float = length(0.1, least=-0.4, most=1, does="pushed together by hand, doesn't rattle")
    slide: float = length(0.3, least=0, most=2, does="goes free; something else must lock it")


@record
class Workshop:
    """A shop with a router or a laser, or a bench without either.

    `cutters` are diameters; `inside_radius` is the smallest inside corner that may be drawn (left
    out: half the smallest cutter).  `spacing` is kept between parts beside the cutter, `margin`
    from the sheet's edge.  `skin` is what is left uncut under a part instead of tabs.
    `compensated` says that the drawing itself is offset for the kerf.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands on the job sheet", longest=60)
    process: str = choice(UNSET, ("bench", "router", "laser"), does="how parts are cut")
    dxf: str = choice("R2010", ("R12", "R2000", "R2010", "R2018"), does="version of the DXF files")
    cutters: tuple[float, ...] = lengths((), least=0.1, most=60, does="cutter diameters")
    inside_radius: float | None = length(None, least=0, most=60, does="smallest inside corner")
    relief: str = choice(
        "corner-circle",
        ("none", "corner-circle", "one-sided"),
        does="relief of inside corners in which a square part seats",
    )
    spacing: float = length(0.0, least=0, most=200, does="between parts, beside the cutter")
    margin: float = length(0.0, least=0, most=500, does="from the sheet's edge")
    kerf: float = length(0.0, least=0, most=20, does="width of the cut")
    compensated: bool = flag(False, does="draw outlines offset by half the kerf")
    thickest: float = length(UNSET, least=1, most=300, does="thickest board that can be cut")
    bed: tuple[tuple[float, float], ...] = pairs(
        (), least=50, most_count=1, does="largest sheet that fits the machine"
    )
    tabs: Tabs = table(Tabs, does="tabs")
    skin: float = length(0.0, least=0, most=3, does="left uncut under every part")
    both_faces: bool = flag(False, does="works both faces, on register holes")
    register_hole: float = length(8.0, least=2, most=30, does="diameter of the register holes")
    tolerance: float = length(0.2, least=0.005, most=5, does="what the machine holds to")
    fits: Fits = table(Fits, does="slot less tongue in joints without fasteners")
    clamps: tuple[ClampZone, ...] = tables(ClampZone, does="room that clamps keep on every sheet")
    layers: tuple[LayerStyle, ...] = tables(
        LayerStyle, does="layers that this shop names its own way"
    )
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")

    def layer_overrides(self) -> dict[str, dict[str, object]]:
        """Layer key -> what this shop changes about it, weights as numbers in mm."""
        return {style.layer: _changes(style) for style in self.layers}

    def smallest_radius(self) -> float:
        """Smallest inside corner radius that may be drawn, mm; 0 where nothing limits it."""
        if self.inside_radius is not None:
            return self.inside_radius
        return min(self.cutters, default=0.0) / 2.0


def _changes(style: LayerStyle) -> dict[str, object]:
    weight = None if style.weight is None else float(style.weight)
    every: dict[str, object] = {"name": style.name, "short": style.short, "colour": style.colour}
    every |= {"line": style.line, "weight": weight}
    return {name: value for name, value in every.items() if value is not None}
