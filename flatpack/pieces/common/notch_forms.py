"""A notch profile's shares and slopes made into sizes for a rod, and its inside corners."""

from __future__ import annotations

from flatpack.geometry import Segment
from flatpack.geometry.corners import relieved, rounded_inside
from flatpack.mechanism.notches import Kind, NotchForm
from flatpack.profiles import Notch


def notch_form(notch: Notch, rod: float) -> NotchForm:
    """A notch profile's shares and slopes made into sizes for a rod of this diameter."""
    kind = Kind(notch.shape.replace("-", "_"))
    return NotchForm(
        kind=kind,
        depth=notch.depth * rod,
        base=(rod + notch.clearance) if kind is Kind.SQUARE else notch.floor * rod,
        ramp=notch.ramp,
        undercut=notch.stop - 90.0,
        near=90.0 - notch.ramp,
        far=90.0 - notch.stop,
        radius=(rod + notch.clearance) / 2.0,
    )


def cornered(edge: tuple[Segment, ...], notch: Notch) -> tuple[Segment, ...]:
    """A bar's edge with its inside corners as the notch's profile wants them.

    A square notch gets a corner circle, so that a square block would still seat; all others are
    rounded.  Both stay clear of the rod, whose contacts lie further from the corner.
    """
    if not edge or notch.root_radius == 0.0:
        return edge
    work = relieved if notch.shape == "square" else rounded_inside
    return work(edge, notch.root_radius)
