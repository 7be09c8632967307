from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from flatpack.writers.numerals import decimal, short

LENGTHS = st.floats(-1e6, 1e6, allow_nan=False)


@given(LENGTHS)
def test_decimals_read_back_within_their_last_place(value):
    text = decimal(value)
    assert re.fullmatch(r"-?\d+\.\d{1,10}", text)
    assert abs(float(text) - value) <= 0.51e-10 + abs(value) * 1e-15
    assert text != "-0.0"


@given(LENGTHS)
def test_short_numbers_read_back_within_their_last_place(value):
    text = short(value)
    assert re.fullmatch(r"-?\d+(\.\d{0,5}[1-9])?", text)
    assert abs(float(text) - value) <= 0.51e-6
    assert text != "-0"


@given(st.floats(-2000, 2000).map(lambda v: round(v, 3)))
def test_measures_to_a_thousandth_are_written_as_typed(value):
    assert float(decimal(value)) == value
    assert float(short(value)) == value


@pytest.mark.parametrize(
    ("value", "text"), [(12, "12.0"), (-0.0, "0.0"), (1e-5, "0.00001"), (0.1, "0.1")]
)
def test_decimal(value, text):
    assert decimal(value) == text
