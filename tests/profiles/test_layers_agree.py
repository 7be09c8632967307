"""A workshop may restyle exactly the layers, lines and weights that the drawings have."""

from __future__ import annotations

from flatpack.drawings.layers import DEFAULT_LAYERS, LINES, WEIGHTS, layer_faults, layer_set
from flatpack.profiles import workshop


def test_same_layers_lines_and_weights():
    assert set(workshop.LAYERS) == {layer.key for layer in DEFAULT_LAYERS}
    assert set(workshop.LINES) == set(LINES)
    assert tuple(map(float, workshop.WEIGHTS)) == WEIGHTS


def test_shipped_workshops_suit_the_layer_table(shipped):
    for shop in shipped.every("workshops"):
        assert layer_faults(shop.layer_overrides()) == ()
    outline = layer_set(shipped.workshop("older-router").layer_overrides())["outline"]
    assert outline.short == "PROFILE"
