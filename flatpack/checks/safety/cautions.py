"""What no check can take off a maker's hands, told with every piece."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.safety.asked import Asked
from flatpack.finding import Finding

PRACTICE = "common practice, no source"
ALWAYS = (
    "None of this replaces testing of the finished piece, or the advice of a licensed person "
    "where that is required. Ask which local rules hold for furniture that is sold, given away, "
    "let out or put where the public, children or guests sit: product safety, liability, fire, "
    "accessibility and, at work, lifting rules."
)
TOOLS = (
    "Saws, routers and drills maim. Read their manuals, keep guards on, clamp small parts and "
    "never hold them by hand, wear eye and ear protection, unplug before changing a cutter."
)
DUST = (
    "Wood dust harms lungs and skin, and some woods irritate or cause allergies; fine dust burns "
    "and explodes. Use extraction and a mask made for wood dust; where people are employed, "
    "limits of exposure hold."
)
RAGS = (
    "Rags with oil or oil-based finish can catch fire by themselves: lay them flat outside or "
    "keep them under water. Follow the safety sheets of glue, finish and wood preservative."
)
FIRST = (
    "Try it first with a bag of sand of the user's weight, low over soft ground, nobody on it; "
    "look at every joint afterwards, and once a year."
)
FIRST_SOIL = (
    "Fill it first where nobody stands beside it, a third of the soil a day, and water it; look at "
    "every joint and board for bulging and cracks each time, and once a year. Never lift it filled."
)
MOVING = (
    "Keep fingers and children away from the hinge joint, the rack and the arms while the "
    "{panel} moves; hold the {panel}'s weight before the rod is lifted."
)
WHEELS = (
    "Never roll it with someone on it; EN 581-2 asks for a sign of at least 25 mm that says so "
    "on loungers with wheels."
)


def check_cautions(asked: Asked) -> Iterator[Finding]:
    """The sentence that always stands, then the cautions that this piece calls for."""
    yield _note("safety-caution", asked, ALWAYS, "")
    yield _note("safety-tools", asked, TOOLS, PRACTICE)
    yield _note("safety-dust", asked, DUST, PRACTICE)
    yield _note("safety-finish", asked, RAGS, PRACTICE)
    if not asked.assembly.loose:
        yield _note(
            "safety-first-load", asked, FIRST if asked.use != "soil" else FIRST_SOIL, PRACTICE
        )
    if asked.study is not None:
        yield _note("safety-moving", asked, MOVING.format(panel=asked.study.motion.panel), PRACTICE)
    if any(f.kind == "wheel" for f in asked.assembly.fasteners):
        source = "EN 581-2:2015 as described in a test house's notice"
        yield _note("safety-wheels", asked, WHEELS, source)


def _note(code: str, asked: Asked, words: str, source: str) -> Finding:
    return Finding(code, "note", asked.assembly.name, words, source=source or PRACTICE)
