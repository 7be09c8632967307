"""English: every sentence that templates, story sticks and part labels print."""

from __future__ import annotations

from collections.abc import Sequence

from flatpack.wording.english import FACES, HANDS

# --- findings -----------------------------------------------------------------------------------

MARGIN_BELOW_NOUGHT = "margin and border can't be below nought"
SMALLER_MARGIN = "take a smaller margin or border"
MEASURE_AGAIN = (
    "measure the rulers again with a steel tape, in millimetres, on pages printed without "
    "a correction; the ruler along the short side comes first"
)


def margins_meet(margin: str, border: str, paper: str) -> str:
    """Margins larger than the page."""
    return f"margins of {margin} and borders of {border} on both sides leave no room on {paper}"


def paper_too_small(paper: str) -> str:
    """No window fits."""
    return f"{paper} is too small: a window with its words doesn't fit"


def would_do(paper: str) -> str:
    """The next paper."""
    return f"{paper} would do"


def printed_wrong(side: str) -> str:
    """A measured ruler that is far off."""
    return f"the ruler along the {side} side can't have measured this: no printer is so far off"


def no_room(window: str, paper: str) -> str:
    """A window that can't be put on the paper, not even in tiles."""
    return f"a window of {window} can't be put on {paper} with its words and hole table"


def in_tiles(sheets: int, paper: str) -> str:
    """A window larger than the page."""
    return f"a window takes {sheets} sheets of {paper}, joined by their register marks"


def name_too_long(paper: str) -> str:
    """A name that its field can't hold."""
    return f"the name doesn't fit its field on {paper} and is cut off there"


SHORTER_NAME = "give it a shorter name"


def pages_used(kind: str, pages: int, plain: int, paper: str) -> str:
    """What windows save."""
    return (f"{kind}: {pages} {'page' if pages == 1 else 'pages'} of {paper}; "
            f"tiling the whole parts would take {plain}")  # fmt: skip


PURPOSES = {
    "templates": "paper templates at 1:1 to tape on, prick through and drill",
    "story-sticks": "strips at 1:1 to mark out long members",
    "part-labels": "labels to stick on the parts as they come off the saw",
}

# --- every page ---------------------------------------------------------------------------------

TEMPLATES, STICKS, LABELS = "1:1 templates", "Story sticks", "Part labels"
TITLE_FIELDS = ("title", "document type", "identification number", "sheet")
SIGN_FIELDS = ("legal owner", "creator", "approval person", "date of issue")


def sheet_of(number: int, count: int, size: str) -> str:
    """Sheet number of how many, and the paper."""
    return f"{number} of {count}, {size}"


ACTUAL_SIZE = (
    "Print at actual size (100 %), never fitted to the page; lay a steel tape on both rulers."
)
TAPE_GOVERNS = (
    "The tape governs: check every mark with a steel tape, x from the datum end, y from the datum "
    "edge, in mm; paper stretches."
)


def ruler(length: str) -> str:
    """Words beside a ruler."""
    return f"must measure {length}"


def corrected(short: str, long: str) -> str:
    """A page stretched for one printer."""
    return f"Corrected for one printer: short side x {short}, long side x {long}. "


# --- windows ------------------------------------------------------------------------------------


def marks_heading(marks: Sequence[str], name: str, hands: Sequence[str]) -> str:
    """Which parts a window is for."""
    said = [HANDS[h] for h in dict.fromkeys(hands) if h]
    return ", ".join((f"{', '.join(marks)}: {name}", *said))


def lay_on(face: str, datum_left: bool) -> str:
    """Where the paper goes."""
    end = "left" if datum_left else "right"
    return f"{FACES[face].upper()} up, datum edge below, datum end {end}."


DATUM_WAYS = (
    ("datum end towards the {}", "datum end towards the {}"),
    ("datum end towards the left", "datum end towards the right"),
    ("datum end down", "datum end up"),
)
"""Where a datum end points, for parts along x, y and z: x axis of the part forwards, backwards."""


def place(end: str, looks: str) -> str:
    """How the part lies in the finished piece."""
    face = looks.replace("it looks", "this face looks")
    said = "; ".join(t for t in (f"In the piece: {end}" if end else "", face) if t)
    return f"{said[0].upper()}{said[1:]}." if said else ""


def meets_hole(mark: str, number: int, y: str) -> str:
    """A hole of another part on the same axis; `y` where it differs."""
    there = f" (there y {y})" if y else ""
    return f"meets {mark} hole {number}{there}"


def without_mate(purpose: str) -> str:
    """What goes in a hole, without the part that it comes from or goes into."""
    return purpose.partition(", into ")[0].partition(", from ")[0]


def pockets_from_edge(gap: str, far: bool) -> str:
    """Pocket holes along an edge."""
    edge = "edge opposite the datum edge" if far else "datum edge"
    return (
        f"Pocket holes without a row: see the story stick; oval's middle {gap} from the {edge}; "
        "drilled with the jig."
    )


ROD_HERE = "rod, not drilled"


def bore_here(diameter: str) -> str:
    """At the middle of a notch with a round seat."""
    return f"seat Ø{diameter}"


SAWN_NOTCH = "notch: saw and chisel to the line"


def bored_notch(diameter: str) -> str:
    """A notch with a round seat."""
    return f"notch: drill Ø{diameter}, then saw out"


def stretch(marks: str, number: int, count: int, low: str, high: str) -> str:
    """Which stretch of which part a window shows."""
    of = f"window {number} of {count}" if count > 1 else "window"
    return f"{marks} {of}: {low} to {high}"


def tag(marks: str, number: int, count: int, face: str) -> str:
    """Inside each window, for when it is cut out."""
    return f"{marks} {number}/{count} {FACES[face].upper()}"


def tape_line(distance: str, end: str) -> str:
    """The line across a window that ties it to the nearest end."""
    return f"steel-tape line: {distance} from {end}"


ON_TAPE_LINE = "steel-tape line {}"


def edge_away(distance: str) -> str:
    """A window that doesn't reach the datum edge."""
    return f"lower side {distance} from the datum edge"


def other_hand(mark: str) -> str:
    """A handed part."""
    return f"Its mirror image is {mark}: use that part's own sheet."


NOT_HANDED = "Not handed."
SECOND_FACE = "Second face: the outline and what is in thin lines is already cut."


def under_here(count: int, face: str) -> str:
    """Work on the other face."""
    return f"{count} more holes on the {FACES[face]}: on their own sheet, dashed if seen here."


def stock(count: int, size: Sequence[str]) -> str:
    """How many parts, how large."""
    return f"{count} off, {' x '.join(size)}."


def tile(row: int, rows: int, column: int, columns: int) -> str:
    """Place of a sheet among those that make a window."""
    return (f"Sheet row {row} of {rows}, column {column} of {columns}: "
            "lay over its neighbour until the register marks meet.")  # fmt: skip


TABLE = ("no.", "x", "y", "hole", "for")
DATUM_EDGE, DATUM_END, OTHER_END, GRAIN = "datum edge", "datum end", "other end", "grain"
RADIUS = "R{}"

# --- story sticks -------------------------------------------------------------------------------

STICK_LEGEND = (
    "Cut out the rows. Cut the right end of each on its join line, lay this cut end on the next "
    "row's join line, and glue: it must measure what the figures say. Lay the part with the face "
    "named up and its datum edge towards you; butt the stick, words upright, against the board's "
    "edge named, nought at the datum end, and carry the marks over. For the other hand turn the "
    "stick end for end. Bracket: a part that meets the member here, with its mark; +1.5: it goes "
    "1.5 past the end; ring: its own datum end. Triangle: middle of a pocket hole. Figures: mm "
    "from the datum end.",
)


def overhang(mark: str, over: str) -> str:
    """A part that reaches past the member's end."""
    return f"{mark} +{over}"


def stick_row(marks: str, row: int, rows: int, low: str, high: str) -> str:
    """Words in the middle of a row."""
    return f"{marks}: row {row} of {rows}, {low} to {high}"


def stick_edge(marks: str, face: str, left: bool, far: bool, gap: str) -> str:
    """Words along an edge of a stick; `gap` is from the edge to the pockets' middles."""
    edge = "edge opposite the datum edge" if far else "datum edge"
    side = "left" if left else "right"
    pockets = f"; pockets' middles {gap} in" if gap else ""
    return f"{marks}: {FACES[face]} up, datum end {side}, along the {edge}{pockets}"


def join_line(number: int, distance: str) -> str:
    """Where two rows meet."""
    return f"join {number}: {distance}"


# --- labels -------------------------------------------------------------------------------------


def size(length: str, width: str, thickness: str) -> str:
    """Size of a part."""
    return f"{length} x {width} x {thickness}"


def bar_size(diameter: str, length: str) -> str:
    """Size of a round bar."""
    return f"Ø{diameter} x {length}"


def number_of(number: int, count: int) -> str:
    """One of several like parts."""
    return f"{number} of {count}"


def worked_on(face: str) -> str:
    """The face that is marked out first."""
    return f"mark out on the {FACES[face]}"


UNWORKED = "no holes: best face up"


def goes_with(marks: str) -> str:
    """Parts that it meets."""
    return f"meets {marks}"


def side_of(side: str) -> str:
    """Where in the piece."""
    return {"left": "left side", "right": "right side", "": "across the width"}[side]
