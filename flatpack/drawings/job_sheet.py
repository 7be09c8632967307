"""The job sheet: what the shop is asked to do with each part."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.drawings.faces import worked_faces
from flatpack.drawings.figures import mm, shown
from flatpack.drawings.inside_corners import smallest_inside_radius
from flatpack.drawings.layers import layer_set
from flatpack.drawings.lists import pair_note
from flatpack.drawings.marks import PartGroup
from flatpack.drawings.operations import Operation, distinct_features, operations
from flatpack.drawings.page import Page, Table
from flatpack.drawings.settings import Settings
from flatpack.model import Assembly
from flatpack.wording import english as words
from flatpack.wording import english_fits as fits
from flatpack.wording import english_saw as saw

Found = tuple[PartGroup, ...]


def job_table(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """One row a distinct part."""
    rows = tuple(_row(assembly, group, found, settings) for group in found)
    return Table(name="job-sheet", title=words.TITLES["job-sheet"], header=words.JOB_HEADER,
                 rows=rows)  # fmt: skip


def operations_table(assembly: Assembly, found: Found, settings: Settings) -> Table:
    """One row a layer, face, diameter and depth of each distinct part."""
    layers = layer_set(settings.workshop.layer_overrides())
    rows = tuple(
        (group.mark, layers[o.layer].name, o.face, o.what, o.diameter, o.depth, o.count, o.fit,
         "; ".join(o.purposes))
        for group in found
        for o in operations(group, settings.mark_show_face)
    )  # fmt: skip
    return Table(name="operations", title=words.TITLES["operations"],
                 header=words.OPERATION_HEADER, rows=rows)  # fmt: skip


def job_page(assembly: Assembly, found: Found, settings: Settings) -> Page:
    """The job sheet to print."""
    return Page(
        name="job-sheet",
        title=words.JOB_TITLE,
        facts=tuple(_facts(assembly, found, settings)),
        lines=_lines(assembly, found),
        tables=(
            job_table(assembly, found, settings),
            operations_table(assembly, found, settings),
        ),
        warning=words.NOT_FOR_CUTTING if settings.faulty else "",
    )


def _facts(assembly: Assembly, found: Found, settings: Settings) -> Iterator[tuple[str, str]]:
    yield words.FACTS["piece"], assembly.name
    yield words.FACTS["code"], settings.code
    yield words.FACTS["date"], assembly.date
    yield words.FACTS["workshop"], settings.workshop.name
    boards = dict.fromkeys((g.part.board.name, mm(g.part.thickness)) for g in found)
    for name, thickness in boards:
        count = sum(g.count for g in found if g.part.board.name == name)
        yield words.FACTS["board"], words.board_line(name, thickness, count)


def _lines(assembly: Assembly, found: Found) -> tuple[str, ...]:
    """The notes for all jobs; what is to be cut and tried first stands before them."""
    trials = {part.key for part in assembly.trials}
    marks = tuple(g.mark for g in found if trials & set(g.keys))
    return (fits.try_first(marks), *words.JOB_NOTES) if marks else words.JOB_NOTES


def _row(
    assembly: Assembly, group: PartGroup, found: Found, settings: Settings
) -> tuple[str | float | int, ...]:
    part = group.part
    done = operations(group, settings.mark_show_face)
    radius = smallest_inside_radius(part)
    return (
        group.mark, part.name, words.HANDS[part.hand], group.count, part.board.name,
        shown(part.thickness), shown(part.length), shown(part.width),
        words.face_up(worked_faces(part)[0]),
        words.GRAIN_LENGTHWISE if part.board.grain else words.GRAIN_FREE,
        "; ".join(o.brief() for o in done), "; ".join((*_fits(done), *_slots(assembly, group))),
        words.NO_INSIDE if radius is None else mm(radius),
        "; ".join(_notes(group, found, settings, radius)),
    )  # fmt: skip


def _fits(done: tuple[Operation, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"Ø{o.diameter} {o.fit}" for o in done if o.fit))


def _slots(assembly: Assembly, group: PartGroup) -> tuple[str, ...]:
    """Slots and mortises of joints that hold by their shape: how much wider than what goes in."""
    key = group.part.key
    ours = (f for f in assembly.fits if key in (f.part, f.onto))
    held = (f for f in ours if key not in f.tongues or len(f.tongues) == 2)
    return tuple(dict.fromkeys(fits.slot(f"{round(f.clearance, 3) + 0.0:g}") for f in held))


def _notes(
    group: PartGroup, found: Found, settings: Settings, radius: float | None
) -> Iterator[str]:
    part, shop = group.part, settings.workshop
    kinds = {f.operation for f in part.features}
    if group.part.hand:
        yield pair_note(group, found)
    if len(worked_faces(part)) == 2:
        yield words.TWO_FACES
    if "pocket-hole" in kinds:
        yield words.POCKETS
    if "bevel" in kinds:
        yield saw.BEVELS
    if "hidden-edge" in kinds:
        yield words.EDGES
    least = shop.smallest_radius()
    if radius is not None and radius < least - 1e-9:
        yield words.too_tight(mm(radius), mm(least))
    yield from _small_holes(group, min(shop.cutters, default=0.0))


def _small_holes(group: PartGroup, cutter: float) -> Iterator[str]:
    small = {
        float(f.diameter)
        for f in distinct_features(group)
        if f.operation in ("drill-through", "drill-blind")
        and hasattr(f, "diameter")
        and f.diameter < cutter
    }
    if small:
        yield words.small_holes(", ".join(f"Ø{mm(d)}" for d in sorted(small)), mm(cutter))
