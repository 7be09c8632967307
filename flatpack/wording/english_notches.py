"""English: notches that are drilled before they are sawn out."""

from __future__ import annotations

BORE_DRILL, BORE_USE = "drill bit", "round seat of a notch, sawn out afterwards"


def bored_notch(number: int, x: str, y: str, diameter: str, purpose: str) -> str:
    """What a hole is for that becomes a notch, and where the rod's own centre lies in it."""
    what = f"; {purpose}" if purpose else ""
    return f"notch {number}: drill, then saw out; rod Ø{diameter} rests at {x}, {y}{what}"
