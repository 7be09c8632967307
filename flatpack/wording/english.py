"""English: every sentence that drawings and lists print.  Sentences only; no sums, no layout."""

from __future__ import annotations

from flatpack.wording import english_fits, english_saw

NOT_FOR_CUTTING = "NOT FOR CUTTING: design has faults"
ALL_SIZES = "All sizes in millimetres"

HANDS = {"": "", "left": "left hand", "right": "right hand"}
FACES = {"show": "show face", "back": "back face"}
KINDS = {"sheet": "ripped from sheet", "planed": "planed board"}

# --- parts -------------------------------------------------------------------------------------

DATUM_END = "datum end"
DATUM_EDGE = "datum edge"
GRAIN = "grain"


def part_heading(mark: str, name: str, hand: str) -> str:
    """First line beside a part."""
    return ", ".join(t for t in (f"{mark}: {name}", HANDS[hand]) if t)


def looks_of(mark: str, looks: str) -> str:
    """Which way the drawn face of one of several parts looks."""
    return f"of {mark}: {looks}"


def seen_on(face: str, datum_left: bool, looks: str = "") -> str:
    """Which face the drawing shows, and which way that looks in the finished piece."""
    told = f" ({looks})" if looks else ""
    return f"seen on the {FACES[face]}{told}; datum end at the {'left' if datum_left else 'right'}"


def board_line(name: str, thickness: str, count: int) -> str:
    """What a part is cut from, and how many."""
    return f"{name}, measured {thickness}; {count} off"


def other_face(count: int, face: str) -> str:
    """Features drawn as hidden lines."""
    return f"hidden lines: {count} on the {FACES[face]}, turn the part over for them"


SECOND_FACE = "second face: outline and through holes are already cut (thin lines)"


def sheet_line(piece: str, code: str, date: str) -> str:
    """Last line beside a drawing: the piece, its content code, its date of issue."""
    return ", ".join(t for t in (piece, code and f"code {code}", date, "mm") if t)


def copy_of(mark: str, number: int, count: int) -> str:
    """Name beside one of several like parts."""
    return mark if count == 1 else f"{mark}, {number} of {count}"


def board_title(name: str, thickness: str) -> str:
    """Heading of a drawing with all parts of one board."""
    return f"All parts of {name}, measured {thickness}"


SIDE_BY_SIDE = "Laid side by side, not nested; grain runs left to right"

# --- drilling sheet ----------------------------------------------------------------------------

HOLE_HEADER = ("no.", "x", "y", "diameter", "depth", "face", "for")
HOLE_ROWS_HEADER = (
    "mark", "hand", "no.", "x from datum end", "y from datum edge", "diameter", "depth", "face",
    "operation", "fit", "for",
)  # fmt: skip
THROUGH = "through"
EITHER = "either"
BY_JIG = "by the jig's collar"
TO_HEAD = "to the head"
IN_OUTLINE = "in the outline"
SHORT = {"counterbore": "bore ", "countersink": "sink ", "pocket-hole": "pocket ",
         "slot": "slot ", "thin-line": "rod ", "hidden-edge": "edge "}  # fmt: skip


def edge_hole(height: str) -> str:
    """A hole in an edge or end."""
    return f"edge, {height} up"


ROD_CENTRES = "rod centres from the datum end"
CHECK_LINE = "must measure {} on the print; if not, mark out by the table"
TAPE_GOVERNS = "x from the datum end, y from the datum edge: the tape governs, paper stretches"
DRILL_SAFELY = "clamp the part down; back it up under through holes; wear eye protection"


def drilling_title(marks: str) -> str:
    """Title of a drilling sheet."""
    return f"Drilling sheet {marks}"


# --- operations on the job sheet ----------------------------------------------------------------

OPERATIONS = {
    "outline": "cut the outline",
    "opening": "cut openings",
    "drill-through": "drill through",
    "drill-blind": "drill to depth",
    "counterbore": "counterbore",
    "countersink": "countersink",
    "slot": "cut slots",
    "housing": "cut housings",
    "pocket-hole": "pocket hole: marked only, drilled with the jig",
    "bevel": "bevelled cut, marked only",
    "arris": "ease arrises",
    "part-mark": "engrave the mark, 1 mm deep at most",
    "hidden-edge": "bore into the edge or end",
    "thin-line": "notches: part of the outline",
}
BOTH = "both"
FACTS = {"piece": "Piece", "code": "Content code", "date": "Date of issue",
         "workshop": "Workshop", "board": "Board"}  # fmt: skip


def ease(radius: str) -> str:
    """All arrises eased."""
    return f"ease all arrises, R{radius}"


def face_up(face: str) -> str:
    """Face that lies up on the machine, and where the good face is then."""
    return "show face (good face up)" if face == "show" else "back face (good face down)"


JOB_TITLE = "Job sheet"
JOB_HEADER = (
    "mark", "name", "hand", "quantity", "board", "thickness measured", "length", "width",
    "face up", "grain", "operations", "fits", "smallest inside radius", "notes",
)  # fmt: skip
OPERATION_HEADER = (
    "mark", "layer", "face", "operation", "diameter", "depth", "count", "fit", "for",
)  # fmt: skip
GRAIN_LENGTHWISE = "along the length"
GRAIN_FREE = "any"
NO_INSIDE = "none"


def too_tight(radius: str, cutter: str) -> str:
    """An inside corner that the shop's cutter can't reach."""
    return f"inside radius {radius} is smaller than the cutter's {cutter}: finish by hand"


def small_holes(diameter: str, cutter: str) -> str:
    """Holes that the smallest cutter can't mill."""
    return f"holes of {diameter} are smaller than the cutter (Ø{cutter}): drill them"


TWO_FACES = "worked on both faces: second set-up, see the drawing of the other face"
POCKETS = "pocket holes are marks: drill them with the jig, not on the machine"
EDGES = "has holes in an edge or end: bore them after cutting"
PAIR = "pair: one of each hand"
PAIRS = "pairs: {} of each hand"
MIND_HAND = "mind the hand: the other hand is its mirror image"
JOB_NOTES = (
    "Unit millimetres. Outlines are closed and not offset for the cutter.",
    "Order: engrave, drill, pockets and slots, openings, then outlines.",
    "Depths are from the face named. Thickness is as measured; check the board before cutting.",
    "Machine safety: follow the machine's own instructions and the workshop's rules.",
)

# --- general arrangement ------------------------------------------------------------------------

VIEWS = {"front": "Front", "side": "Side", "plan": "Plan"}
GENERAL_ARRANGEMENT = "General arrangement"


def at_rest(panel: str, rest: str) -> str:
    """Title of the sheet with what lifts at 0 degrees, e.g. back flat."""
    return f"{panel} {rest}"


def raised(panel: str, angle: float) -> str:
    """Title of the sheet with what lifts at its highest stop."""
    return f"{panel} raised to {angle:g} degrees"


TITLE_FIELDS = {
    "owner": "legal owner", "number": "identification number", "date": "date of issue",
    "sheet": "sheet", "title": "title", "creator": "creator", "approver": "approver",
    "type": "document type", "scale": "scale", "projection": "first angle",
}  # fmt: skip
PARTS_HEADER = ("mark", "part", "finished size", "off")


def pitch(pitch_mm: str, width: str, gap: str) -> str:
    """Slats: pitch, said as what it is made of."""
    return f"pitch {pitch_mm} = {width} slat + {gap} gap"


AT_THE_HINGE = "gap at the hinge"
TO_BRACE = "to brace"


def to_board(name: str) -> str:
    """To which board a dimension runs."""
    return f"to {name.lower()}"


def size_of_bar(diameter: str, length: str) -> str:
    """Size of a round bar in the parts list."""
    return f"Ø{diameter} x {length}"


# --- lists --------------------------------------------------------------------------------------

CUTTING_HEADER = (
    "mark", "name", "hand", "count", "length", "width", "thickness measured", "board", "grain",
    "rip from width", "notes",
)  # fmt: skip
TIMBER_HEADER = (
    "board", "thickness measured", "width sold", "parts", "longest part",
    "net length all parts, m", "net area all parts, m2", "notes",
)  # fmt: skip
FROM_SHEET = "sheet"
NET_BOARDS = "net, without saw cuts and offcuts; board lengths to order come from the saw plan"
NET_SHEETS = "net, without saw cuts and offcuts; sheets to order come from the sheet plan"
TOO_WIDE = "wider than is sold"
CODE_COLUMNS = ("piece", "content code")
BARS_HEADER = ("mark", "name", "count", "length", "diameter", "stock", "fit")
HARDWARE_HEADER = ("item", "size", "count", "use")
DRILLS_HEADER = ("drill", "diameter", "for", "holes")
JIG_HEADER = ("mark", "name", "board", "setting", "slope", "drill", "pilot", "screw", "holes")
TOOLS_HEADER = ("tool", "for")
SPACERS_HEADER = ("name", "count", "length", "width", "use")
WORKINGS_HEADER = ("dimension", "value", "unit", "sum")

TITLES = {
    "cutting-list": "Cutting list",
    "timber": "Timber, net",
    "bars": "Round bars to cut",
    "hardware": "Hardware, sizes as sold",
    "drills": "Drills",
    "jig-settings": "Pocket-hole jig settings",
    "tools": "Tools needed",
    "spacers": "Gap spacers and stop blocks to cut",
    "workings": "Workings",
    "holes": "Hole table",
    "job-sheet": "Parts",
    "operations": "Operations",
}
PURPOSES = {
    "cutting-list": "lengths and widths to cut, for the saw or the timber merchant",
    "timber": "how much of each board and width the parts add up to, for the timber merchant",
    "bars": "round bars to cut to length",
    "hardware": "what to buy, in sizes that are sold",
    "drills": "every drill needed and what it is for",
    "saw-settings": "how to set table and blade of the saw for every cut that isn't square",
    "jig-settings": "how to set the pocket-hole jig for each part",
    "tools": "tools that the features and fasteners call for",
    "spacers": "spacers and blocks to cut before assembly",
    "workings": "how each derived dimension came about",
    "holes": "every hole of every part, measured from the datum end and edge",
    "job-sheet": "what the shop is asked to do with each part",
    "operations": "every operation: layer, face, diameter, depth",
    "part": "one part, for the machine",
    "part-svg": "one part at 1:1, to print or view",
    "second-face": "the other face of a part worked on both",
    "board": "all parts of one board, laid side by side",
    "drilling": "drilling template at 1:1 with its hole table",
    "arrangement": "the finished piece: front, side and plan with dimensions",
    "job-page": "job sheet to print",
}

DRILL_KINDS = {
    "drill-through": "drill bit", "drill-blind": "drill bit", "hidden-edge": "drill bit, long",
    "counterbore": "flat-bottomed bit", "countersink": "countersink",
    "pocket-hole": "stepped drill", "slot": "drill bit, slot ends",
}  # fmt: skip

TOOLS = {
    "saw": ("saw with a fine blade and a straight-edge", "cutting boards to length and width"),
    "bevel": english_saw.TOOL,
    "bar-saw": ("fine saw or hacksaw", "cutting round bars"),
    "drill": ("drill driver", "holes and screws"),
    "measure": ("steel tape, square, pencil", "setting out"),
    "eyes": ("eye and ear protection, dust mask", "all cutting, drilling and sanding"),
    "jig": ("pocket-hole jig with its stepped drill and clamp", "pocket holes"),
    "sink": ("countersink", "heads of countersunk screws"),
    "bore": ("flat-bottomed bit", "counterbores"),
    "stop": ("depth stop or tape on the drill", "holes to depth"),
    "upright": ("drill stand or drilling guide", "bolt and pivot holes square to the face"),
    "curve": ("jigsaw or band saw, and a sanding block", "curves and notches"),
    "round": ("rasp or router with a rounding cutter", "arrises"),
    "spanner": ("spanner for {} nuts", "bolts"),
    "key": ("key or bit for {}", "bolts that come apart"),
    "driver": ("long driver bit", "pocket screws"),
    "clamps": ("clamps", "holding parts while glueing and screwing"),
    "mallet": ("mallet", "seating square necks and dowels"),
    "block": english_fits.MALLET,
}
