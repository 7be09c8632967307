"""What a fastener is for, in words for the lists."""

from __future__ import annotations

from flatpack.model import Assembly


def use_of(assembly: Assembly, keys: tuple[str, ...], use: str) -> str:
    """As its joint says, else the names of the parts that it joins."""
    return use or " to ".join(dict.fromkeys(assembly.parts[key].name for key in keys))
