"""Profiles: boards, hardware, notches, finishes and workshops, read from TOML texts.

A profile's key is its file's name without `.toml`; its kind is the folder that it lies in.  Files
are parsed when they are asked for, so that a piece pays only for what it uses.
"""

from __future__ import annotations

from flatpack.profiles.boards import Board
from flatpack.profiles.fasteners import CoachBolt, FurnitureBolt, HexBolt, Screw
from flatpack.profiles.finishing import Finish, Glue
from flatpack.profiles.fittings import BarrelNut, Hinge, Insert, Nut, Washer
from flatpack.profiles.loading import KINDS, Profiles, load
from flatpack.profiles.rolling import Rod, Wheel
from flatpack.profiles.shaping import Notch, PocketJig, ScrewRule
from flatpack.profiles.stock import (
    LengthRow,
    PackRow,
    Rates,
    RodRow,
    Saws,
    SheetRow,
    Stock,
    TinRow,
)
from flatpack.profiles.strength_data import LoadSet, Material, Strength
from flatpack.profiles.workshop import ClampZone, Fits, LayerStyle, Tabs, Workshop

__all__ = [
    "KINDS",
    "BarrelNut",
    "Board",
    "ClampZone",
    "CoachBolt",
    "Finish",
    "Fits",
    "FurnitureBolt",
    "Glue",
    "HexBolt",
    "Hinge",
    "Insert",
    "LayerStyle",
    "LengthRow",
    "LoadSet",
    "Material",
    "Notch",
    "Nut",
    "PackRow",
    "PocketJig",
    "Profiles",
    "Rates",
    "Rod",
    "RodRow",
    "Saws",
    "Screw",
    "ScrewRule",
    "SheetRow",
    "Stock",
    "Strength",
    "Tabs",
    "TinRow",
    "Washer",
    "Wheel",
    "Workshop",
    "load",
]
