"""What of the parts of a lot the shop's machine can't do, by mark and by places as they lie."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.shop import Told, shop_limits
from flatpack.drawings.faces import seen_on, worked_faces
from flatpack.finding import Finding
from flatpack.planning import told
from flatpack.planning.pool import Lot
from flatpack.profiles import Workshop
from flatpack.wording import english_plans as words


def shop_findings(lot: Lot, shop: Workshop) -> Iterator[Finding]:
    """Everything about the parts of a lot that breaks a limit of the shop."""
    for wanted in lot.parts:
        part = wanted.group.part
        faces = worked_faces(part)
        yield from shop_limits(part, shop, Told(wanted.mark, seen_on(part, faces[0]), "cutting"))
        if not shop.both_faces and len(faces) == 2:
            yield told.told("both-faces", "note", words.second_face(shop.name), wanted.mark,
                            source=shop.name)  # fmt: skip
