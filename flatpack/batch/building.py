"""One variant from its text to its folder: what a worker does.

Every variant gets a folder, also one that is refused or has faults: it then holds the reasons in
place of drawings, so that drawings of an earlier run can't be taken for its own.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from typing import Any

from flatpack import __version__, job, output_folder
from flatpack.batch.catalogue import Catalogue, Recorded, key_of
from flatpack.batch.catalogue import program as own_program
from flatpack.batch.choices import Choices, Result, Setup, Task
from flatpack.batch.row import facts, worst
from flatpack.errors import FaultsError, FlatpackError, OutputError, ReadError
from flatpack.finding import blocks
from flatpack.manifest import NAME as MANIFEST
from flatpack.manifest import File, manifest
from flatpack.poses import poses
from flatpack.writers import plain_json

#: What a variant's folder says of itself: its key, the profiles used, and its row of the summary.
CARD = "variant.json"
PICTURE = "thumbnail.svg"
PARAMETERS = "parameters.toml"
_CARD = "what this variant is made from, and its row of the summary"
_PICTURE = "a small picture for the overview of all variants"
_PARAMETERS = "the variant's whole parameter file, for `flatpack check` and `flatpack draw`"


class ProgramDiffersError(Exception):
    """A worker on another machine runs another flatpack."""


def build(
    tasks: Sequence[Task], setup: Setup, stop: Callable[[], bool] | None = None
) -> list[Result]:
    """Make some variants, one after the other, until `stop` says so.

    Raises:
        ProgramDiffersError: the worker's program isn't the one that asks.
    """
    # Files that come back may be from another machine; those written here are this program's own.
    if not setup.folder and _program() != setup.program:
        raise ProgramDiffersError(
            f"a worker has flatpack {_program()}, this program is {setup.program}:"
            " install the same on every machine"
        )
    catalogue = _catalogue(setup)
    made = []
    for task in tasks:
        if stop is not None and stop():
            break
        made.append(_guarded(task, setup, catalogue))
    return made


def _guarded(task: Task, setup: Setup, catalogue: Catalogue) -> Result:
    try:
        state, problem, files = variant(task, setup, catalogue)
        if not setup.folder:
            return Result(task.number, task.name, state, problem, files)
        write(setup.folder, setup.where, task.name, files)
        return Result(task.number, task.name, state, problem)
    except OutputError as error:
        return Result(task.number, task.name, "failed", error.reason, unwritten=True)
    except MemoryError:
        return Result(task.number, task.name, "failed", "not enough memory")
    except Exception as error:  # one bug must not stop the others
        return Result(task.number, task.name, "failed", f"bug: {_bug(error)}")


def write(folder: str, where: str, name: str, files: dict[str, bytes]) -> None:
    """Put a variant's folder in its place.

    Raises:
        OutputError: it can't be written, or holds somebody else's files.
    """
    try:
        output_folder.write(os.path.join(folder, name), files)
    except OutputError as error:
        raise OutputError(os.path.join(where, name), error.reason) from None


def variant(task: Task, setup: Setup, catalogue: Catalogue) -> tuple[str, str, dict[str, bytes]]:
    """State, problem, and the files of one variant's folder, by name."""
    texts, choices = Recorded(setup.texts), setup.choices
    head = {
        "name": task.name,
        "key": key_of(task.text + task.problem, choices._asdict(), setup.program),
    }
    try:
        if task.problem:
            raise ReadError(task.place, task.problem)
        made = job.design(task.text, task.place, texts)
        if "templates" in choices.only:
            made = job.with_printing(made, _printing(choices))
        if "strength" in choices.only:
            made = job.with_strength(made)
    except FlatpackError as error:
        return _refused(task, head, catalogue.used(texts.asked, refused=True), error)
    state = "faults" if blocks(made.findings) else "made"
    files, row = _drawn(made, choices, state, texts)
    files[PARAMETERS] = File(task.text.encode(), _PARAMETERS)
    used = catalogue.used(texts.asked)
    problem = worst(made, state)
    card = {**head, "profiles": used, "state": state, "problem": problem, "row": row}
    return state, problem, _finished(files, card, _head(made))


def _drawn(
    made: job.Design, choices: Choices, state: str, texts: Recorded
) -> tuple[dict[str, File], dict[str, Any]]:
    from flatpack.drawings.overview import thumbnail
    from flatpack.writers import svg_inline

    row = facts(made)
    files: dict[str, File] = {}
    if state == "made" or choices.despite_faults:
        sheets = job.sheets(made, choices.only, _printing(choices))
        files = job.written(sheets, made.workshop)
    if choices.stock:
        from flatpack.batch.timber import planned

        timber, money = planned(made, choices.stock, texts)
        row.update(money)
        if files:
            files.update(timber)
    files["findings.json"] = File(job.findings_json(made), "what the checks found, for a program")
    picture = thumbnail(made.assembly, poses(made.assembly, made.study))
    files[PICTURE] = File(svg_inline.render(picture), _PICTURE)
    return files, row


def _printing(choices: Choices) -> Any:
    from flatpack.drawings.templates import PrintSettings

    return PrintSettings(paper=choices.paper, margin=choices.margin)


def _refused(
    task: Task, head: dict[str, str], used: dict[str, str], error: FlatpackError
) -> tuple[str, str, dict[str, bytes]]:
    problem = _said(error, task)
    card = {**head, "profiles": used, "state": "refused", "problem": problem, "row": {}}
    files = {PARAMETERS: File(task.text.encode(), _PARAMETERS)}
    return "refused", problem, _finished(files, card, {"piece": task.name})


def _said(error: FlatpackError, task: Task) -> str:
    """The faults in words; lines count only in a file that the maker wrote."""
    if task.written or not isinstance(error, FaultsError):
        return str(error)
    own = [f._replace(line=0) if f.file == task.place else f for f in error.faults]
    return "\n".join(map(str, own))


def _head(made: job.Design) -> dict[str, str]:
    return {
        "piece": made.assembly.name,
        "family": made.family,
        "date": made.assembly.date,
        "content_code": made.code,
        "flatpack": __version__,
    }


def _finished(
    files: dict[str, File], card: dict[str, Any], head: dict[str, str]
) -> dict[str, bytes]:
    files[CARD] = File(plain_json.render(card), _CARD)
    files[MANIFEST] = File(manifest(files, head), "what each file is for")
    return {name: file.content for name, file in files.items()}


def _bug(error: BaseException) -> str:
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f"{trace.tb_frame.f_globals.get('__name__')}:{trace.tb_lineno}" if trace else "?"
    return f"{type(error).__name__}: {error} ({where})"


# A worker keeps what is the same for all its chunks.
_kept: dict[str, Any] = {}


def _program() -> str:
    if "program" not in _kept:
        _kept["program"] = own_program()
    found: str = _kept["program"]
    return found


def _catalogue(setup: Setup) -> Catalogue:
    if _kept.get("texts") != setup.texts:
        _kept["texts"], _kept["catalogue"] = setup.texts, Catalogue(setup.texts)
    found: Catalogue = _kept["catalogue"]
    return found
