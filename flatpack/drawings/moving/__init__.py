"""Sheets of a moving back: stops in side view, close-ups at 1:1, their table, a page that moves."""

from flatpack.drawings.moving.record import MovingPage
from flatpack.drawings.moving.sheets import sheets

__all__ = ["MovingPage", "sheets"]
