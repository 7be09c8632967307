"""English: the build book's sentences, but those of the assembly steps.

Sentences only; no sums, no layout.  Lengths come as text with their unit.
"""

from __future__ import annotations

from collections.abc import Sequence

LANGUAGE = "en"
PURPOSE = "how to build the piece, step by step"
CONTENTS = "Contents"
WARNING = "NOT FOR CUTTING: design has faults. Don't build from this book."
UNIT = {"mm": "mm", "inches": "in"}
FACTS = ("Piece", "Content code", "Date of issue", "Lengths in", "Overall size", "Mass of timber")
UNITS_SAID = {
    "mm": "millimetres",
    "inches": "inches to the nearest 1/16; the exact decimal in brackets where it matters",
}


def title(piece: str) -> str:
    """Title of the book."""
    return f"{piece}: build book"


def foot(piece: str, code: str, date: str) -> str:
    """Foot of every page."""
    return ", ".join(t for t in (piece, code and f"code {code}", date) if t)


def page_of(number: int, count: int) -> str:
    """Page number."""
    return f"page {number} of {count}"


def overall(along: str, across: str, high: str, bearing: str) -> str:
    """Overall size, back flat: `along` from foot or front to rear, `across` from left to right."""
    if bearing == "lying":
        return f"{along} long, {across} wide, {high} high"
    return f"{across} wide from left to right, {along} deep from front to rear, {high} high"


def kilograms(mass: float) -> str:
    """Mass of boards and bars."""
    return f"about {mass:.0f} kg, without metal"


CHAPTERS = {
    "about": "How to read this book",
    "safety": "Safety first",
    "needed": "What you need",
    "parts": "The parts",
    "making": "Make the parts",
    "assembly": "Put it together",
    "moving": "The moving {panel}",
    "finish": "Finish",
    "care": "Care",
    "checks": "What the checks say",
    "sums": "Where the numbers come from",
}

# --- how to read --------------------------------------------------------------------------------

FINISHED = "The finished piece"
RAISED = "The finished piece, {panel} at its highest stop"


def finished_alt(parts: int, kinds: int) -> str:
    """What the cover's picture shows."""
    return f"Line picture of the finished piece from above: {parts} parts of {kinds} kinds."


ABOUT = (
    "A mark such as B-L names a part: the same letter is the same part, L and R are its left and "
    "right hand, which are mirror images. Left and right are those of somebody who {use}. Stick a "
    "label with the mark on every part as it comes off the saw, on a face that will be hidden, and "
    "leave it there until the finish.",
    "The show face is the better face, the one that will be seen; the back face is the other one. "
    "The datum end and the datum "
    "edge are the end and the edge from which every hole is measured; pencil a tick on both. "
    "The 1:1 templates and drilling sheets with the same content code give every hole's place; "
    "this book tells in which order to use them.",
    "A place such as 'front edge 88 mm from the rail's front end' is measured from that end of the "
    "part that is there already to the named edge, end or face of the part that comes in.",
    "In the step pictures the grey parts are added in that step, white ones are there already. "
    "Black holes, dark metal and dark wheels are used in that step; white holes wait for a later "
    "one, or were used before.",
    "Prints with another content code belong to another design: don't mix them.",
)
PART_NAMES = "Marks and names"

# --- safety -------------------------------------------------------------------------------------

SAFETY = (
    "Wear eye and ear protection for all sawing, drilling and routing, and keep sleeves, hair and "
    "gloves away from turning tools. Follow the instructions of each machine, keep its guards on, "
    "and unplug it before you change a blade or bit.",
    "Wood dust harms lungs, and dust from some woods and from plywood glue more so: use "
    "extraction and a fitting dust mask, also when sanding by hand.",
    "Clamp the work; never hold a part in the hand while you drill it. Back up the exit side.",
    "Glue, sealer and finish: gloves, fresh air, no flames; read the maker's safety sheet. Rags "
    "with oil or stain can catch fire by themselves: dry them flat outdoors, one by one.",
    "Turn, lift and carry the piece with two persons.",
    "Local codes and the rules of public places come before this book. Where they ask for a "
    "licensed or competent person (public seating, rented property, anything fixed to a "
    "building), have one judge the piece.",
)
FINGERS = "Fingers: keep hands out of these gaps while the {panel} moves."
# --- what you need ------------------------------------------------------------------------------

TOOLS, DRILLS, BOARDS, BARS, HARDWARE = "Tools", "Drills", "Boards", "Round bars", "Hardware"
STUFF = "Glue, sealer and finish"
BOARDS_HEADER = ("board", "thickness measured", "parts", "net area, m²")
STUFF_HEADER = ("for", "what", "how much", "source")
MEASURE_BOARD = (
    "Measure your boards' thickness before you cut anything. Every derived length follows the "
    "measured thickness in this table; if yours differs by more than {} have the "
    "design worked out and printed again for your thickness before you cut. The area is that of "
    "the finished parts; buy by the cutting plan or the merchant's list, or add a third for waste."
)
GLUE, SEALER, FINISH = "glue", "sealer", "finish"
NOT_CHOSEN = "not chosen: take one for outdoor use, by its maker's data sheet"


def glue_spread(spread: float) -> str:
    """How much glue a joint face takes."""
    return f"{spread:g} g to the m² of joint face"


def odd_bits(sizes: Sequence[tuple[str, str]]) -> str:
    """How to make holes of a size that no bit has: (hole, bit) diameters, mm."""
    each = "; ".join(f"{hole}: bit of {bit} mm" for hole, bit in sizes)
    return (
        "Thick bits are sold by the whole mm. Drill the next size below and ease the hole with a "
        f"round file or abrasive round a dowel, until the trial piece of bar goes in: {each}."
    )


def litres(least: str, most: str, coats: int) -> str:
    """Quantity of a finish."""
    return f"{least} to {most} l for {coats} {'coat' if coats == 1 else 'coats'}"


ALSO = (
    "Also: scrap blocks to clamp against, abrasive paper, rags, a brush, wax for moving joints, "
    "and one extra of each screw for a trial joint in scrap."
)

# --- the parts ----------------------------------------------------------------------------------

CUTTING = "Cutting list"
CUTTING_NOTE = "Lengths run along the grain, to 0.1 mm from the sum: cut as near as you can."
SPACERS = "Gap spacers and stop blocks"
SPACERS_NOTE = "Cut these first, from scrap of even thickness: they set the gaps without a tape."
EXPLODED = "The parts, taken apart"
UNSEEN = "{}; out of sight: {}"


def exploded_alt(marks: Sequence[str]) -> str:
    """What the exploded view shows."""
    return f"Exploded view: every part away from the middle, with its mark: {', '.join(marks)}."


CUTTING_HEADER = ("mark", "name", "hand", "count", "length", "width", "thick", "board")
BARS_HEADER = ("mark", "name", "count", "length", "diameter", "stock")
SPACERS_HEADER = ("name", "count", "length", "width", "use")

# --- make the parts -----------------------------------------------------------------------------

MAKING = (
    "Cut all parts of one length in one setting of the stop; check the first with the tape.",
    "Stick the labels on. Lay handed pairs side by side, show faces up, as mirror images, and "
    "tick datum ends and datum edges.",
    "Mark out from the templates or the drilling sheets: lay the paper on the face that it "
    "names, datum edge to datum edge. The tape governs: check each mark against the distance "
    "that is printed beside it. Prick the centres through.",
    "Drill one hole of each size in scrap and try its screw, bolt or bar in it.",
    "Drill through holes with the part clamped to scrap, upright to the face; set the depth "
    "stop for blind holes.",
    "Drill pocket holes with the jig set as in the table below, one trial joint in scrap first.",
    "Cut curves and notches close to the line, clamp the pair together, and work both down to "
    "the line at once.",
    "Ease all arrises, sand, and brush sealer into holes and on ends before assembly (see "
    "Finish). Keep glue faces bare.",
)
PAIRS_TITLE = "Pairs of hands, and parts alike that are worked together"
PAIRS_HEADER = ("marks", "part", "what to mind")
CLAMP_PAIR = (
    "clamp the two together, back to back, datum ends and edges level, and drill the through "
    "holes in both at once"
)
CLAMP_ALIKE = "clamp the {} together, ends and edges level, and drill through holes in all at once"
POCKETS_MIRRORED = (
    "pocket holes go on opposite hands: lay both with the pocket faces up and tick them first"
)
BLIND_MIRRORED = "one-sided holes are mirror images: lay both with that face up and tick it first"
NOTCHES_TOGETHER = "cut the notches with both clamped together, so that the rod lies square"
MIND = "mirror images: tick the show faces before you work them"
JIG = "Pocket-hole jig settings"
JIG_HEADER = ("mark", "name", "collar and jig", "slope", "drill", "pilot", "screw", "holes")
JIG_NOTE = (
    "Set jig and collar to the measured thickness. The distance given is from the board's end "
    "(or edge) to the drill's shoulder, along the drill; measure it in a trial hole in scrap. "
    "'Pilot' is its thin tip."
)

# --- finish -------------------------------------------------------------------------------------

FINISH_HEADER = ("what", "area, m²", "coats", "spreads, m²/l", "needed, l", "dry, h", "source")
ALL_SURFACES, ENDS = "all surfaces", "end grain and sawn edges"


def finish_steps(grit: int, holes: int, sealer: bool, hours: float | None) -> tuple[str, ...]:
    """Order of finishing."""
    first = "sealer" if sealer else "finish, two extra coats,"
    wait = f" Wait {hours:g} hours between coats." if hours is not None else ""
    return (
        f"Sand to {grit} grit along the grain, ease what is still sharp, and brush the dust off.",
        f"Before assembly brush {first} on all end grain that isn't glued and into all {holes} "
        "drilled holes, pockets too, but not where a bar is glued in; water gets in there first.",
        f"First coat on parts before assembly where they will cover one another, glue faces "
        f"left bare.{wait}",
        "After assembly the remaining coats, underside and inside of holes as well. Tighten bolts "
        "again after the last coat has dried, but never the lock nuts of parts that turn.",
    )


RAGS = "Rags with oil or stain can catch fire by themselves: dry them flat outdoors."
QUANTITY_NOTE = (
    "Needed: area x coats / spreading rate, for the highest and the lowest rate of the source. "
    "The maker's data sheet governs."
)

# --- care ---------------------------------------------------------------------------------------


def care(years: float | None, panel: str, rest: str) -> tuple[str, ...]:
    """How to look after the piece; `panel` is what lifts, "" where nothing does."""
    term = f" about every {years:g} {'year' if years == 1 else 'years'}" if years else ""
    lines = [
        "Tighten bolts and screws after the first month and then each spring: wood shrinks. Not "
        "the lock nuts of parts that turn.",
        f"Wash with water and a soft brush; renew the finish{term}, end grain first.",
        "Keep the feet off wet soil: on paving or pads. Store it dry and aired, not wrapped up.",
        "Look each spring for loose joints, cracks beside bolts, rust and rot. A cracked part is "
        "made new from its template before the piece is used again.",
    ]
    if panel:
        lines += [
            "Wax rod and pivots once a year. The lock nuts of pivots have play on purpose.",
            f"Lay the {panel} {rest} before you move the piece.",
        ]
    return tuple(lines)


# --- checks and sums ----------------------------------------------------------------------------

CHECKS_HEADER = ("kind", "part", "what", "source", "what helps")
SEVERITIES = {"fault": "fault", "warning": "warning", "not done": "not checked", "note": "note"}
NO_FINDINGS = "The checks found nothing that a builder has to know."
FINISH_FIRST = (
    "Before step 1 do items 1 to 3 of the chapter Finish: afterwards a brush can't reach all ends, "
    "holes and faces. Faces that will be glued stay bare."
)
TRAPS_ONLY = "The gaps that close on fingers stand under Safety first; nothing else was found."
FOUND = "Found"
CHECKS_NOTE = (
    "These were found when the design was checked. Warnings are limits of good practice that "
    "the design misses: read them before you buy timber."
)
SUMS_NOTE = "How each derived dimension came about. Sums are in millimetres."
SUMS_HEADER = ("dimension", "value", "sum")
