"""Rules of the layer table."""

from __future__ import annotations

import itertools
import re

import pytest

from flatpack.drawings.layers import DEFAULT_LAYERS, LINES, WEIGHTS, layer_faults, layer_set

KEYS = [
    "outline", "opening", "drill-through", "drill-blind", "counterbore", "countersink",
    "slot", "housing", "pocket-hole", "bevel", "arris", "part-mark", "text", "dimension",
    "centre-line", "visible-edge", "hidden-edge", "datum-edge", "grain", "thin-line",
    "sheet-edge", "not-for-cutting",
    "tab", "register-hole",
]  # fmt: skip


def test_the_table_has_every_layer_once():
    assert sorted(layer.key for layer in DEFAULT_LAYERS) == sorted(KEYS)


def test_names_are_plain_words_and_short_names_fit_the_oldest_version():
    for layer in DEFAULT_LAYERS:
        assert re.fullmatch(r"[A-Z][a-z ]+", layer.name)
        assert re.fullmatch(r"[A-Z0-9_$-]{1,31}", layer.short)
    assert len({layer.name for layer in DEFAULT_LAYERS}) == len(KEYS)
    assert len({layer.short for layer in DEFAULT_LAYERS}) == len(KEYS)


def test_lines_and_weights_are_in_their_series():
    """Widths of ISO 128-2 (from memory for 0.13; the rest as tabled for drawing pens)."""
    assert WEIGHTS == (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)
    for layer in DEFAULT_LAYERS:
        assert layer.weight in WEIGHTS
        assert layer.line in LINES


def test_patterns_are_made_of_the_standards_elements():
    """ISO 128-2: dot 0.5 d, gap 3 d, short dash 6 d, dash 12 d, wide gap 18 d, long dash 24 d.

    From memory.
    """
    for pattern in LINES.values():
        assert set(pattern[::2]) <= {0.5, 6, 12, 24}
        assert set(pattern[1::2]) <= {3, 18}
        assert len(pattern) % 2 == 0


def test_operations_are_told_apart_in_black_and_white():
    """By line type, or by weights 2 : 1 (0.5, 0.25, 0.13); engraved letters show what they are."""
    cut = [layer for layer in DEFAULT_LAYERS if layer.cut and layer.key != "part-mark"]
    for a, b in itertools.combinations(cut, 2):
        ratio = max(a.weight, b.weight) / min(a.weight, b.weight)
        assert a.line != b.line or ratio >= 1.9, (a.key, b.key)


def test_colours_follow_no_cutting_programs_habit():
    used = [layer.colour for layer in DEFAULT_LAYERS]
    assert not set(used) & {1, 2, 3, 4, 5, 6}


def test_no_layer_both_cuts_and_carries_text():
    assert [layer.key for layer in DEFAULT_LAYERS if layer.cut and layer.text] == []
    assert {layer.key for layer in DEFAULT_LAYERS if layer.text} == {
        "text", "dimension", "not-for-cutting"
    }  # fmt: skip


def test_a_workshop_changes_looks_not_meaning():
    layers = layer_set({"slot": {"name": "Groove", "colour": 40, "weight": 0.7, "line": "dotted"}})
    assert (layers["slot"].name, layers["slot"].short) == ("Groove", "SLOT")
    assert (layers["slot"].colour, layers["slot"].weight) == (40, 0.7)
    assert layers["slot"].cut
    assert layers["outline"] == DEFAULT_LAYERS["outline"]
    assert hash(layers) != hash(DEFAULT_LAYERS)
    assert layer_set({}) == DEFAULT_LAYERS


@pytest.mark.parametrize(
    ("overrides", "told"),
    [
        ({"edge": {}}, "edge: no such layer"),
        ({"slot": {"cut": False}}, "slot.cut: can't be changed"),
        ({"slot": {"name": "a/b"}}, "slot.name: 'a/b'"),
        ({"slot": {"name": ""}}, "slot.name: ''"),
        ({"slot": {"name": " a"}}, "slot.name: ' a'"),
        ({"slot": {"short": "Slot"}}, "slot.short: 'Slot'"),
        ({"slot": {"short": "S" * 32}}, "slot.short: 'SSS"),
        ({"slot": {"colour": 0}}, "slot.colour: 0"),
        ({"slot": {"colour": True}}, "slot.colour: True"),
        ({"slot": {"line": "wavy"}}, "slot.line: 'wavy'"),
        ({"slot": {"weight": 0.3}}, "slot.weight: 0.3"),
        ({"slot": {"weight": True}}, "slot.weight: True"),
        ({"slot": {"name": "outline"}}, "slot.name: already used by outline"),
        ({"slot": {"short": "0"}}, "slot.short: already used by the format"),
    ],
)
def test_faults_are_told(overrides, told):
    assert any(fault.startswith(told) for fault in layer_faults(overrides))
    with pytest.raises(ValueError, match=re.escape(told)):
        layer_set(overrides)


def test_all_faults_are_told_at_once():
    faults = layer_faults({"slot": {"line": "wavy", "colour": 300}, "edge": {}})
    assert len(faults) == 3
