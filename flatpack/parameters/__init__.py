"""Parameter files: TOML text to frozen, checked records, with every fault reported at once.

A family declares its keys once, as a `record`; reading, the commented file, the schema and the
content text for hashing all follow from that declaration.  Nothing here touches a file.
"""

from __future__ import annotations

from typing import Any

from flatpack.parameters.describing import quoted, words
from flatpack.parameters.own_names import Chosen, Named, kinds, named, place, places, total
from flatpack.parameters.reading import Conflict, Design, read, read_design, read_record
from flatpack.parameters.records import FieldOf, fields_of, record, replace, specs_of
from flatpack.parameters.specs import (
    UNSET,
    BoardChoice,
    Spec,
    angle,
    angles,
    board,
    choice,
    count,
    date,
    flag,
    item,
    length,
    lengths,
    notes,
    number,
    numbers,
    pairs,
    table,
    tables,
    text,
    texts,
)
from flatpack.parameters.sums import Sum
from flatpack.parameters.units import millimetres
from flatpack.parameters.values import nearest

__all__ = [
    "UNSET",
    "BoardChoice",
    "Chosen",
    "Conflict",
    "Design",
    "FieldOf",
    "Named",
    "Spec",
    "Sum",
    "angle",
    "angles",
    "board",
    "canonical",
    "choice",
    "count",
    "date",
    "fields_of",
    "flag",
    "item",
    "kinds",
    "length",
    "lengths",
    "millimetres",
    "named",
    "nearest",
    "notes",
    "number",
    "numbers",
    "pairs",
    "place",
    "places",
    "quoted",
    "read",
    "read_design",
    "read_record",
    "record",
    "replace",
    "schema",
    "specs_of",
    "table",
    "tables",
    "template",
    "text",
    "texts",
    "total",
    "words",
]


def template(cls: Any, family: str) -> str:
    """A commented parameter file with every key; it reads back to exactly the defaults."""
    from flatpack.parameters.commenting import template as made

    return made(cls, family)


def schema(cls: Any, family: str) -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a family's parameter file, for completion in editors."""
    from flatpack.parameters.schemas import schema as made

    return made(cls, family)


def canonical(made: Any) -> str:
    """A record as text for hashing: one key a line, the same for equal records."""
    from flatpack.parameters.canon import canonical as written

    return written(made)
