"""Paper for the bench: 1:1 templates, story sticks and part labels, on any paper."""

from flatpack.drawings.templates.paper import PAPERS, Paper, paper_named
from flatpack.drawings.templates.registry import template_sheets
from flatpack.drawings.templates.setup import PrintSettings
from flatpack.drawings.templates.sheets import Printed, sheets

__all__ = [
    "PAPERS",
    "Paper",
    "PrintSettings",
    "Printed",
    "paper_named",
    "sheets",
    "template_sheets",
]
