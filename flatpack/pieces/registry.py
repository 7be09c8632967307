"""Families by name: those that ship, then those of other people's packages.

A package names its families in the entry-point group `flatpack.families`, `name = "module:thing"`;
the thing is a `Family`, or a function without arguments that gives one.  Packages are looked for
only when a name isn't a shipped one or all names are asked for, since looking takes longer than
reading a parameter file.  A shipped family is never replaced.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from flatpack.errors import FamilyError, FlatpackError
from flatpack.pieces.family import Family

GROUP = "flatpack.families"


class Offer(NamedTuple):
    """A family that a package offers: its name, the package with its version, how to load it."""

    name: str
    package: str
    load: Callable[[], Any]


class Families(Mapping[str, Family]):
    """Family by name; what it is made of is imported when it is first asked for."""

    def __init__(
        self,
        loaders: Mapping[str, Callable[[], Family]],
        offers: Callable[[], tuple[Offer, ...]] | None = None,
    ) -> None:
        """Keep the shipped families' loaders; `offers` looks for packages."""
        self._shipped = loaders
        self._look = offers or installed
        self._found: dict[str, list[Offer]] | None = None

    def __getitem__(self, key: str) -> Family:
        """The family.

        Raises:
            KeyError: there is none of this name.
            FamilyError: the package that offers it is broken, or two packages offer it.
        """
        if key in self._shipped:
            return self._shipped[key]()
        offers = self._offers()[key]
        if len(offers) > 1:
            both = " and ".join(o.package for o in offers)
            raise FamilyError(key, both, "both offer a family of this name: uninstall one of them")
        return _loaded(offers[0])

    def __contains__(self, key: object) -> bool:
        """Whether there is a family of this name, sound or broken."""
        return key in self._shipped or key in self._offers()

    def __iter__(self) -> Iterator[str]:
        """Names, the shipped ones first."""
        yield from self._shipped
        yield from (name for name in self._offers() if name not in self._shipped)

    def __len__(self) -> int:
        """How many there are."""
        return sum(1 for _ in self)

    def packages(self) -> tuple[str, ...]:
        """Packages that offer families, with their versions, sorted."""
        return tuple(sorted({o.package for row in self._offers().values() for o in row}))

    def sound(self) -> Iterator[str]:
        """Names of the families that can be used."""
        refused = {error.family for error in self.refused()}
        return (name for name in self if name in self._shipped or name not in refused)

    def refused(self) -> tuple[FamilyError, ...]:
        """What is wrong with the families that packages offer: all of it."""
        found = []
        for name, offers in self._offers().items():
            if name in self._shipped:
                text = "flatpack has a family of this name, which can't be replaced"
                found += [FamilyError(name, o.package, text) for o in offers]
                continue
            try:
                self[name]
            except FamilyError as error:
                found.append(error)
        return tuple(found)

    def _offers(self) -> dict[str, list[Offer]]:
        if self._found is None:
            self._found = {}
            for offer in sorted(self._look(), key=lambda o: (o.name, o.package)):
                self._found.setdefault(offer.name, []).append(offer)
        return self._found


def installed() -> tuple[Offer, ...]:
    """What the installed packages offer."""
    from importlib.metadata import entry_points

    found = {}
    for entry in entry_points(group=GROUP):
        made = entry.dist
        package = f"{made.name} {made.version}" if made is not None else entry.value
        # A package found twice on the path counts once.
        found[entry.name, package] = Offer(entry.name, package, entry.load)
    return tuple(found.values())


def _loaded(offer: Offer) -> Family:
    """The family that a package offers, with the package's name and version noted.

    Raises:
        FamilyError: it can't be imported, or isn't a family.
    """
    try:
        thing = offer.load()
        family = thing() if callable(thing) and not isinstance(thing, Family) else thing
    except Exception as error:  # whatever a stranger's code raises is that package's fault
        reason = f"can't be loaded: {type(error).__name__}: {error}"
        raise FamilyError(offer.name, offer.package, reason) from error
    if not isinstance(family, Family):
        raise FamilyError(offer.name, offer.package, "its entry gives no flatpack.pieces.Family")
    if family.key != offer.name:
        text = f"it calls itself {family.key!r}: entry and family must have one name"
        raise FamilyError(offer.name, offer.package, text)
    if not hasattr(family.record, "record_specs"):
        text = "its record isn't one of flatpack.parameters.record"
        raise FamilyError(offer.name, offer.package, text)
    return family._replace(
        package=offer.package,
        build=_guarded(offer, family.build),
        conflicts=_guarded(offer, lambda p, profiles: list(family.conflicts(p, profiles))),
    )


def _guarded(offer: Offer, work: Callable[..., Any]) -> Callable[..., Any]:
    """A stranger's function whose own slips are told with the package's name."""

    def guarded(*given: Any) -> Any:
        try:
            return work(*given)
        except FlatpackError:
            raise
        except Exception as error:
            reason = f"fails with {type(error).__name__}: {error}"
            raise FamilyError(offer.name, offer.package, reason) from error

    return guarded
