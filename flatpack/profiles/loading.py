"""Profiles by kind and key, each parsed and checked when it is first asked for.

    texts   {".../boards/ply-18.toml": "...", ".../hardware/screws/wood-4.toml": "..."}
    kind    the folder:  boards   hardware/screws -> screws   finishes   notches   workshops
    key     the file's name without .toml

Where two texts have the same kind and key, the later one counts: a maker's own folder is given
after the shipped one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Any

from flatpack.errors import Fault, ProfileError
from flatpack.parameters import BoardChoice, nearest, quoted, read_record, replace, words
from flatpack.profiles.boards import Board
from flatpack.profiles.conflicts import CHECKS
from flatpack.profiles.fasteners import CoachBolt, FurnitureBolt, HexBolt, Screw
from flatpack.profiles.finishing import Finish, Glue
from flatpack.profiles.fittings import BarrelNut, Hinge, Insert, Nut, Washer
from flatpack.profiles.rolling import Rod, Wheel
from flatpack.profiles.shaping import Notch, PocketJig
from flatpack.profiles.stock import Stock
from flatpack.profiles.strength_data import LoadSet, Material
from flatpack.profiles.workshop import Workshop

#: Kind, which is the name of the folder -> record.
KINDS: Mapping[str, Any] = MappingProxyType(
    {
        "boards": Board,
        "screws": Screw,
        "coach-bolts": CoachBolt,
        "hex-bolts": HexBolt,
        "furniture-bolts": FurnitureBolt,
        "nuts": Nut,
        "washers": Washer,
        "barrel-nuts": BarrelNut,
        "inserts": Insert,
        "hinges": Hinge,
        "rods": Rod,
        "wheels": Wheel,
        "glues": Glue,
        "pocket-jigs": PocketJig,
        "finishes": Finish,
        "notches": Notch,
        "workshops": Workshop,
        "materials": Material,
        "loads": LoadSet,
        "stock": Stock,
    }
)
_OTHERS = ("pieces",)
"""Folders beside the profiles that hold something else."""


class Profiles:
    """Every profile that there is; each is read once, on first use."""

    __slots__ = ("_paths", "_read", "_texts", "known")

    def __init__(self, texts: Mapping[str, str], paths: Mapping[str, Mapping[str, str]]) -> None:
        """Keep the texts, and the path of each kind and key; made by `load`."""
        self._texts = texts
        self._paths = paths
        self._read: dict[tuple[str, str], Any] = {}
        #: Kind -> sorted keys, as `parameters.read` wants it.
        self.known: Mapping[str, tuple[str, ...]] = MappingProxyType(
            {kind: tuple(sorted(paths.get(kind, ()))) for kind in KINDS}
        )

    def names(self, kind: str) -> tuple[str, ...]:
        """The keys of a kind, sorted."""
        return self.known[kind]

    def path(self, kind: str, key: str) -> str:
        """The file that a profile came from."""
        return self._paths[kind][key]

    def get(self, kind: str, key: str) -> Any:
        """The profile of a kind and key.

        Raises:
            ProfileError: there is none, with the nearest that there is; or its file has faults.
            ReadError: its file isn't TOML.
        """
        found = self._read.get((kind, key))
        if found is None:
            found = self._read[kind, key] = self._parsed(kind, key)
        return found

    def every(self, kind: str) -> tuple[Any, ...]:
        """All profiles of a kind, sorted by key."""
        return tuple(self.get(kind, key) for key in self.known[kind])

    def used(self) -> tuple[tuple[str, str, Any], ...]:
        """Kind, key and profile of all that were asked for so far, sorted by kind and key."""
        return tuple((kind, key, self._read[kind, key]) for kind, key in sorted(self._read))

    def _parsed(self, kind: str, key: str) -> Any:
        path = self._paths.get(kind, {}).get(key)
        if path is None:
            raise ProfileError((self._unknown(kind, key),))
        return read_record(
            KINDS[kind],
            self._texts[path],
            path,
            known=self.known,
            error=ProfileError,
            given={"key": key},
            check=CHECKS.get(kind),
        )

    def _unknown(self, kind: str, key: str) -> Fault:
        names, folder = self.known.get(kind, ()), kind.replace("-", " ")
        like = nearest(key, names)
        message = f"no such name among the {folder}"
        return Fault("", 0, kind, quoted(key), words(names), like, message)

    def board(self, choice: str | BoardChoice) -> Board:
        """A board by its key, or as chosen in a parameter file, with the thickness measured."""
        if isinstance(choice, str):
            choice = BoardChoice(choice)
        made: Board = self.get("boards", choice.profile)
        return made if choice.measured is None else replace(made, thickness=choice.measured)

    def screw(self, key: str) -> Screw:
        """A screw."""
        made: Screw = self.get("screws", key)
        return made

    def coach_bolt(self, key: str) -> CoachBolt:
        """A coach bolt."""
        made: CoachBolt = self.get("coach-bolts", key)
        return made

    def hex_bolt(self, key: str) -> HexBolt:
        """A hexagon bolt."""
        made: HexBolt = self.get("hex-bolts", key)
        return made

    def furniture_bolt(self, key: str) -> FurnitureBolt:
        """A furniture bolt."""
        made: FurnitureBolt = self.get("furniture-bolts", key)
        return made

    def nut(self, key: str) -> Nut:
        """A nut."""
        made: Nut = self.get("nuts", key)
        return made

    def washer(self, key: str) -> Washer:
        """A washer."""
        made: Washer = self.get("washers", key)
        return made

    def barrel_nut(self, key: str) -> BarrelNut:
        """A barrel nut."""
        made: BarrelNut = self.get("barrel-nuts", key)
        return made

    def insert(self, key: str) -> Insert:
        """A threaded insert."""
        made: Insert = self.get("inserts", key)
        return made

    def hinge(self, key: str) -> Hinge:
        """A hinge."""
        made: Hinge = self.get("hinges", key)
        return made

    def rod(self, key: str) -> Rod:
        """A round bar."""
        made: Rod = self.get("rods", key)
        return made

    def wheel(self, key: str) -> Wheel:
        """A wheel."""
        made: Wheel = self.get("wheels", key)
        return made

    def glue(self, key: str) -> Glue:
        """A glue."""
        made: Glue = self.get("glues", key)
        return made

    def finish(self, key: str) -> Finish:
        """A finish."""
        made: Finish = self.get("finishes", key)
        return made

    def notch(self, key: str) -> Notch:
        """A notch."""
        made: Notch = self.get("notches", key)
        return made

    def pocket_jig(self, key: str) -> PocketJig:
        """A pocket-hole jig."""
        made: PocketJig = self.get("pocket-jigs", key)
        return made

    def material(self, key: str) -> Material:
        """Strength of a material."""
        made: Material = self.get("materials", key)
        return made

    def load_set(self, key: str) -> LoadSet:
        """Loads of a family of pieces."""
        made: LoadSet = self.get("loads", key)
        return made

    def stock(self, key: str) -> Stock:
        """A stock list."""
        made: Stock = self.get("stock", key)
        return made

    def workshop(self, key: str) -> Workshop:
        """A workshop."""
        made: Workshop = self.get("workshops", key)
        return made


def load(texts: Mapping[str, str]) -> Profiles:
    """The profiles in `texts`: path (with /) -> TOML text; a text is fetched only when needed.

    Raises:
        ProfileError: a file lies in a folder that is no kind of profile.
    """
    paths: dict[str, dict[str, str]] = {}
    for path in texts:
        folder, _, file = path.rpartition("/")
        kind = folder.rpartition("/")[2]
        if kind not in _OTHERS and file.endswith(".toml"):
            paths.setdefault(kind, {})[file.removesuffix(".toml")] = path
    strays = [kind for kind in paths if kind not in KINDS]
    if strays:
        raise ProfileError(tuple(_stray(paths[kind].values(), kind) for kind in strays))
    return Profiles(texts, paths)


def _stray(paths: Iterable[str], kind: str) -> Fault:
    message = "this folder is no kind of profile"
    return Fault(
        next(iter(paths)), 0, "", quoted(kind), words(KINDS), nearest(kind, list(KINDS)), message
    )
