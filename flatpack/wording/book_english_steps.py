"""English: the build book's sentences of the assembly steps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from flatpack.wording import english_fits

_ACROSS = {"y-": "left", "y+": "right", "z-": "bottom", "z+": "top"}
WAYS: Mapping[str, Mapping[str, str]] = {
    "lying": {"x-": "foot end", "x+": "head end", **_ACROSS},
    "": {"x-": "front", "x+": "rear", **_ACROSS},
    "standing": {"x-": "front", "x+": "rear", **_ACROSS},
    "opening": {"x-": "rear", "x+": "front", **_ACROSS},
}
"""Names of the piece's own directions, by its bearing."""


def step_title(number: int, title: str) -> str:
    """Heading of a step."""
    return f"Step {number}. {title}"


def caption(below: bool, unseen: Sequence[str]) -> str:
    """Under a step's picture."""
    side = "Seen from below" if below else "Seen from above"
    hidden = f"; out of sight: {', '.join(unseen)}" if unseen else ""
    return f"{side}. Grey: added in this step{hidden}."


def alt(title: str, added: Sequence[str], onto: Sequence[str], below: bool) -> str:
    """What a step's picture shows."""
    side = "below" if below else "above"
    new = f"added in grey: {', '.join(added)}" if added else "nothing but fasteners added"
    old = f"; joined to {', '.join(onto)}" if onto else ""
    return f"Line picture from {side} of {title.lower()}: {new}{old}."


PARTS_CAPTION = "Parts that come in"
PARTS_HEADER = ("mark", "part", "count", "size", "show face looks", "datum end lies",
                "datum edge lies")  # fmt: skip
FASTENERS_CAPTION = "Fasteners for this step"
FASTENERS_HEADER = ("what", "size", "count", "for")
MEASURES_CAPTION = "Measure"
MEASURES_GLUED = "Measure at the dry fit, and again before the glue sets"
MEASURES_HEADER = ("measure", "must be", "how it comes about")
ANYWHERE = "either"
ROUND, NONE = "round", "none"
INWARDS, OUTWARDS = "inwards", "outwards"


def at_its(where: str, looks: str) -> str:
    """Which way the one of two like parts looks that lies at a side of the piece."""
    return f"at the {where}: {looks}"


def board_size(length: str, width: str, thickness: str) -> str:
    """Finished size of a board."""
    return f"{length} x {width} x {thickness}"


def bar_size(diameter: str, length: str) -> str:
    """Size of a round bar."""
    return f"Ø{diameter} x {length}"


# --- what to do ---------------------------------------------------------------------------------

CHECK_MARKS = "Lay out the parts below and compare each mark, face and end with the table."


def check_pairs(pairs: Sequence[str]) -> str:
    """Handed parts that come in."""
    return (
        f"Pair: one of each hand ({'; '.join(pairs)}). Hold the two against one another: if they "
        "are the same instead of mirror images, stop here."
    )


FOLD = (
    "Stand the frame upright on its feet. Fold the arms flat under the moving part, lower it into "
    "its place from above, two persons, with the rod lying on top of both racks, and clamp it to "
    "the frame. The hinge screws are driven from below: kneel beside it, or lay the whole on its "
    "side once all is clamped. The picture shows it from below."
)
OPENED = (
    "Stand the frame upright on its feet. One person holds the moving part wide open, its arms "
    "folded against it; the other screws the hinges' free leaves to the frame, one screw a leaf. "
    "Close it and see that it lies evenly, then open it and drive the rest. Let go only when the "
    "rod sits in its notches."
)
BELOW = (
    "Work upside down, on a flat bench or floor with scrap under the show faces. Turn it over, and "
    "back again when the step is done and the glue has set, with two persons."
)
HANGING = (
    "Lay the frame upside down for this step, with two persons and scrap under the slats; the "
    "picture shows it the right way up. Turn it back when the step is done."
)
DRY_FIT = (
    "Dry fit first: put it together without glue, clamp it, and check all measures of this step "
    "and that faces meet. Take it apart again."
)
CLAMP_FIRST = (
    "Put it together and clamp it first, and check all measures of this step and that faces meet, "
    "before you fasten anything."
)
SQUARE = "Clamp across, not too hard, and push the longer diagonal until both are the same."
WIPE = "Wipe off glue that comes out with a damp rag before it skins over."


def spacer(name: str, width: str, use: str) -> str:
    """A spacer to use in this step."""
    return f"Use the two pieces '{name}', {width} wide: {use}."


def glue(name: str, minutes: float) -> str:
    """Glue before the joints are closed."""
    return (
        f"Brush {name} thinly on both faces of the joints that are called glued below and of no "
        f"others, end grain twice, and close them within {minutes:g} minutes; take fewer joints "
        "at a time if you need longer."
    )


def glue_bar(name: str, minutes: float) -> str:
    """Glue for a bar in its holes."""
    return (
        f"Brush {name} in the holes and on the bar where it will sit in them, and push it home "
        f"within {minutes:g} minutes."
    )


GLUE_ANY = (
    "Brush exterior glue thinly on both faces of each glued joint, end grain twice, and close "
    "the joints within the open time on the label."
)


def leave(minutes: float) -> str:
    """Time in clamps."""
    hours = f"{minutes / 60.0:g} hours" if minutes >= 90 else f"{minutes:g} minutes"
    return f"Leave it alone for {hours}, flat, before you turn or load it."


def flush_words(
    flush: str, low: str, high: str, side: str, across: str | None, beyond: bool
) -> str:
    """How a part lies across the one that it is put on: its `side` by `across` from the edge."""
    away = f"{across} {'beyond' if beyond else 'from'}"
    return {
        "both": "across its whole width",
        "low": f"flush with its {low} edge",
        "high": f"flush with its {high} edge",
        "on high": f"on its {high} edge",
        "on low": f"on its {low} edge",
    }.get(flush, f"{side} {away} its {low} edge")


OUT = {"end": "end", "edge": "edge", "show": "show face", "back": "back face"}


def side_of(side: str, looks: str) -> str:
    """A part's side by the way that it looks; faces go by their own names."""
    return {"end": end_of(looks), "edge": f"{looks} edge"}.get(side, OUT[side])


def face_words(face: str, out: str, past: str) -> str:
    """How a part lies to the faces of the one that it is put on; `out` is its side there."""
    return {
        "on show": "against its show face",
        "on back": "against its back face",
        "level show": f"{out} level with its show face",
        "level back": f"{out} level with its back face",
        "past show": f"standing out {past} past its show face",
        "past back": f"standing out {past} past its back face",
    }.get(face, "")


NOTCHES = (
    "Before the glue sets lay the rod, or a straight bar of its size, in every pair of notches: "
    "it must touch the same two places on both racks and lie square to the rails."
)
NOTCHES_BLOCKS = (
    "Before the glue sets lay the rod, or a straight bar of its size, before every pair of blocks: "
    "it must touch the upright face and the floor, on both racks, and lie square to the rails."
)


def base(name: str, marks: str, where: str) -> str:
    """What a part is put on; `where` tells it from others of its mark."""
    return f"{name.lower()} {marks}{f' (the one at the {where})' if where else ''}"


def along(
    side: str, base: str, start: str, past: Sequence[str], on: Sequence[str], unit: str
) -> str:
    """How far a part's `side` is from the end of its base: `past` it, and `on` it."""
    end = f"the {base.lower()}'s {start}"
    if not past and tuple(on) == ("0",):
        return f"{side} level with {end}"
    beyond = f"{', '.join(past)} {unit} past" if past else ""
    within = f"{', '.join(on)} {unit} from" if on else ""
    sides = f"{side}s" if len(past) + len(on) > 1 else side
    return f"{sides} {' and '.join(t for t in (beyond, within) if t)} {end}"


def place(name: str, marks: str, on: str, lies: str) -> str:
    """Where parts go."""
    return f"{name} {marks} on {on}: {lies}."


def by_holes(names: Sequence[str]) -> str:
    """Parts that lie askew, so that only their holes can place them."""
    return (
        f"{', '.join(names)}: the holes set place and slope; push all bolts in before tightening."
    )


def end_of(side: str) -> str:
    """Name of an end by the way that it looks."""
    return side if side.endswith("end") else f"{side} end"


JOINTS: Mapping[str, str] = {
    "pocket screw": (
        "{through} to {into}: {glued}pocket screws {size}, {per}. Clamp the faces level, drive "
        "from the pockets until the head seats, no further."
    ),
    "wood screw": (
        "{through} to {into}: {glued}countersunk screws {size}, {per}, until the heads are level "
        "with the wood."
    ),
    "coach bolt": (
        "{through} and {into}: coach bolts {size}, {total} in all. Tap each in until the square "
        "neck sits in the first part; washer and lock nut on the other; tighten until the washer "
        "begins to bite. No glue."
    ),
    "turning bolt": (
        "{through} turns on {into}: coach bolts {size}, {total} in all, square neck in {through}, "
        "{where}one washer between the parts and one under the nut. Tighten the lock nut until "
        "there is no play, then a quarter turn back: the part must swing by its weight. Never "
        "tighten it like other bolts. No glue."
    ),
    "barrel nut bolt": (
        "{through} to {into}: bolts {size} into barrel nuts, {total} in all. Turn each barrel nut "
        "with a screwdriver until its thread faces the bolt. No glue: it comes apart."
    ),
    "insert bolt": (
        "{through} to {into}: bolts {size} into threaded inserts, {total} in all. Screw the "
        "inserts in square and level first. No glue: it comes apart."
    ),
    "hinge": (
        "{into} hinged to {through}: {count} hinges. Put the moving part in its place, its sides "
        "level with the frame's and the gap set with the spacers. {where}Lay all hinges on one "
        "straight line, knuckles in line, mark the holes from your own hinge, and put one screw in "
        "each leaf; move the part; then the rest: "
        "{item} {size}, {each} to a hinge, {total} in all."
    ),
    "bar fixed": (
        "{through} glued into its holes in {into}: lay the parts that hold it in one plane on a "
        "flat bench, so that they stay parallel; it stands out by the same on both sides."
    ),
    "bar free": "{through} through {into}: free to turn, waxed, no glue.",
    "wheel": (
        "Wheels on {through}: a washer, the wheel, a washer, then knock the cap on; leave enough "
        "play for the wheel to spin. {where}"
    ),
    "glued": "{through} on {into}: glued, clamped until the glue has set.",
}
"""Kind of joint -> how it is made."""


def joints(
    kind: str, through: str, into: str, count: int, each: int, item: str, size: str, glued: bool,
    words: str, where: str = "",
) -> str:  # fmt: skip
    """How joints that are alike are made; a kind without a sentence says its own words."""
    total = count * each
    times = f"{total} in all" if count > 1 else "one joint"
    per = f"{each} to a joint, {times}" if each > 1 else times
    known = JOINTS.get(kind) or english_fits.JOINTS.get(kind)
    return (known or "{through} to {into}: {words}.").format(
        through=through, into=into, count=count, each=each, item=item.lower(), size=size,
        glued="glued, and " if glued else "", total=total, per=per, words=words,
        where=where,
    )  # fmt: skip


# --- measures -----------------------------------------------------------------------------------

OUTSIDE = "Outside size"
DIAGONALS = "Both diagonals, corner to corner"
DIAGONALS_SUM = "square root of {}² + {}², the sides squared"
PACKER_FACE = "{}: face for the hinges, from the foot end"
STANDS_OUT = "{} stands out beyond {}, each side"
