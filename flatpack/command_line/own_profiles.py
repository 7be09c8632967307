"""Which folders of profiles count: the shipped one, the one at hand, those that are named."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from flatpack.profile_files import ProfileTexts, profile_texts, shipped_folder


def texts(named: Sequence[str], beside: str = "") -> ProfileTexts:
    """Shipped profiles, then `profiles` in the folder `beside`, then the named; the last counts.

    Raises:
        ReadError: a named folder isn't there.
    """
    at_hand = os.path.join(beside, "profiles")
    # In a checkout the folder at hand may be the shipped one.
    new = os.path.isdir(at_hand) and not os.path.samefile(at_hand, shipped_folder())
    own: list[str | Path] = [at_hand, *named] if new else list(named)
    return profile_texts(own)
