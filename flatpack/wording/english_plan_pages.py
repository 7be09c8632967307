"""English of the cutting plans on paper: pages, lists, nested sheets.  Sentences only."""

from __future__ import annotations

# --- pages ---------------------------------------------------------------------------------------

SAW_DOCUMENT, BOARDS_DOCUMENT = "saw plan", "boards to cut"
NEST_DOCUMENT = "nested sheet"
CUT_HEADER = ("cut", "x", "way", "fence", "from", "gives")
WAYS = {"rip": "rip", "cross": "cross"}
TRIM = "trim"
TRIMMED = {"rip": "long edges", "cross": "ends"}
ROW_HEADER = ("cut", "mark", "length", "tape", "then")
TAPE_NOTES = (
    "Tape: from the end that is cut first to the far end of the part, the cuts between counted in.",
    "Set a stop for each length rather; check the first of each with the tape. Eye and ear"
    " protection on, guards on.",
)


def is_part(name: str, mark: str) -> str:
    """A piece that is a part as it comes."""
    return f"{name} = {mark}"


def rest_is_part(gives: str, mark: str) -> str:
    """What remains of a piece after its last cut is a part too."""
    return f"{gives}; rest is {mark}"


ORDER_NOTES = (
    "Cuts in order; the fence is set to the figure, what lies at the fence is what the cut gives.",
    "Figures in mm. The saw's cut is not part of them. Eye and ear protection on, guards on.",
)


def sheet_title(board: str, number: int, count: int) -> str:
    """Title of a saw page."""
    return f"{board}: sheet {number} of {count}"


def boards_title(board: str) -> str:
    """Title of a page of boards."""
    return f"{board}: boards to cut"


def page_of(title: str, page: int, pages: int) -> str:
    """Title of one of several pages."""
    return title if pages == 1 else f"{title}, page {page} of {pages}"


def offcut(length: str, width: str) -> str:
    """A rest that is kept."""
    return f"offcut {length} x {width}"


def keep(length: str) -> str:
    """A rest of a board."""
    return f"keep {length}"


def board_row(times: int, name: str, offcut: bool) -> str:
    """One board, or several that are cut alike."""
    many = f"{times} x " if times > 1 else ""
    return f"{many}{name}" + (" (from the rack)" if offcut else "")


def cut_alike(times: int, name: str, offcut: bool) -> str:
    """Heading of a page: the board, and how many are cut as drawn."""
    rack = " (from the rack)" if offcut else ""
    return f"cut {times} alike: {name}{rack}" if times > 1 else f"{name}{rack}"


def ripped(across: int, width: str) -> str:
    """What is done with a blank after the cut."""
    return f"rip into {across} of {width}" if across > 1 else f"rip to {width}"


def trim_edges(trim: str) -> str:
    """What comes before the first part."""
    return f"trim {trim} off the end first"


def defect(low: str, high: str) -> str:
    """A place cut out."""
    return f"defect {low} to {high}"


# --- lists ---------------------------------------------------------------------------------------

TICK = "[ ]"
ORDER_TITLE = "Order for the merchant"
PLAN_TITLE = "Cutting plan"
BUY_HEADER = ("tick", "kind", "item", "size", "needed", "sold as", "count", "price", "total")
CUTS_HEADER = (
    "tick", "board", "sheet", "cut", "stage", "way", "fence", "from", "gives", "part ready",
)  # fmt: skip
CROSSCUTS_HEADER = ("tick", "board", "no.", "cut", "mark", "length", "tape at far end", "then")
SUMMARY_HEADER = ("plan", "result", "bound", "method", "proved", "repeatable")
WASTE_HEADER = ("plan", "unit", "stock", "parts", "kept", "waste %")
BUNDLE_HEADER = ("piece", "bundle", "parts", "length", "width", "height", "kg", "within the figure")
KIT_HEADER = ("piece", "bag", "step", "item", "size", "count")
TIME_HEADER = ("work", "count", "unit", "minutes each", "minutes")
NEST_HEADER = ("board", "sheet", "mark", "x", "y", "turn", "order")
FINDING_HEADER = ("severity", "part", "finding", "remedy")
TITLES = {
    "order": "What to buy",
    "saw-cuts": "Cuts on the panel saw, in order",
    "cross-cuts": "Boards cut to length, in order",
    "plan-summary": "Result beside the least possible",
    "waste": "What the timber becomes",
    "bundles": "Packed bundles of one copy",
    "kit-bags": "Kit bags by assembly step, for one copy",
    "bench-time": "Estimate of bench time",
    "nest": "Places on the sheets",
    "cut-findings": "Findings",
}
PURPOSES = {
    "order": "what to buy, to tick; with prices where the stock list has them",
    "saw-cuts": "every cut of the panel saw in order with its fence setting",
    "cross-cuts": "every cut of the boards in order with its tape distance",
    "plan-summary": "each plan with the bound that no plan can undercut",
    "waste": "share of the timber that becomes parts, offcuts and waste",
    "bundles": "bundles with size and weight, against the lifting figures",
    "kit-bags": "hardware in bags by step",
    "bench-time": "hours at the bench, from counts and rates",
    "nest": "place of each part on its sheet",
    "page-order": "the merchant's order, to print and tick",
    "page-plan": "the whole plan on one page",
    "saw-sheet": "one sheet for the panel saw: parts, cuts in order, fence settings",
    "boards": "boards to cut to length, part by part",
    "nest-sheet": "one nested sheet, to look at",
    "nest-dxf": "one nested sheet, for the machine",
    "nest-second": "the same sheet turned over, for the other face",
    "offcuts": "usable offcuts as a stock list for next time",
    "layout": "accepted layout, used again while nothing of it changes",
    "findings": "what the plans found, for a program",
}
FACTS = {
    "pieces": "Pieces", "code": "Code of this plan", "stock": "Stock list", "saw": "Saws",
    "tolerance": "Saw holds to", "sum": "Sum", "weight": "Weight of parts", "time": "Bench time",
    "shop": "Workshop", "search": "Search", "surface": "Surface", "glued": "Glued area",
}  # fmt: skip


def pieces_line(rows: list[tuple[int, str]]) -> str:
    """Which pieces, how often."""
    return ", ".join(f"{count} x {name}" if count > 1 else name for count, name in rows)


def with_code(name: str, code: str) -> str:
    """A piece with the content code that stands on its own sheets."""
    return f"{name} (content code {code})" if code else name


def numbered(number: int, name: str, several: bool) -> str:
    """A piece with the number that stands before its marks."""
    return f"{number} {name}" if several else name


def saws_line(kerf: str, trim: str, cross: str, end: str) -> str:
    """What the saws take away."""
    return f"panel saw {kerf} wide, edges trimmed {trim}; cross-cut {cross} wide, ends {end}"


def sum_line(total: str, currency: str, missing: int) -> str:
    """The sum, and how many rows it lacks."""
    lacking = f"; {missing} rows without a price are not in it" if missing else ""
    return f"{total} {currency}".strip() + lacking


def kilograms(value: float) -> str:
    """Weight."""
    return f"{value:.1f} kg"


def hours(minutes: float) -> str:
    """Time for people."""
    whole = round(minutes)
    return f"about {whole // 60} h {whole % 60:02d} min, drying not counted"


def square_metres(value: float) -> str:
    """An area."""
    return f"{value:.2f} m2"


ORDER_LINES = (
    "Please cut straight through in the order given; grain along the length of every part.",
    "Tick each row as it is loaded. Measure thickness before cutting: the sizes follow it.",
)
PLAN_LINES = (
    "A bound is the least that any plan could need; it is worked out apart from the plan itself.",
    "Bundles are for one copy. Lifting figures: HSE filter for loads close to the body, no legal"
    " limit; less when twisting, lifting often or over distance.",
    "Times are the stock list's rates times counts: change them to your own.",
)
YES, NO = "yes", "no"
LIFT_PLACES = ("head", "shoulder", "elbow", "knuckle", "lower leg")


def within(lifter: str, places: list[str]) -> str:
    """Up to which heights the filter's figure is kept."""
    if not places:
        return f"{lifter}: none, two carry it"
    return f"{lifter}: {', '.join(places)}"


# --- nested sheets -------------------------------------------------------------------------------

OTHER_FACE = "other face"
NOT_COMPENSATED = "not offset for the cutter: cut outside outlines, inside openings"
ORDER_OF_CUTS = (
    "numbers: order of the outlines; engrave, drill and cut openings first. Shop: mind guards, dust"
    " and clamps."
)


def nest_title(board: str, number: int, count: int, face: str) -> str:
    """Title of a nested sheet."""
    title = f"{board}: nested sheet {number} of {count}"
    return f"{title}, {face}, turned over left to right" if face else title


def skin(depth: str) -> str:
    """What holds the parts: uncut wood below."""
    return f"leave a skin of {depth} under every part"


def tabs(width: str, height: str) -> str:
    """What holds the parts: bridges."""
    return f"leave tabs {width} long, {height} high where drawn"


def compensated(kerf: str) -> str:
    """A drawing made for the kerf."""
    return f"offset by half the kerf of {kerf}: cut on the line"


def dense(percent: float) -> str:
    """Share of a sheet that becomes parts."""
    return f"{percent:.0f} % of it becomes parts"


def spaces(between: str, edge: str) -> str:
    """Distances kept."""
    return f"{between} between parts, {edge} to the edge"


def unit(currency: str, priced: bool) -> str:
    """What a plan's cost is counted in."""
    return (currency or "in the stock list's currency") if priced else "mm of stock (no prices)"


def new_sheets(count: int, settings: int | None) -> str:
    """New sheets, and how often the fence is moved."""
    sheets = "1 new sheet" if count == 1 else f"{count} new sheets"
    return sheets if settings is None else f"{sheets}, {settings} fence settings"


def gap(percent: str) -> str:
    """How far a plan may be from the least."""
    return f"no, at most {percent} % above"


ALL_PIECES, SPARES = "all pieces", "Spares"
