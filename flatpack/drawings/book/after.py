"""The last chapters: moving back, finish, care, what the checks say, and the sums."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, sin

from flatpack.drawings.book import details, finishing
from flatpack.drawings.book.content import Block, Caution, Chapter, Items, Para, Rows
from flatpack.drawings.book.front import marked
from flatpack.drawings.book.matter import Matter
from flatpack.mechanism.stops import Stop
from flatpack.mechanism.study import Study
from flatpack.model import placed_corners
from flatpack.profiles import Finish
from flatpack.wording import book_english as words
from flatpack.wording import book_english_details as parts_words
from flatpack.wording import book_english_moving as said
from flatpack.wording import english_fits as fits

_BEYOND = 1.0
"""How much further than the sum says the back is raised, degrees, so that the rod is clear."""


def moving(m: Matter) -> Chapter | None:
    """Stops of the back and how to use it; None when nothing moves."""
    if m.study is None:
        return None
    title = words.CHAPTERS["moving"].format(panel=m.study.motion.panel)
    return Chapter("moving", title, tuple(_moving(m, m.study)))


def _moving(m: Matter, study: Study) -> Iterator[Block]:
    motion = study.motion
    yield Para(said.MOVING.format(off=m.said(motion.tolerance), rest=motion.rest))
    rows = tuple(_stop(m, study, n, stop) for n, stop in enumerate(study.found.stops, 1))
    header = m.headed(said.STOPS_HEADER, said.STOPS_HEADER[3:])
    yield Rows(said.STOPS_CAPTION, header, rows, frozenset(range(5)))
    most = max((r.raise_back for r in study.releases), default=0.0)
    turn, top = most + _BEYOND, max((s.angle for s in study.found.stops), default=0.0)
    edge = m.said(round(2.0 * _top_edge(m) * sin(radians(turn / 2.0)), -1))
    panel, rest = motion.panel, motion.rest
    facts = {"edge": edge, "turn": said.degrees(turn), "most": said.degrees(top), "panel": panel,
             "Rest": rest.capitalize()}  # fmt: skip
    yield Items(tuple(text.format(**facts) for text in said.USES.get(panel, said.USE)))
    yield Caution(said.TRY)


def _top_edge(m: Matter) -> float:
    """Distance of the back's free edge from the hinge axis, mm."""
    motion = m.assembly.motion
    axis = motion.axis.x if motion else 0.0
    moving = (p for p in m.assembly.parts.values() if p.group == "back")
    return max((v.x - axis for p in moving for v in placed_corners(p)), default=0.0)


def _stop(m: Matter, study: Study, number: int, stop: Stop) -> tuple[str, ...]:
    spread = next((s for s in study.spreads if s.seat == stop.seat), None)
    made = said.spread(spread.low, spread.high) if spread else ""
    rack = _on_rack(m, stop.rod.x + m.assembly.motion.axis.x) if m.assembly.motion else None
    return (
        str(number), said.degrees(stop.angle), made, m.size(stop.rod.x),
        "" if rack is None else m.size(rack),
    )  # fmt: skip


def _on_rack(m: Matter, x: float) -> float | None:
    """Distance of a place along the piece from the datum end of the part with the notches."""
    for part in m.assembly.parts.values():
        if any(f.operation == "thin-line" for f in part.features):
            low, _, _, _ = part.outline.bounds
            return (x - part.frame.place(low, 0.0).x) * part.frame.x.x
    return None


def finish(m: Matter) -> Chapter:
    """Schedule of the finish with quantities."""
    return Chapter("finish", words.CHAPTERS["finish"], tuple(_finish(m)))


def _finish(m: Matter) -> Iterator[Block]:
    found, chosen = finishing.areas(m.assembly), m.settings.finish
    rows = (
        _row(words.ENDS, found.ends, m.settings.sealer),
        _row(words.ALL_SURFACES, found.surface, chosen),
    )
    yield Rows(words.CHAPTERS["finish"], words.FINISH_HEADER, rows, frozenset({1, 2, 3, 4, 5}))
    yield Para(words.QUANTITY_NOTE)
    grit = chosen.grit if chosen else 180
    hours = chosen.dry_hours if chosen else None
    sealed = m.settings.sealer is not None
    if m.by_shape:
        steps = fits.finish_steps(grit, sealed, hours)
    else:
        steps = words.finish_steps(grit, found.holes, sealed, hours)
    yield Items(steps, numbered=True)
    bare = details.glued_ends(m)
    if bare:
        yield Para(parts_words.GLUED_ENDS.format(", ".join(bare)))
    yield Caution(words.RAGS)


def _row(what: str, area: float, chosen: Finish | None) -> tuple[str, ...]:
    if chosen is None:
        return what, f"{area:.2f}", "", "", "", "", words.NOT_CHOSEN
    litres = finishing.quantity(area, chosen)
    return (
        f"{what}: {chosen.name}", f"{area:.2f}", str(chosen.coats),
        f"{chosen.coverage_least:g} to {chosen.coverage_most:g}",
        f"{litres.least:.2f} to {litres.most:.2f}", f"{chosen.dry_hours:g}", chosen.source,
    )  # fmt: skip


def care(m: Matter) -> Chapter:
    """How to look after the piece."""
    years = m.settings.finish.renew_years if m.settings.finish else None
    motion = m.study.motion if m.study else None
    if m.by_shape:
        return Chapter("care", words.CHAPTERS["care"], (Items(fits.care(years)),))
    lines = words.care(years, motion.panel if motion else "", motion.rest if motion else "")
    return Chapter("care", words.CHAPTERS["care"], (Items(lines),))


def checks(m: Matter) -> Chapter:
    """Faults, warnings and what wasn't checked.

    Finger traps stand under safety, notes in the findings' own file.
    """
    every = [f for f in m.findings if f.severity != "note"]
    told = [f for f in every if f.code != "finger-trap"]
    rows: tuple[tuple[str, ...], ...] = tuple(
        (words.SEVERITIES[f.severity], marked(m, f.part), f.message, f.source, f.remedy)
        for f in told
    )
    if not rows:
        nothing = words.TRAPS_ONLY if every else words.NO_FINDINGS
        return Chapter("checks", words.CHAPTERS["checks"], (Para(nothing),))
    header: tuple[str, ...] = words.CHECKS_HEADER
    if not any(row[-1] for row in rows):
        header, rows = header[:-1], tuple(row[:-1] for row in rows)
    table = Rows(words.FOUND, header, rows)
    return Chapter("checks", words.CHAPTERS["checks"], (Para(words.CHECKS_NOTE), table))


def sums(m: Matter) -> Chapter:
    """Every derived dimension with its sum."""
    rows = tuple(
        (w.name, m.said(w.value) if w.unit == "mm" else f"{w.value:g} {w.unit}", w.sum)
        for w in m.assembly.workings
    )
    table = Rows(words.CHAPTERS["sums"], words.SUMS_HEADER, rows)
    return Chapter("sums", words.CHAPTERS["sums"], (Para(words.SUMS_NOTE), table))
