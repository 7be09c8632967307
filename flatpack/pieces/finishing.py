"""Keys that every family shares: glue, finish, and the units of the build book."""

from __future__ import annotations

from flatpack import parameters as keys
from flatpack.parameters import record


@record
class Finishing:
    """Glue and finish, for the build book and the quantities."""

    glue: str = keys.item("glues", "pu-d4", does="exterior glue")
    finish: str = keys.item("finishes", "stain", does="finish of every surface")
    sealer: str = keys.item("finishes", "sealer", does="sealer of end grain and drilled holes")
    units: str = keys.choice("mm", ("mm", "inches"), does="lengths in the build book")
