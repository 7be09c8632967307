"""Faces glued together, e.g. tooth blocks on their bearer or packers on a rail."""

from __future__ import annotations

from flatpack.frozen import frozen
from flatpack.model import Assembly, Machining


@frozen
class GluedFaces:
    """`block` is glued to `onto`; their faces must touch."""

    key: str
    step: str
    block: str
    onto: str

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return (self.block, self.onto)

    def words(self) -> str:
        """How it is made."""
        return "exterior glue on both faces, clamped"

    def machine(self, assembly: Assembly) -> Machining:
        """No holes; the two faces must meet."""
        return Machining(mates=((self.block, self.onto),))
