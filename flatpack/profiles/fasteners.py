"""Screws and bolts.

Head sizes are the greatest that the standard allows, so that the space kept for them is safe.

    ISO 888 thread length   b = 2d + 6    up to 125 long
                            b = 2d + 12   up to 200
                            b = 2d + 25   above; never more than the bolt's length
"""

from __future__ import annotations

from flatpack.parameters import UNSET, choice, length, lengths, notes, number, record, text


@record
class Screw:
    """A wood screw or pocket screw of one diameter, in all the lengths that are sold.

    `pilot_soft`, `pilot_hard` are drill sizes in the part that the thread bites in, `clearance`
    in the part that it passes.  `head_height` is the height of a washer head above its seat, or
    the depth of a countersunk head.  `root` is the thread's inner diameter, by a standard or as
    its maker declares it; where it is left out, no rule that needs it is applied.
    """

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    use: str = choice(UNSET, ("pocket", "wood"), does="for pocket holes, or straight in")
    diameter: float = length(UNSET, least=1, most=20, does="thread's outside diameter")
    root: float | None = length(None, least=0.5, most=16, does="thread's inner diameter")
    lengths: tuple[float, ...] = lengths(UNSET, least=5, most=400, fewest=1, does="lengths sold")
    head: str = choice(UNSET, ("washer", "countersunk", "pan"), does="shape of the head")
    head_diameter: float = length(UNSET, least=2, most=40, does="head across")
    head_height: float = length(UNSET, least=0.5, most=20, does="height of the head")
    pilot_soft: float = length(UNSET, least=0.5, most=20, does="pilot drill in softwood, plywood")
    pilot_hard: float = length(UNSET, least=0.5, most=20, does="pilot drill in hardwood")
    clearance: float = length(UNSET, least=1, most=22, does="drill that the shank passes freely")
    thread_share: float = number(UNSET, least=0.2, most=1, does="threaded share of the length")
    tip_length: float = length(UNSET, least=0, most=20, does="point that doesn't hold")
    drive: str = text(UNSET, does="driver bit", longest=40)
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")

    def thread_length(self, sold: float) -> float:
        """Threaded part of a screw `sold` mm long, mm, point included."""
        return sold * self.thread_share


def iso_888(diameter: float, sold: float) -> float:
    """Thread length of a bolt `sold` mm long, mm (ISO 888)."""
    extra = 6.0 if sold <= 125.0 else 12.0 if sold <= 200.0 else 25.0
    return min(sold, 2.0 * diameter + extra)


@record
class CoachBolt:
    """A bolt with a cup head and a square neck that bites into wood (ISO 8677, DIN 603)."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=3, most=30, does="thread")
    pitch: float = length(UNSET, least=0.3, most=4, does="rise of one turn of the thread")
    head_diameter: float = length(UNSET, least=3, most=90, does="head across, greatest")
    head_height: float = length(UNSET, least=1, most=30, does="height of the head, greatest")
    neck_width: float = length(UNSET, least=3, most=30, does="square neck across flats, greatest")
    neck_depth: float = length(UNSET, least=1, most=30, does="depth of the square neck, greatest")
    lengths: tuple[float, ...] = lengths(UNSET, least=5, most=600, fewest=1, does="lengths sold")
    hole_wood: float = length(UNSET, least=3, most=35, does="hole in wood")
    hole_metal: float = length(UNSET, least=3, most=35, does="hole in metal, medium fit")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")

    def thread_length(self, sold: float) -> float:
        """Threaded part of a bolt `sold` mm long, mm (ISO 888)."""
        return iso_888(self.diameter, sold)


@record
class HexBolt:
    """A bolt with a hexagon head (ISO 4014)."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=3, most=30, does="thread")
    pitch: float = length(UNSET, least=0.3, most=4, does="rise of one turn of the thread")
    across_flats: float = length(UNSET, least=3, most=60, does="spanner size")
    head_diameter: float = length(UNSET, least=3, most=70, does="head across corners, greatest")
    head_height: float = length(UNSET, least=1, most=30, does="height of the head")
    lengths: tuple[float, ...] = lengths(UNSET, least=5, most=600, fewest=1, does="lengths sold")
    hole_wood: float = length(UNSET, least=3, most=35, does="hole in wood")
    hole_metal: float = length(UNSET, least=3, most=35, does="hole in metal, medium fit")
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")

    def thread_length(self, sold: float) -> float:
        """Threaded part of a bolt `sold` mm long, mm (ISO 888)."""
        return iso_888(self.diameter, sold)


@record
class FurnitureBolt:
    """A flat-headed bolt for barrel nuts and inserts; `thread_most` is its longest thread."""

    key: str = text(UNSET, does="name of the file")
    name: str = text(UNSET, does="as it stands in lists", longest=60)
    diameter: float = length(UNSET, least=3, most=20, does="thread")
    pitch: float = length(UNSET, least=0.3, most=4, does="rise of one turn of the thread")
    head_diameter: float = length(UNSET, least=3, most=60, does="head across")
    head_height: float = length(UNSET, least=0.5, most=20, does="height of the head")
    lengths: tuple[float, ...] = lengths(UNSET, least=5, most=400, fewest=1, does="lengths sold")
    thread_most: float = length(UNSET, least=5, most=400, does="longest thread, whatever the bolt")
    hole_wood: float = length(UNSET, least=3, most=25, does="hole in wood")
    drive: str = text(UNSET, does="key or driver bit", longest=40)
    source: str = text(UNSET, does="where the values come from", longest=400)
    sources: tuple[tuple[str, str], ...] = notes(does="where single values come from")

    def thread_length(self, sold: float) -> float:
        """Threaded part of a bolt `sold` mm long, mm."""
        return min(sold, self.thread_most)
