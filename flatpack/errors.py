"""Everything that flatpack raises on purpose.

    FlatpackError
    |-- ReadError            a file can't be read or isn't TOML: file, line, column, reason
    |-- FaultsError          values that aren't allowed, all of them at once, as `Fault` rows
    |   |-- ParameterErrors  ... in a parameter file
    |   `-- ProfileError     ... in a board, hardware or workshop profile, or a name not known
    |-- FamilyError          a family of somebody else's package can't be used: package, reason
    `-- OutputError          a file or folder can't be written: path, reason

A faulty *design* isn't here: that is a finding.  Anything else that is raised is a bug.
"""

from __future__ import annotations

from typing import NamedTuple


class Fault(NamedTuple):
    """One value that isn't allowed, and where it stands.

    `line` counts from 1; 0 means that the fault has no place in the file (a key that is missing
    altogether).  `value` and `allowed` are written as they would stand in the file.
    """

    file: str
    line: int
    key: str
    value: str
    allowed: str
    nearest: str
    message: str

    def __str__(self) -> str:
        """One line: place, key, what is wrong, what was found, what is allowed, what was meant."""
        place = ":".join(p for p in (self.file, str(self.line) if self.line else "") if p)
        parts = [f"{self.key}: {self.message}" if self.key else self.message]
        if self.value:
            parts.append(f"found {self.value}")
        if self.allowed:
            parts.append(f"allowed: {self.allowed}")
        if self.nearest:
            parts.append(f"did you mean {self.nearest}?")
        return f"{place}: {'; '.join(parts)}" if place else "; ".join(parts)


class FlatpackError(Exception):
    """Head of the tree: what a maker can put right; printed without a traceback."""


class ReadError(FlatpackError):
    """A file can't be read, or isn't valid TOML."""

    def __init__(self, file: str, reason: str, line: int = 0, column: int = 0) -> None:
        """Keep the place; `line` and `column` count from 1, 0 where there is none."""
        super().__init__(file, reason, line, column)
        self.file = file
        self.reason = reason
        self.line = line
        self.column = column

    def __str__(self) -> str:
        """`file:line:column: reason`."""
        return ":".join(str(p) for p in (self.file, self.line, self.column) if p) + (
            f": {self.reason}"
        )


class FaultsError(FlatpackError):
    """Values that aren't allowed, all found at once, in the order of their lines."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        """Keep the faults."""
        super().__init__(faults)
        self.faults = faults

    def __str__(self) -> str:
        """One line a fault."""
        return "\n".join(str(fault) for fault in self.faults)


class ParameterErrors(FaultsError):  # noqa: N818  # plural: it holds them all
    """Faults in a parameter file."""


class ProfileError(FaultsError):
    """Faults in a profile file, or a board, screw or workshop whose name isn't known."""


class FamilyError(FlatpackError):
    """A family that another package offers can't be used."""

    def __init__(self, family: str, package: str, reason: str) -> None:
        """Keep the family's name and the package with its version."""
        super().__init__(family, package, reason)
        self.family = family
        self.package = package
        self.reason = reason

    def __str__(self) -> str:
        """`family "name" of package: reason`, on one line."""
        told = " ".join(self.reason.split())
        return f'family "{self.family}" of {self.package}: {told}'


class OutputError(FlatpackError):
    """A file or folder can't be written."""

    def __init__(self, path: str, reason: str) -> None:
        """Keep the path as the user gave it."""
        super().__init__(path, reason)
        self.path = path
        self.reason = reason

    def __str__(self) -> str:
        """`path: reason`."""
        return f"{self.path}: {self.reason}"
