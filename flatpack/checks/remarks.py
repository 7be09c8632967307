"""What a family says of its pieces that no check works out: cautions, and what wasn't judged."""

from __future__ import annotations

from collections.abc import Iterator

from flatpack.checks.setting import Setting
from flatpack.finding import Finding

MAY_SAY = ("not done", "note")
"""A remark isn't worked out, so it can neither fail a piece nor pass it."""


def check_remarks(setting: Setting) -> Iterator[Finding]:
    """The piece's own remarks.

    Raises:
        ValueError: one of another severity (a bug of the family).
    """
    for remark in setting.assembly.remarks:
        if remark.severity not in MAY_SAY:
            raise ValueError(f"{setting.assembly.family}: a remark can't be a {remark.severity}")
        yield remark
