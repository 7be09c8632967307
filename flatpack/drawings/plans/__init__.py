"""Cutting plans on paper and for the machine: pages, lists and nested sheets."""

from flatpack.drawings.plans.sheets import Needs, bought, layout_path, plan_pages

__all__ = ["Needs", "bought", "layout_path", "plan_pages"]
