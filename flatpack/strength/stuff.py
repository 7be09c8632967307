"""What parts, bolts and bars are made of: looked up, never guessed upwards."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from flatpack.frozen import frozen
from flatpack.profiles import Board, Material, Profiles, Rod, Strength
from flatpack.strength.rules.design import K_CR, Duration, design_value, k_h, k_mod

LOWEST = {"softwood": "c14", "hardwood": "d18", "plywood": "unnamed-plywood"}
"""Lowest classes: C14 and D18 of EN 338:2016, F3 E5 of EN 636."""
METALS = ("bolt-4-6", "stainless-50", "mild-steel", "stainless-bar", "screw-wire")
"""Metals that bolts, bars and screws are looked up among."""
HARDWOODS = ("oak", "beech", "ash", "chestnut", "robinia", "teak", "iroko", "eucalyptus", "birch")
"""Words in a board's material by which it counts as hardwood."""
PANEL_TOLERANCE = 1.0
"""Measured off nominal thickness, mm, within which a panel's row holds (EN 315: 0.4 + 0.03 t)."""


class Strengths(NamedTuple):
    """Characteristic values for one way of bending, N/mm2; None: not known."""

    bending: float
    stiffness: float
    shear: float | None
    shear_stiffness: float
    k_cr: float


@frozen(kw_only=False)
class Stuff:
    """A board's material and the row of values that holds; `row` None: none does, see `note`."""

    material: Material
    row: Strength | None
    note: str

    @property
    def panel(self) -> bool:
        """Whether it is plywood."""
        return self.material.kind == "plywood"

    def factor(self, service_class: int, duration: Duration) -> float:
        """k_mod."""
        return k_mod(self.material.k_mod_dry, self.material.k_mod_wet, service_class, duration)

    def design(self, value: float, service_class: int, duration: Duration) -> float:
        """Design value of a strength."""
        return design_value(value, self.factor(service_class, duration), self.material.gamma)

    def k_def(self, service_class: int) -> float:
        """Creep in a service class (EC5 table 3.2); 0 where the material gives none."""
        given = self.material.k_def
        return given[service_class - 1] if given else 0.0

    def stiffness(self, row: Strength, *, flat: bool, across: bool) -> float:
        """E for bending flat or on edge, of a part whose long side runs along or across."""
        if not self.panel:
            return row.stiffness_across if across else row.stiffness
        if flat:
            return row.stiffness_across if across else row.stiffness
        return (row.stiffness + row.stiffness_across) * _share(row, across)

    def bent_across(self, row: Strength, flat: bool) -> Strengths | None:
        """Values of a part whose long side runs across its grain; None: no design value."""
        if not self.panel or row.bending_across is None:
            return None
        stiff = self.stiffness(row, flat=flat, across=True)
        if flat:
            return Strengths(row.bending_across, stiff, row.planar, row.shear_stiffness, 1.0)
        strength = min(row.tension_across, row.compression_across)
        return Strengths(strength, stiff, row.shear, row.shear_stiffness, 1.0)

    def bent(self, row: Strength, depth: float, flat: bool) -> Strengths:
        """Values for bending flat or on edge; a panel on edge is held to its push and pull.

        On edge E = (E_along + E_across)(n + 1)/2n: the share of plies that run along, all alike.
        """
        if not self.panel:
            bending = k_h(depth, row.density_low) * row.bending
            return Strengths(bending, row.stiffness, row.shear, row.shear_stiffness, K_CR)
        if flat:
            return Strengths(row.bending, row.stiffness, row.planar, row.shear_stiffness, 1.0)
        stiff = self.stiffness(row, flat=False, across=False)
        strength = min(row.tension, row.compression)
        return Strengths(strength, stiff, row.shear, row.shear_stiffness, 1.0)


def _share(row: Strength, across: bool) -> float:
    """Share of a panel's plies that run along, or across, its face grain; half where unknown."""
    n = row.layers
    along = (n + 1) / (2 * n) if n else 0.5
    return 1.0 - along if across else along


def stuff_of(board: Board, profiles: Profiles, grades: Mapping[str, str]) -> Stuff:
    """Material of a board: as graded, as marked, by its key or material, else the lowest.

    Raises:
        ProfileError: a grade names no material.
    """
    names = profiles.names("materials")
    slug = board.material.lower().replace(" ", "-")
    known = next((k for k in (board.key, slug) if k in names), None)
    key = grades.get(board.key) or board.strength or known
    if key is not None:
        material = profiles.material(key)
        note = f"{board.name}: {material.name}, {material.edition}"
    else:
        material = profiles.material(LOWEST[_kind(board)])
        why = "make unnamed" if _kind(board) == "plywood" else "not graded"
        note = f"{board.name}: {why}, so the lowest class: {material.name}, {material.edition}"
    return _with_row(board, material, note)


def _kind(board: Board) -> str:
    if not board.solid:
        return "plywood"
    return "hardwood" if any(w in board.material.lower() for w in HARDWOODS) else "softwood"


def _with_row(board: Board, material: Material, note: str) -> Stuff:
    for row in material.rows:
        if row.thickness == 0.0 or abs(row.thickness - board.thickness) <= PANEL_TOLERANCE:
            if row.layers and row.layers != board.layers:
                note += f"; {board.layers} plies, the table's {row.thickness:g} mm has {row.layers}"
            return Stuff(material, row, note)
    known = ", ".join(f"{r.thickness:g}" for r in material.rows)
    missing = f"no values for {board.thickness:g} mm; the table has {known} mm"
    return Stuff(material, None, f"{board.name}: {material.name}: {missing}")


def metal_of(name: str, profiles: Profiles) -> Material:
    """Steel of a bolt by its name in lists: stainless class 50, else class 4.6."""
    return profiles.material("stainless-50" if "stainless" in name.lower() else "bolt-4-6")


def bar_metal(rod: Rod, profiles: Profiles) -> Material | None:
    """Steel of a bar, None for a wooden one."""
    key = {"steel": "mild-steel", "stainless steel": "stainless-bar"}.get(rod.material)
    return None if key is None else profiles.material(key)
