"""The whole flow, from the text of a parameter file to the files of its output folder.

    text ─► parameters ─► piece, every joint made ─► findings ─► drawings and tables ─► bytes

Texts come in, bytes go out: whoever calls reads and writes the files.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from typing import Any, NamedTuple

from flatpack import __version__, checks
from flatpack.content_code import content_code
from flatpack.finding import Finding, in_order
from flatpack.model import Assembly
from flatpack.parameters import Conflict, canonical, read_design
from flatpack.pieces import PIECES
from flatpack.profiles import Profiles, Workshop, load


class Design(NamedTuple):
    """A piece as built and judged; `code` stands on each of its sheets."""

    family: str
    record: Any
    assembly: Assembly
    workshop: Workshop
    findings: tuple[Finding, ...]
    code: str


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
        _Records(), source, file, known=profiles.known, checks=_conflicts(profiles)
    )
    assembly = PIECES[family].build(record, profiles)
    workshop = profiles.workshop(record.workshop)
    findings = in_order(checks.run(assembly))
    return Design(family, record, assembly, workshop, findings, _code(family, record, profiles))


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
            "findings": [finding._asdict() for finding in made.findings],
        }
    )


def _head(made: Design) -> dict[str, str]:
    return {
        "piece": made.assembly.name,
        "family": made.family,
        "date": made.assembly.date,
        "content_code": made.code,
        "flatpack": __version__,
    }


def _code(family: str, record: Any, profiles: Profiles) -> str:
    """Code of the parameters, every profile that the piece is built with, and the program."""
    used = (text for kind, key, made in profiles.used() for text in (kind, key, canonical(made)))
    return content_code((__version__, family, canonical(record), *used))


class _Records(Mapping[str, Any]):
    """Family -> record class; a family is imported when its class is asked for."""

    def __getitem__(self, family: str) -> Any:
        return PIECES[family].record

    def __iter__(self) -> Iterator[str]:
        return iter(PIECES)

    def __len__(self) -> int:
        return len(PIECES)


def _conflicts(profiles: Profiles) -> dict[str, Callable[[Any], Iterable[Conflict]]]:
    return {family: partial(_conflicts_of, family, profiles) for family in PIECES}


def _conflicts_of(family: str, profiles: Profiles, record: Any) -> Iterable[Conflict]:
    made: Iterable[Conflict] = PIECES[family].conflicts(record, profiles)
    return made
