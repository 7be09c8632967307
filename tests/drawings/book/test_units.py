"""Inches: 1 in = 25.4 mm exactly (NIST SP 811, appendix B.8); sixteenths worked by hand."""

from __future__ import annotations

import pytest

from flatpack.drawings.book.units import said, sixteenths, size


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (25.4, "1"),
        (1.5875, "1/16"),  # 25.4 / 16
        (12.7, "1/2"),
        (19.05, "3/4"),
        (71.4375, "2 13/16"),  # 45 x 1.5875
        (609.6, "24"),
        (0.79, "0"),  # just under half a sixteenth, 0.79375
        (0.80, "1/16"),
        (25.3, "1"),
        (-12.7, "-1/2"),
        (-0.1, "0"),
    ],
)
def test_nearest_sixteenth_in_lowest_terms(mm: float, text: str) -> None:
    assert sixteenths(mm) == text


def test_decimal_stands_beside_a_fraction_that_is_off() -> None:
    # 72 / 25.4 = 2.83465; the nearest sixteenth 2 13/16 = 2.8125 is 0.56 mm short.
    assert size(72.0, "inches") == "2 13/16 (2.835)"
    assert size(76.2, "inches") == "3"
    assert said(76.2, "inches") == "3 in"


def test_millimetres_to_a_tenth() -> None:
    assert (size(16.958, "mm"), said(72.0, "mm")) == ("17", "72 mm")
