"""What a plan can't do, as findings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import cast

from flatpack.cutting import Trouble
from flatpack.finding import Finding, Severity
from flatpack.wording import english_plans as words


def finding(trouble: Trouble) -> Finding:
    """The finding of a trouble, naming the part and the stock."""
    severity, remedy = words.TROUBLES[trouble.code]
    where = f" ({trouble.stock})" if trouble.stock and trouble.stock not in trouble.text else ""
    return Finding(
        f"cutting-{trouble.code}",
        cast("Severity", severity),
        trouble.mark,
        trouble.text + where,
        trouble.measured,
        trouble.limit,
        "" if trouble.code == "stock-short" else "mm",
        "the stock list",
        remedy,
    )


def findings(troubles: Iterable[Trouble]) -> tuple[Finding, ...]:
    """Each finding once; stock without a price in one finding a plan."""
    every = tuple(dict.fromkeys(troubles))
    unpriced = [t for t in every if t.code == "no-price"]
    made = [finding(t) for t in every if t.code != "no-price"]
    if unpriced:
        text = words.unpriced(unpriced[0].stock, len(unpriced) - 1)
        made.append(finding(replace(unpriced[0], text=text)))
    return tuple(made)


def told(code: str, severity: Severity, message: str, part: str = "", remedy: str = "",
         measured: float | None = None, limit: float | None = None,
         source: str = "the stock list") -> Finding:  # fmt: skip
    """A finding of the plans' own."""
    return Finding(
        f"cutting-{code}", severity, part, message, measured, limit, "mm", source, remedy
    )
