"""Colour and progress only where a person reads them; tables and findings as text."""

from __future__ import annotations

import io

import pytest

from flatpack.command_line import findings
from flatpack.command_line.terminal import Terminal, table
from flatpack.finding import Finding


class Screen(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        return True


def on_screen(monkeypatch: pytest.MonkeyPatch, **settings: str) -> tuple[Terminal, Screen]:
    """A terminal as a person sits before it, and its error stream."""
    for name in ("NO_COLOR", "TERM", "COLUMNS"):
        monkeypatch.delenv(name, raising=False)
    for name, value in settings.items():
        monkeypatch.setenv(name, value)
    err = Screen()
    with monkeypatch.context() as patch:
        patch.setattr("sys.stdout", Screen())
        patch.setattr("sys.stderr", err)
        return Terminal(), err


def test_colour_and_progress_on_a_terminal(monkeypatch) -> None:
    terminal, err = on_screen(monkeypatch)
    assert terminal.styled("2 faults", "fault") == "\x1b[1;31m2 faults\x1b[0m"
    terminal.progress("drawing")
    assert "drawing" in err.getvalue()


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_no_colour_when_asked_not_to(monkeypatch, name: str, value: str) -> None:
    terminal, _ = on_screen(monkeypatch, **{name: value})
    assert terminal.styled("2 faults", "fault") == "2 faults"


def test_empty_no_color_counts_as_unset(monkeypatch) -> None:
    # The convention: NO_COLOR "when present and not an empty string" (no-color.org, from memory).
    terminal, _ = on_screen(monkeypatch, NO_COLOR="")
    assert "\x1b" in terminal.styled("2 faults", "fault")


def test_nothing_but_text_in_a_file(capsys) -> None:
    terminal = Terminal()
    terminal.progress("drawing")
    terminal.say(terminal.styled("2 faults", "fault"))
    terminal.complain("can't")
    assert capsys.readouterr() == ("2 faults\n", "can't\n")


@pytest.mark.parametrize(("columns", "width"), [("60", 60), ("400", 100), ("0", 100), ("x", 100)])
def test_width_follows_the_terminal(monkeypatch, columns: str, width: int) -> None:
    assert on_screen(monkeypatch, COLUMNS=columns)[0].width == width


def test_table_lines_up() -> None:
    rows = [["A", "Side rail", "1960"], ["B", "Slat", "84.5"]]
    assert table(["mark", "name", "length"], rows) == [
        "mark  name       length",
        "----  ---------  ------",
        "A     Side rail    1960",
        "B     Slat         84.5",
    ]
    assert table(["mark"], []) == ["mark", "----"]


def finding(**changes: object) -> Finding:
    made = Finding("slat-gap", "warning", "slat 1", "The gap is too narrow.", 2.0, 4.0)
    return made._replace(**changes)


def test_headline_counts_what_was_not_done() -> None:
    found = [finding(severity="not done"), finding(), finding(), finding(severity="fault")]
    assert findings.headline(found) == "1 fault, 1 check not done, 2 warnings, 0 notes"
    assert findings.headline([]) == "0 faults, 0 checks not done, 0 warnings, 0 notes"


def test_findings_worst_first_and_alike_together(capsys) -> None:
    found = [
        finding(severity="note", code="oil", part="", message="Oil it.", measured=None, limit=None),
        *(finding(part=f"slat {i}") for i in range(1, 7)),
        finding(severity="fault", remedy="Use fewer slats.", message="They touch.", limit=None),
    ]
    assert list(findings.report(found, Terminal())) == [
        "fault     slat 1: They touch.",
        "          Remedy: Use fewer slats.",
        "          measured 2 mm; source: geometry; slat-gap",
        "warning   slat 1, slat 2, slat 3 and 3 more: The gap is too narrow.",
        "          measured 2 mm; limit 4 mm; source: geometry; slat-gap",
        "note      Oil it.",
        "          source: geometry; oil",
    ]


def test_findings_are_wrapped_to_the_terminal(monkeypatch) -> None:
    terminal, _ = on_screen(monkeypatch, COLUMNS="50", NO_COLOR="1")
    lines = list(findings.report([finding(message="word " * 30, remedy="do " * 30)], terminal))
    assert len(lines) > 6
    assert max(map(len, lines)) <= 50
