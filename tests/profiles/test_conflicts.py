"""Each thing that can't be in a profile, tried on a shipped one."""

from __future__ import annotations

import tomllib

import pytest

from flatpack.errors import ProfileError
from flatpack.parameters.commenting import toml_value
from flatpack.profile_files import profile_texts
from flatpack.profiles import load
from flatpack.profiles.conflicts import CHECKS

CASES = [
    ("boards", "ply-18", {"sheets": []}, "sheets: missing: a sheet board needs it"),
    ("boards", "larch-27", {"widths": []}, "widths: missing: a planed board needs it"),
    ("boards", "larch-27", {"lengths": [3000, 2400]}, "lengths[1]: out of order; found 2400"),
    ("screws", "wood-4", {"pilot_soft": 4}, "pilot_soft: too large"),
    ("screws", "wood-4", {"head_diameter": 4}, "diameter: too large"),
    ("screws", "wood-4", {"lengths": [20, 20]}, "lengths[1]: out of order"),
    ("coach-bolts", "coach-m8", {"hole_wood": 7.5}, "hole_wood: bolt won't pass"),
    ("hex-bolts", "hex-m8", {"pitch": 4, "diameter": 3.5}, "pitch: too large"),
    ("furniture-bolts", "furniture-m6", {"lengths": [30, 20]}, "lengths[1]: out of order"),
    ("washers", "washer-m8", {"inner": 7.9}, "diameter: too large"),
    ("barrel-nuts", "barrel-m6-12", {"cross_offset": 12}, "cross_offset: too large"),
    ("inserts", "insert-m6", {"hole_soft": 10.5}, "hole_soft: too large"),
    ("hinges", "flap-50", {"holes": [[20, 0], [60, 0]]}, "holes[1]: off the leaf; found [60, 0]"),
    ("rods", "steel-12", {"lengths": [2000, 1000]}, "lengths[1]: out of order"),
    ("wheels", "wheel-160", {"bore": 15}, "axle: too large"),
    ("finishes", "oil", {"coverage_least": 20}, "coverage_least: too large"),
    ("pocket-jigs", "pocket-15", {"pilot": 9.5}, "pilot: too large"),
    ("workshops", "small-router", {"cutters": [6, 3]}, "cutters[1]: out of order"),
    ("workshops", "small-router", {"fits": {"press": 0.2}}, "fits.press: too loose; found 0.2"),
    ("workshops", "laser", {"fits": {"slide": 0.1}}, "fits.push: too loose"),
    ("materials", "bolt-4-6", {"proof": 240, "kind": "softwood"}, "rows: missing"),
    ("materials", "c24", {"k_mod_wet": [0.5, 0.6]}, "k_mod_wet: wrong number of entries"),
    ("stock", "default", {"tins": [{"holds": 500}]}, "tins[0]: one of the two"),
    (
        "stock",
        "default",
        {"boards": [{"board": "pine-20", "width": 70, "defects": [[9, 9]]}]},
        "boards[0].defects: ends before it starts",
    ),
]


def written(raw: dict[str, object]) -> str:
    def value(entry: object) -> str:
        if isinstance(entry, dict):
            return "{" + ", ".join(f"{k} = {value(v)}" for k, v in entry.items()) + "}"
        if isinstance(entry, list):
            return "[" + ", ".join(map(value, entry)) + "]"
        return toml_value(entry)

    return "\n".join(f"{key} = {value(entry)}" for key, entry in raw.items())


@pytest.mark.parametrize(("kind", "key", "changes", "expected"), CASES)
def test_conflict_is_told(kind, key, changes, expected, shipped):
    texts = dict(profile_texts())
    path = shipped.path(kind, key)
    raw = tomllib.loads(texts[path])
    load({**texts, path: written(raw)}).get(kind, key)
    with pytest.raises(ProfileError) as caught:
        load({**texts, path: written({**raw, **changes})}).get(kind, key)
    assert f": {expected}" in str(caught.value).splitlines()[0]


def test_every_check_has_a_case():
    assert {kind for kind, *_ in CASES} == set(CHECKS)


def test_a_layer_named_twice_and_a_bad_short_name():
    shop = 'name = "s"\nprocess = "bench"\nthickest = 30\nsource = "s"\n'
    twice = shop + '[[layers]]\nlayer = "slot"\n[[layers]]\nlayer = "slot"\n'
    with pytest.raises(ProfileError, match=r"s\.toml:8: layers\[1\]\.layer: named twice"):
        load({"workshops/s.toml": twice}).workshop("s")
    short = shop + '[[layers]]\nlayer = "slot"\nshort = "Slot"\nname = "a|b"\n'
    with pytest.raises(ProfileError) as caught:
        load({"workshops/s.toml": short}).workshop("s")
    assert 'layers[0].short: not of the right form; found "Slot"' in str(caught.value)
    assert 'layers[0].name: not of the right form; found "a|b"' in str(caught.value)
