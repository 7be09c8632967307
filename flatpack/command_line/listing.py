"""`flatpack list`: what a parameter file may name."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator, Sequence

from flatpack.command_line import own_profiles
from flatpack.command_line.parser import LISTS
from flatpack.command_line.terminal import Terminal, table
from flatpack.errors import FaultsError, ReadError
from flatpack.profile_files import shipped_folder
from flatpack.profiles import KINDS, Profiles, load

_MOST_SHOWN = 10
_APART = ("boards", "workshops", "finishes", "notches", "stock", "loads")

#: What is told of each kind beside key and name: column -> attribute of the profile.
_COLUMNS: dict[str, dict[str, str]] = {
    "boards": {"sold as": "kind", "measured mm": "thickness", "widths mm": "widths",
               "sheets mm": "sheets"},
    "workshops": {"process": "process", "DXF": "dxf", "cutters mm": "cutters"},
    "stock": {"prices in": "currency"},
    "loads": {"for": "use", "persons": "persons", "kg each": "person"},
    "finishes": {"kind": "kind", "coats": "coats"},
    "glues": {"water": "water_class"},
    "rods": {"mm": "diameter"},
    "wheels": {"mm": "diameter"},
    "screws": {"for": "use", "mm": "diameter", "lengths mm": "lengths"},
    "coach-bolts": {"mm": "diameter", "lengths mm": "lengths"},
    "hex-bolts": {"mm": "diameter", "lengths mm": "lengths"},
    "furniture-bolts": {"mm": "diameter", "lengths mm": "lengths"},
}  # fmt: skip


def run(args: Namespace, terminal: Terminal) -> int:
    """Print the lists; 2 when a profile of the maker's own can't be read, else 0."""
    profiles = load(own_profiles.texts(args.profiles))
    status = 0
    for what in (args.what,) if args.what else LISTS:
        for kind in _kinds(what):
            status = max(status, _show(kind, profiles, terminal))
    return status


def _kinds(what: str) -> Sequence[str]:
    return [kind for kind in KINDS if kind not in _APART] if what == "hardware" else (what,)


def _show(kind: str, profiles: Profiles, terminal: Terminal) -> int:
    terminal.say(terminal.styled(kind.replace("-", " ").capitalize(), "bold"))
    broken: list[str] = []
    families = kind == "families"
    header, rows = _families(broken) if families else _profiles(kind, profiles, broken)
    for line in table(header, rows) if rows else ["none"]:
        terminal.say(f"  {line}")
    for error in broken:
        terminal.complain(error)
    terminal.say()
    return 2 if broken else 0


def _families(broken: list[str]) -> tuple[list[str], list[list[str]]]:
    from flatpack.pieces import PIECES

    broken += map(str, PIECES.refused())
    rows = [[key, PIECES[key].title, PIECES[key].package or "flatpack"] for key in PIECES.sound()]
    return ["key", "what it is", "from"], rows


def _profiles(
    kind: str, profiles: Profiles, broken: list[str]
) -> tuple[list[str], list[list[str]]]:
    columns = _COLUMNS.get(kind, {})
    rows = []
    for key in profiles.names(kind):
        try:
            made = profiles.get(kind, key)
        except (FaultsError, ReadError) as error:
            broken.append(str(error))
            continue
        told = [_told(getattr(made, attribute)) for attribute in columns.values()]
        rows.append([key, made.name, *told, _whose(profiles.path(kind, key))])
    return _without_empty(["key", "name", *columns, "from"], rows)


def _whose(path: str) -> str:
    return "flatpack" if path.startswith(f"{shipped_folder().as_posix()}/") else path


def _told(value: object) -> str:
    if isinstance(value, tuple):
        if value and isinstance(value[0], tuple):
            return ", ".join(" x ".join(map(_told, pair)) for pair in value)
        if len(value) > _MOST_SHOWN:
            return f"{_told(value[0])} to {_told(value[-1])}, {len(value)} sizes"
        return " ".join(map(_told, value))
    return f"{value:g}" if isinstance(value, float) else str(value)


def _without_empty(
    header: Sequence[str], rows: Sequence[Sequence[str]]
) -> tuple[list[str], list[list[str]]]:
    kept = [i for i in range(len(header)) if any(row[i] for row in rows)]
    return list(_of(header, kept)), [list(_of(row, kept)) for row in rows]


def _of(row: Sequence[str], kept: Sequence[int]) -> Iterator[str]:
    return (row[i] for i in kept)
