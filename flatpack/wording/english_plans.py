"""English of the cutting plans: findings, sheets, lists.  Sentences only; no sums, no layout."""

from __future__ import annotations

INCOMPLETE = "INCOMPLETE: see the findings"
STOPPED = "stopped by the clock or by hand: another run may give another plan"
BY_CLOCK = (
    "found by the clock: another search may give another layout, so this one is kept in {} and"
    " used again while parts, sheets and spacing stay the same"
)

# --- findings ------------------------------------------------------------------------------------

TROUBLES = {
    "part-too-long": ("fault", "use a longer board, or join the part"),
    "part-too-large": ("fault", "use a larger sheet"),
    "part-too-wide": ("fault", "choose a wider board, or glue the part up"),
    "grain-not-met": ("fault", "use a sheet with the grain the other way, or a larger one"),
    "stock-short": ("fault", "add to the stock list"),
    "outline-crosses-itself": ("fault", "put the corners in order, once round"),
    "no-price": ("not done", "give a price in the stock list"),
    "part-thinner-than-kerf": ("warning", "cut it by hand from a larger piece"),
    "strip-too-narrow": ("warning", "cut a double width there, and part it at the bench"),
    "no-stock": ("fault", "add a sheet that fits to the stock list"),
}


def too_wide(mark: str, board: str) -> str:
    """A part wider than any planed board."""
    return f"part {mark} is wider than any {board} that is sold"


def no_stock(board: str) -> str:
    """Nothing to cut from."""
    return f"no {board} can be used: its parts are left out"


def unpriced(name: str, more: int) -> str:
    """Stock without a price."""
    others = f" and {more} more" if more else ""
    return f"no price for {name}{others}: the plan takes the least stock instead of the cheapest"


def not_for_saw(name: str) -> str:
    """An offcut with an outline."""
    return f"{name} is no rectangle: the panel saw doesn't use it"


def over_saw(name: str) -> str:
    """A sheet larger than the merchant's saw takes."""
    return f"{name} doesn't fit the merchant's saw and isn't used"


def over_bed(name: str, sizes: list[str]) -> str:
    """A sheet that must be parted before it goes on the machine."""
    return f"{name} is larger than the machine's bed: have it sawn into {', '.join(sizes)} first"


def loose(tolerance: str) -> str:
    """The saw holds less than the piece wants."""
    return (
        f"the merchant's saw holds to {tolerance} mm: have slats and rails cut in one setting each"
    )


def close_fit(play: str, holds: str) -> str:
    """A joint that wants more than the saw holds to."""
    return f"a joint with {play} mm of play, off a saw that holds to {holds} mm"


CLOSE_FIT = "have its joints cut on a machine (--nest), or fit each to the part that goes in"


def moving_fit(proved: str, holds: str) -> str:
    """A moving piece proved closer than the saw holds."""
    return (
        f"carries a pivot: proved with every measure {proved} mm off, the saw holds to {holds} mm"
    )


MOVING_FIT = "have it sawn over size and trim it with its mate, or measure it and draw anew"


def too_thick(thickness: str, shop: str) -> str:
    """A board that the machine can't cut through."""
    return f"{thickness} thick is more than {shop} cuts"


def tight_corner(place: str, radius: str) -> str:
    """An inside corner smaller than the cutter."""
    return f"inside corner of radius {radius} at {place} from the lower left is tighter than the" \
        " cutter: finish it by hand"  # fmt: skip


def fit_tolerance(tolerance: str, apart: str) -> str:
    """A machine that wanders by more than what tells fits from one another."""
    return f"the machine holds to {tolerance}, the kinds of fit lie only {apart} apart"


FIT_TOLERANCE_REMEDY = "cut the fit trial, and all parts in one setting of the machine"


def no_relief(place: str) -> str:
    """A square inside corner without room for its relief."""
    return f"no room for the relief of the inside corner at {place} from the lower left"


def small_hole(diameter: str, places: str) -> str:
    """Holes that the cutter doesn't enter."""
    return f"hole Ø{diameter} at {places} from the lower left is smaller than the cutter: drill it"


def narrow_slot(width: str, places: str) -> str:
    """Slots or housings that the cutter doesn't enter."""
    return f"slot {width} wide at {places} from the lower left is narrower than the cutter"


def places(given: list[str], most: int = 4) -> str:
    """Some places, and how many more."""
    more = f" and {len(given) - most} more" if len(given) > most else ""
    return ", ".join(given[:most]) + more


def second_face(shop: str) -> str:
    """Work on both faces in a shop that does one."""
    return f"is worked on both faces and {shop} does one: do the other at the bench"


def no_register_room(name: str) -> str:
    """Register holes found no room."""
    return f"{name}: no room for the register holes beside the parts"


def kerf_lost(size: str, place: str) -> str:
    """A hole that the kerf swallows."""
    return f"hole or slot of {size} at {place} is no wider than the kerf and isn't drawn"


def offered_twice(board: str, measured: tuple[str, ...]) -> str:
    """One board measured in several thicknesses, with pieces in the rack that are counted."""
    return (
        f"{board} is measured {' and '.join(measured)} mm thick in these pieces; each thickness is "
        "planned from the whole rack, so that one offcut may be promised to both"
    )


SORT_THE_RACK = "measure the offcuts, and plan the thicknesses one by one from those that have it"


def nothing_to_nest() -> str:
    """Planed boards alone."""
    return "every part comes from planed boards: there is nothing to nest"


# --- names ---------------------------------------------------------------------------------------


def offcut_name(name: str, number: int) -> str:
    """An offcut from before."""
    return f"{name}, offcut {number}"


def parted_name(name: str, number: int, count: int, size: str) -> str:
    """A piece of a sheet that is parted for the bed."""
    return f"{name}, piece {number} of {count}: {size}"


def planed_title(board: str, width: str) -> str:
    """A board in one width."""
    return f"{board}, {width} wide"


def long(length: str) -> str:
    """Length of a board."""
    return f"{length} long"


def free_cuts(count: int) -> str:
    """Cuts in the price."""
    return f"{count} are free" if count else ""


def and_spares(needed: int, spare: int) -> str:
    """Hardware with its spares."""
    return f"{needed} + {spare} spare" if spare else str(needed)


def pack(pieces: int) -> str:
    """How hardware is sold."""
    return f"pack of {pieces}"


BOARD, SHEET, ROD = "board", "sheet", "round bar"
HARDWARE, GLUE, FINISH, SAWING = "hardware", "glue", "finish", "sawing"
EACH = "each"
PAID_CUTS = "further cuts on the panel saw"
NO_STEP = "Not tied to one step"
TASKS = {
    "settings": "stops and fences set",
    "cuts": "cuts to length, and rips",
    "curves": "shaped outlines sawn and smoothed",
    "holes": "holes marked and drilled",
    "pockets": "pocket holes",
    "screws": "screws driven",
    "bolts": "bolts, hinges, wheels and bars fitted",
    "joints": "joints laid out and closed",
    "sanding": "surface sanded",
    "coats": "coats of finish",
}


def unpriced_goods(names: str) -> str:
    """Hardware, glue or finish without a price."""
    return f"no price for {names}: not in the sum"


PRICE_IT = "give a price in the stock list"
