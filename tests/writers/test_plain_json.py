from __future__ import annotations

import json

import pytest

from flatpack.writers import plain_json


def test_keys_are_sorted_and_numbers_steady():
    value = {"b": [0.1 + 0.2, -0.0], "a": {"é": None, "count": 3, "yes": True}}
    data = plain_json.render(value)
    assert json.loads(data) == {"a": {"count": 3, "yes": True, "é": None}, "b": [0.3, 0.0]}
    assert data.decode().splitlines()[:4] == [
        "{",
        '  "a": {',
        '    "count": 3,',
        '    "yes": true,',
    ]
    assert b"-0" not in data
    assert plain_json.render(dict(reversed(value.items()))) == data


def test_tuples_become_lists():
    assert json.loads(plain_json.render({"sizes": (1, 2.5)})) == {"sizes": [1, 2.5]}


def test_a_number_without_a_value_is_refused():
    with pytest.raises(ValueError, match="not JSON compliant"):
        plain_json.render({"a": float("nan")})
