"""Tipping over and sliding, as the statics of the strength report have it."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.safety.asked import Asked
from flatpack.finding import Finding

TESTS = {
    "sit": "EN 1022 (stability of seating)",
    "table": "EN 581-3 and EN 1730 (stability of tables)",
}
"""Standard whose stability tests the piece would be put to, by what it is for."""


def check_standing(asked: Asked) -> Iterator[Finding]:
    """The worst case of each; that the standard's own tests weren't run.

    What is over its capacity has its warning among those of strength.
    """
    for code in ("tipping", "tipping, lid open", "sliding"):
        found = [c for c in asked.report.checks if c.kind == "piece" and c.code == code]
        done = [c for c in found if c.use is not None]
        no_lid = code == "tipping, lid open" and asked.assembly.motion is None
        if no_lid or (not found and code != "tipping" and asked.report.cases):
            continue  # no lid; or nobody's feet can push a table or a planter from under them
        if not done:
            why = found[0].why if found else "the strength wasn't worked out"
            yield Finding(f"safety-{_slug(code)}", "not done", asked.assembly.name,
                          f"{code} wasn't judged: {why}", source="statics")  # fmt: skip
            continue
        worst = max(done, key=lambda c: c.use or 0.0)
        assert worst.use is not None
        bad = worst.use > 1.0
        told = f"{code} uses {worst.use:.0%} of what holds it at worst: {worst.formula}; "
        yield Finding(
            f"safety-{_slug(code)}", "warning" if bad else "note", asked.assembly.name,
            told + worst.case, round(100.0 * worst.use, 1), 100.0, "%", worst.source,
            _remedy(code) if bad else "",
        )  # fmt: skip
    yield Finding(
        "safety-stability-tests", "not done", asked.assembly.name,
        "the stability tests of the standard weren't carried out; a sum doesn't stand for them",
        source=TESTS.get(asked.use, "no standard for such a piece is known here"),
    )  # fmt: skip


def _slug(code: str) -> str:
    return code.replace(",", "").replace(" ", "-")


def _remedy(code: str) -> str:
    if code == "sliding":
        return "rubber or rough pads under the feet"
    return "feet further out" if code == "tipping" else "a stop that holds the lid lower"
