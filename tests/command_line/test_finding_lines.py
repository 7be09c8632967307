"""The line under a finding names its source only where it has one."""

from __future__ import annotations

from flatpack.command_line.findings import _detail
from flatpack.finding import Finding


def told(source: str) -> str:
    return _detail(Finding("a-code", "note", "leg", "Words.", 2.0, 3.0, source=source))


def test_an_empty_source_is_left_out() -> None:
    assert told("") == "measured 2 mm; limit 3 mm; a-code"


def test_a_source_is_named() -> None:
    assert told("geometry") == "measured 2 mm; limit 3 mm; source: geometry; a-code"
