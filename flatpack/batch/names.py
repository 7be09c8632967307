"""Names that may stand for a folder on every system, and when two of them are the same."""

from __future__ import annotations

import re
import unicodedata

from flatpack.output_folder import names_fault

#: Files of the batch itself, which no variant may be called.
OVERVIEW = "overview.html"
SUMMARY = "summary.csv"
STATE = "batch.json"
_OWN = re.compile(r"summary\.csv|batch\.json|overview(-[0-9]+)?\.html")


def name_fault(name: str) -> str:
    """Why a variant can't have this name; "" when it can."""
    if not name:
        return "it has no name"
    if "/" in name:
        return f"the name {name!r} has a path in it; a plain name is needed"
    if name.startswith("."):
        return f"the name {name!r} begins with a dot, so that its folder would be hidden"
    if _OWN.fullmatch(folded(name)):
        return f"the name {name!r} is that of a file which the batch itself writes"
    # A lone half of a letter can't be written; the check below wants text that can.
    if not name.isprintable():
        return f"the name {name!r} has a character that can't be shown"
    fault = names_fault([name])
    return f"the name can't be a folder: {fault}" if fault else ""


def folded(name: str) -> str:
    """The same for names that some system takes for one: other case, other form of a letter."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFD", name).casefold())
