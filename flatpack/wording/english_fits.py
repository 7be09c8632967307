"""English: joints without hardware, the fit trial, and how such joints are put together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence


def try_first(marks: Sequence[str]) -> str:
    """For the shop: what to cut before all else."""
    return (
        f"Cut {' and '.join(marks)} first and have the fit tried before anything else is cut: the "
        "figures engraved are slot less measured thickness. Another fit means new drawings."
    )


def slot(clearance: str) -> str:
    """How tight a slot or mortise is."""
    return (
        f"slot {clearance} wider than its tongue"
        if clearance[0] != "-"
        else (f"slot {clearance[1:]} narrower than its tongue")
    )


NOT_IN_PIECE = "no part of the piece: cut it first and try the fit"
TRIAL = "Cut and try this first"
TRIAL_WHY = (
    "Joints without hardware hold by their fit, and a tenth of a millimetre decides. What a "
    "machine cuts depends on its cutter, on the board and on the day, so let the shop cut {} from "
    "the same board before anything else."
)
TRIAL_HOW = (
    "Slide the tongue {tongue} into every slot of {strip}, square and right to the floor.",
    "Choose the slot into which it goes with the push of a hand and doesn't rattle. A mallet "
    "needed: too tight. Falls out upside down: too loose.",
    "Put the figure below that slot in the file, under [fit], for instance allowance = {example}. "
    "All slots, mortises and the press fit of the top follow it.",
    "Draw again. Sheets with the old content code don't belong to the new ones; throw them away.",
)
TRIAL_SHOWN = "{}: slots, each with its allowance in mm below it"
TRIAL_ALT = "Strip with {} slots open at the top, engraved {}."

JOINTS: Mapping[str, str] = {
    "halving": (
        "{into} over {through}: slot over slot, straight down and square, pushed by hand until "
        "both slots' floors meet. If it sticks, look for splinters and wax the faces; don't hit it."
    ),
    "wedged tenon": (
        "{through} through {into}: push the tenon straight through its mortise until the shoulder "
        "seats. It goes free; the wedge will hold it."
    ),
    "wedge": (
        "{through} into the slot of {into}, thin end first, its straight edge against the side: "
        "tap all wedges in turn until the shoulders are tight and the wedge stops. No further: "
        "it would split the tenon. Knock it out from its thin end to take the piece apart."
    ),
    "tenon": (
        "{through} and {into}: {glued}start all tenons in their mortises, then drive the top down "
        "with a mallet on a block, a little at each corner in turn, until the shoulders seat."
    ),
}
"""Kind of joint without hardware -> how it is made."""
DRY_FIT = (
    "Try each joint first: what goes together with more than its due force doesn't fit. Ease "
    "slots, not tongues, and never by more than a shaving."
)
MALLET = ("mallet and a block of scrap", "drive tenons and wedges without bruising them")
MAKING = (
    "Have the fit trial cut and try it, as above; then the shop cuts all parts from the new files. "
    "By hand: stick the templates on, saw slots and mortises inside the line and pare to it, the "
    "board that goes in at hand to try.",
    "Stick the labels on, compare each part with the cutting list, and count.",
    "Cut the tabs, and sand what they leave level with the edge, no deeper.",
    "Leave the faces in slots and mortises, tenons and shoulders as they are cut: sanded, they "
    "rattle. Ease all other arrises, and the ends of tenons and the thin ends of wedges a little, "
    "so that they find their way.",
    "Seal edges, slots and mortises before assembly, thinly (see Finish): sealer and paint take up "
    "the fit. Cut wedges again from an offcut when they wear.",
)


def finish_steps(grit: int, sealer: bool, hours: float | None) -> tuple[str, ...]:
    """Order of finishing."""
    first = "sealer" if sealer else "finish, two extra coats,"
    wait = f" Wait {hours:g} hours between coats." if hours is not None else ""
    return (
        f"Sand faces and outer edges to {grit} grit along the grain, none of what sits in a joint, "
        "and brush the dust off.",
        f"Brush {first} on all edges, slots and mortises, thinly, and wipe off what stands: water "
        "gets into plywood at its edges first.",
        "All coats on all parts before they are put together, faces that sit in joints bare."
        f"{wait}",
        "Wax faces in joints that stick. Put it together when all is hard, not before.",
    )


def care(years: float | None) -> tuple[str, ...]:
    """How to look after a piece that holds by the shape of its parts."""
    term = f" about every {years:g} {'year' if years == 1 else 'years'}" if years else ""
    return (
        "Tap wedges home after the first month and then each spring, and whenever something moves. "
        "A joint that rattles is tightened by a new wedge or glued, not used on.",
        f"Wash with water and a soft brush; renew the finish{term}, edges first.",
        "Keep the feet off wet soil: on paving or pads. Store it dry and aired, not wrapped up: "
        "wet plywood swells, and its joints can't be parted until it has dried.",
        "Look each spring for loose joints, edges that open, cracks at tenons and rot. A cracked "
        "part is cut anew before the piece is used again.",
    )
