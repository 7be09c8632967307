"""A step's picture is taken from where every new part can be seen, if there is such a side."""

from __future__ import annotations

import re
from pathlib import Path

from flatpack import job
from flatpack.profile_files import profile_texts

README = Path(__file__).parents[3] / "README.md"


def test_a_brace_between_bearers_is_seen_from_below() -> None:
    # The README's stand: slats above, bearers at the sides and no legs yet hide the brace from
    # above; nothing lies below it.
    text = README.read_text(encoding="utf-8")
    stand = re.search(r'```toml\n(family = "composed".*?)```', text, re.DOTALL)
    assert stand is not None
    made = job.design(stand[1], "stand.toml", profile_texts())
    files = job.written(job.sheets(made, ("book",)), made.workshop)
    page = files["build-book.html"].content.decode()
    step = page[page.rindex("Step 2.") : page.rindex("Step 3.")]
    assert "Brace" in step
    assert "Seen from below" in step
    assert "out of sight" not in page
