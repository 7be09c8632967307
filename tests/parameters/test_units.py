"""Lengths in text.  The inch is 25.4 mm exactly (International Yard and Pound agreement, 1959)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from flatpack.parameters import millimetres


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        ("18 mm", 18.0),
        ("18mm", 18.0),
        ("  18  mm ", 18.0),
        ("1.8 cm", 18.0),
        ("0.018 m", 18.0),
        ("3/4 in", 19.05),
        ('3/4"', 19.05),
        ("1 1/2 in", 38.1),
        ("1-1/2 in", 38.1),
        ("2 inches", 50.8),
        ("1 inch", 25.4),
        ("2 ft 6 in", 762.0),
        ("2' 6\"", 762.0),
        ("2 ft 6 1/2 in", 774.7),
        ("8 ft", 2438.4),
        ("1 foot", 304.8),
        (".5 in", 12.7),
        ("-3 mm", -3.0),
    ],
)
def test_lengths(written, expected):
    assert millimetres(written) == expected


@pytest.mark.parametrize(
    "written",
    [
        "", "mm", "18", "18 furlongs", "1,8 cm", "18 mm 3", "3/0 in", "6 in 2 ft", "18 mm 2 in",
        "1e3 mm", "1 ft 2 ft", "--3 mm", "+3 mm", "3//4 in", "1 2 in", "nan mm", "18 MM", "- mm",
        "\N{ARABIC-INDIC DIGIT THREE} mm", "1.2.3 mm", "1/2/3 in", "9999999999 mm", ". in",
    ],
)  # fmt: skip
def test_what_is_no_length(written):
    assert millimetres(written) is None


@given(st.integers(0, 200), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_of_an_inch_are_exact(whole, top, bottom):
    # The standard library's exact fractions are the referee; float() of one rounds once.
    exact = float((whole + Fraction(top, bottom)) * Fraction(254, 10))
    assert millimetres(f"{whole} {top}/{bottom} in") == exact


@given(st.decimals(0, 10_000, places=4), st.sampled_from([("mm", 1), ("cm", 10), ("m", 1000)]))
def test_decimals_are_exact(number, unit):
    name, factor = unit
    assert millimetres(f"{number:f} {name}") == float(Fraction(number) * factor)


@given(st.text(max_size=30))
def test_any_text_is_a_length_or_none(written):
    value = millimetres(written)
    assert value is None or isinstance(value, float)
