"""The whole flow, from the text of a parameter file to the files of its output folder.

    text ─► parameters ─► piece, every joint made ─► findings ─► drawings and tables ─► bytes

Texts come in, bytes go out: whoever calls reads and writes the files.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from flatpack import __version__, checks
from flatpack.content_code import content_code
from flatpack.drawings.layers import layer_set
from flatpack.drawings.page import Sheet
from flatpack.drawings.registry import DRAWINGS, drawings, templates
from flatpack.drawings.settings import Finishing, Printed, Settings
from flatpack.finding import Finding, blocks, by_severity, in_order
from flatpack.manifest import NAME as MANIFEST
from flatpack.manifest import File, manifest
from flatpack.mechanism.study import Study, study
from flatpack.model import Assembly
from flatpack.parameters import Conflict, canonical, read_design
from flatpack.pieces import PIECES
from flatpack.pieces.asked_widths import widths_told
from flatpack.poses import poses
from flatpack.profiles import Profiles, Workshop, load
from flatpack.strength import basis
from flatpack.writers.registry import render

if TYPE_CHECKING:
    from flatpack.drawings.templates import PrintSettings
    from flatpack.strength import Report


class Design(NamedTuple):
    """A piece as built and judged; `code` stands on each of its sheets.

    `printed` are its templates once they have been laid out, `strength` whether it will hold once
    that was asked.
    """

    family: str
    record: Any
    assembly: Assembly
    workshop: Workshop
    findings: tuple[Finding, ...]
    code: str
    study: Study | None
    profiles: Profiles
    printed: Printed | None = None
    finishing: Finishing | None = None
    strength: Report | None = None


def design(source: str, file: str, profile_texts: Mapping[str, str]) -> Design:
    """Read, build and judge.

    Args:
        source: text of the parameter file.
        file: its name, for messages.
        profile_texts: path -> text of every profile; each is fetched when it is needed.

    Raises:
        ReadError: a text isn't TOML.
        ParameterErrors: values that aren't allowed, or don't go together; all of them.
        ProfileError: faults in a profile.
    """
    profiles = load(profile_texts)
    family, record = read_design(
        _Records(), source, file, known=profiles.known, checks=_Checks(profiles)
    )
    assembly = widths_told(PIECES[family].build, record, profiles)
    workshop = profiles.workshop(record.workshop)
    known = study(assembly)
    told = (*checks.run(assembly, study=known), *checks.for_shop(assembly, workshop))
    findings = in_order(told)
    if any(f.tries for f in findings):
        findings = _mended(family, record, profiles, findings)
    finishing = _finishing(record, profiles)
    # Read before the content code is made, so that it counts loads and strengths too.
    basis.read(assembly, record, profiles)
    code = _code(family, record, profiles)
    made = Design(family, record, assembly, workshop, findings, code, known, profiles)
    return made._replace(finishing=finishing)


def _finishing(record: Any, profiles: Profiles) -> Finishing:
    """Glue and finish, read before the content code is made so that it counts them."""
    asked = record.finishing
    return Finishing(
        profiles.glue(asked.glue),
        profiles.finish(asked.finish),
        profiles.finish(asked.sealer),
        asked.units,
    )


def _mended(
    family: str, record: Any, profiles: Profiles, findings: tuple[Finding, ...]
) -> tuple[Finding, ...]:
    from flatpack.mending import mended

    def judge(changed: Any) -> tuple[Finding, ...] | None:
        if any(True for _ in PIECES[family].conflicts(changed, profiles)):
            return None
        return checks.run(PIECES[family].build(changed, profiles))

    return mended(findings, record, judge)


def files(made: Design, chosen: Iterable[Sheet]) -> dict[str, File]:
    """Path -> file of the sheets chosen, of the findings and of the manifest."""
    drawn = written(chosen, made.workshop)
    drawn["findings.json"] = File(findings_json(made), "what the checks found, for a program")
    drawn[MANIFEST] = File(manifest(drawn, _head(made)), "what each file is for")
    return drawn


def sheets(
    made: Design, only: Iterable[str] = DRAWINGS, printing: PrintSettings | None = None
) -> tuple[Sheet, ...]:
    """The drawings, tables and pages of the kinds asked for, as data.

    A design with faults has every drawing marked as not for cutting.
    """
    return drawings(made.assembly, _settings(made, printing), only)


def with_printing(made: Design, printing: PrintSettings | None = None) -> Design:
    """The design with what its templates bring: what can't be printed as asked, pages used."""
    printed = templates(made.assembly, _settings(made, printing))
    return made._replace(findings=in_order([*made.findings, *printed.findings]), printed=printed)


def with_strength(made: Design, *, remedies: bool = False) -> Design:
    """The design with what strength and safety have to say.

    `remedies` looks for the cheapest change against each overload by building the piece anew with
    it, which takes seconds.

    Raises:
        ProfileError: faults in a profile of a material or of loads.
    """
    from flatpack import strength
    from flatpack.checks.safety import Asked
    from flatpack.checks.safety import findings as safety

    profiles = made.profiles
    found = strength.report(made.assembly, made.record, profiles)
    if remedies:
        rebuild = partial(_rebuilt, made, profiles)
        found = strength.with_remedies(found, made.record, made.assembly, profiles, rebuild)
    # Safety tells the same as these with a remedy, and the caution at greater length.
    twice = (
        "strength-caution", "strength-tipping", "strength-sliding", "strength-tipping-lid-open",
    )  # fmt: skip
    held = (f for f in strength.findings(found) if f.code not in twice)
    loads = basis.loads_of(made.assembly, made.record, profiles)
    asked = Asked(made.assembly, made.study, profiles, found, loads)
    told = (*made.findings, *held, *safety(asked))
    return made._replace(findings=by_severity(told), strength=found)


def _rebuilt(made: Design, profiles: Profiles, values: Mapping[str, Any]) -> Assembly | None:
    """The piece with some keys changed; None where they don't go together or bring a fault."""
    from flatpack.mending import changed

    family, record = PIECES[made.family], made.record
    for change in values.items():
        record = changed(record, change)
    if any(True for _ in family.conflicts(record, profiles)):
        return None
    piece = family.build(record, profiles)
    known = {(f.code, f.part) for f in made.findings if f.severity == "fault"}
    faults = (f for f in checks.run(piece) if f.severity == "fault")
    return None if any((f.code, f.part) not in known for f in faults) else piece


def _settings(made: Design, printing: PrintSettings | None) -> Settings:
    return Settings(
        workshop=made.workshop,
        code=made.code,
        faulty=blocks(made.findings),
        poses=poses(made.assembly, made.study),
        study=made.study,
        printing=printing,
        printed=made.printed,
        findings=made.findings,
        finishing=made.finishing,
        strength=made.strength,
    )


def written(drawn: Iterable[Sheet], workshop: Workshop) -> dict[str, File]:
    """Path -> file of each sheet, as the workshop wants its layers and its DXF.

    Raises:
        ValueError: two sheets have the same path (a bug).
    """
    layers = layer_set(workshop.layer_overrides())
    made: dict[str, File] = {}
    for sheet in drawn:
        if sheet.path in made:
            raise ValueError(f"two sheets are called {sheet.path}")
        content = render(sheet, layers, workshop.dxf)
        made[sheet.path] = File(content, f"{sheet.content.title}: {sheet.purpose}")
    return made


def findings_json(made: Design) -> bytes:
    """The findings for a program, worst first, with their counts."""
    from collections import Counter

    from flatpack.finding import ORDER
    from flatpack.writers import plain_json

    counts = Counter(finding.severity for finding in made.findings)
    return plain_json.render(
        {
            **_head(made),
            "counts": {severity: counts[severity] for severity in ORDER},
            "findings": [_told(finding) for finding in made.findings],
        }
    )


def _told(finding: Finding) -> dict[str, object]:
    """A finding without the changes that were only candidates for its remedy."""
    return {key: value for key, value in finding._asdict().items() if key != "tries"}


def _head(made: Design) -> dict[str, str]:
    return {
        "piece": made.assembly.name,
        "family": made.family,
        "date": made.assembly.date,
        "content_code": made.code,
        "flatpack": __version__,
    }


def _code(family: str, record: Any, profiles: Profiles) -> str:
    """Code of the parameters, every profile that the piece is built with, and the program.

    The program is also the package that brings the family.
    """
    used = (text for kind, key, made in profiles.used() for text in (kind, key, canonical(made)))
    package = PIECES[family].package
    brought = (package,) if package else ()
    return content_code((__version__, *brought, family, canonical(record), *used))


class _Records(Mapping[str, Any]):
    """Family -> record class; a family is imported when its class is asked for."""

    def __getitem__(self, family: str) -> Any:
        return PIECES[family].record

    def __contains__(self, family: object) -> bool:
        return family in PIECES

    def __iter__(self) -> Iterator[str]:
        return iter(PIECES)

    def __len__(self) -> int:
        return len(PIECES)


class _Checks(Mapping[str, Callable[[Any], Iterable[Conflict]]]):
    """Family -> what doesn't go together in its record."""

    def __init__(self, profiles: Profiles) -> None:
        self._profiles = profiles

    def __getitem__(self, family: str) -> Callable[[Any], Iterable[Conflict]]:
        if family not in PIECES:
            raise KeyError(family)
        return partial(_conflicts_of, family, self._profiles)

    def __iter__(self) -> Iterator[str]:
        return iter(PIECES)

    def __len__(self) -> int:
        return len(PIECES)


def _conflicts_of(family: str, profiles: Profiles, record: Any) -> Iterable[Conflict]:
    made: Iterable[Conflict] = PIECES[family].conflicts(record, profiles)
    return made
