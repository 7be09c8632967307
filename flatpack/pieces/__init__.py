"""Design families; a row in `PIECES` each, imported when asked for; then those of packages."""

from __future__ import annotations

from flatpack.pieces.family import Family
from flatpack.pieces.registry import Families


def _bench() -> Family:
    from flatpack.pieces.bench import Bench, build, conflicts

    return Family("bench", "Slatted bench", Bench, build, conflicts)


def _composed() -> Family:
    from flatpack.pieces.composed import Composed, build, conflicts

    return Family("composed", "A piece of your own, composed of parts", Composed, build, conflicts)


def _cushion_box() -> Family:
    from flatpack.pieces.cushion_box import CushionBox, build, conflicts

    return Family("cushion-box", "Lidded box for cushions", CushionBox, build, conflicts)


def _dining_bench() -> Family:
    from flatpack.pieces.dining_bench import DiningBench, build, conflicts

    return Family("dining-bench", "Dining bench to match a table", DiningBench, build, conflicts)


def _dining_table() -> Family:
    from flatpack.pieces.dining_table import DiningTable, build, conflicts

    return Family("dining-table", "Dining table", DiningTable, build, conflicts)


def _loose_parts() -> Family:
    from flatpack.pieces.loose_parts import LooseParts, build, conflicts

    return Family("loose-parts", "Single parts to cut", LooseParts, build, conflicts)


def _lounger() -> Family:
    from flatpack.pieces.lounger import Lounger, build, conflicts

    return Family("lounger", "Reclining lounger", Lounger, build, conflicts)


def _folding_stool() -> Family:
    from flatpack.pieces.folding_stool import FoldingStool, build, conflicts

    return Family("folding-stool", "Folding stool", FoldingStool, build, conflicts)


def _low_chair() -> Family:
    from flatpack.pieces.low_chair import LowChair, build, conflicts

    return Family("low-chair", "Low chair with a fanned back", LowChair, build, conflicts)


def _planter() -> Family:
    from flatpack.pieces.planter import Planter, build, conflicts

    return Family("planter", "Planter box", Planter, build, conflicts)


def _sheet_stool() -> Family:
    from flatpack.pieces.sheet import SheetStool, build_stool, conflicts

    return Family("sheet-stool", "Stool from sheet, without hardware", SheetStool, build_stool,
                  conflicts)  # fmt: skip


def _sheet_table() -> Family:
    from flatpack.pieces.sheet import SheetTable, build_table, conflicts

    return Family("sheet-table", "Table from sheet, without hardware", SheetTable, build_table,
                  conflicts)  # fmt: skip


def _side_table() -> Family:
    from flatpack.pieces.side_table import SideTable, build, conflicts

    return Family("side-table", "Side table", SideTable, build, conflicts)


PIECES = Families(
    {
        "bench": _bench,
        "folding-stool": _folding_stool,
        "composed": _composed,
        "cushion-box": _cushion_box,
        "dining-bench": _dining_bench,
        "dining-table": _dining_table,
        "loose-parts": _loose_parts,
        "lounger": _lounger,
        "low-chair": _low_chair,
        "planter": _planter,
        "sheet-stool": _sheet_stool,
        "sheet-table": _sheet_table,
        "side-table": _side_table,
    }
)

__all__ = ["PIECES", "Family"]
