"""Every shape through every writer: it must leave a trace, the same bytes each time."""

from __future__ import annotations

import os
import subprocess
import sys
import typing
from pathlib import Path

import pytest

from flatpack.drawings.layers import DEFAULT_LAYERS, layer_set
from flatpack.drawings.shapes import Closed, Drawing, Shape, Stroke, Text
from flatpack.geometry import Point, closed
from flatpack.writers import WRITERS

from .conftest import SHAPES, drawing_of


def test_the_sample_has_every_kind_of_shape():
    assert {type(shape) for _, shape in SHAPES.values()} == set(typing.get_args(Shape))


@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize("shape", SHAPES)
def test_a_shape_leaves_a_trace(writer, shape):
    layer, drawn = SHAPES[shape]
    with_it = WRITERS[writer].render(drawing_of(Stroke(layer, drawn)), DEFAULT_LAYERS)
    without = WRITERS[writer].render(drawing_of(), DEFAULT_LAYERS)
    assert len(with_it) > len(without) + 50


@pytest.mark.parametrize("writer", WRITERS)
def test_same_drawing_same_bytes(writer, every_shape: Drawing):
    """Also after another drawing, so that nothing is carried over from file to file."""
    render = WRITERS[writer].render
    first = render(every_shape, DEFAULT_LAYERS)
    render(drawing_of(Stroke(*SHAPES["line"])), layer_set({"grain": {"colour": 9}}))
    assert render(every_shape, layer_set({})) == first


def test_same_bytes_whatever_the_hash_seed():
    program = (
        "import hashlib, sys; sys.path.insert(0, 'tests/writers')\n"
        "from conftest import SHAPES, drawing_of\n"
        "from flatpack.drawings.layers import DEFAULT_LAYERS\n"
        "from flatpack.drawings.shapes import Stroke\n"
        "from flatpack.writers import WRITERS\n"
        "drawing = drawing_of(*(Stroke(*row) for row in SHAPES.values()))\n"
        "for w in WRITERS.values():\n"
        "    print(hashlib.sha256(w.render(drawing, DEFAULT_LAYERS)).hexdigest())\n"
    )
    root = Path(__file__).parents[2]
    first, second = (
        subprocess.run(
            [sys.executable, "-c", program], cwd=root, capture_output=True, check=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(root)},
        ).stdout
        for seed in ("1", "2")
    )  # fmt: skip
    assert len(first.split()) == len(WRITERS)
    assert first == second


@pytest.mark.parametrize("writer", WRITERS)
def test_lettering_on_a_cut_layer_is_refused(writer):
    drawing = drawing_of(Stroke("outline", Text(Point(0, 0), "A")))
    with pytest.raises(ValueError, match="text on layer 'outline'"):
        WRITERS[writer].render(drawing, DEFAULT_LAYERS)


@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_a_number_that_cannot_be_drawn_is_refused(writer, bad):
    drawing = drawing_of(Stroke("text", Text(Point(0, bad), "A")))
    with pytest.raises(ValueError, match="drawn"):
        WRITERS[writer].render(drawing, DEFAULT_LAYERS)


@pytest.mark.parametrize("writer", WRITERS)
def test_a_workshops_layer_name_reaches_the_file(writer, every_shape: Drawing):
    layers = layer_set({"outline": {"name": "Profile é", "short": "PROFILE"}})
    data = WRITERS[writer].render(every_shape, layers)
    wanted = {"dxf-r12": b"PROFILE", "dxf-r2000": "Profile é".encode("cp1252")}
    assert wanted.get(writer, "Profile é".encode()) in data


@pytest.mark.parametrize("writer", WRITERS)
def test_a_stroke_drawn_twice_is_written_once(writer):
    corners = [(0, 0, 0), (50, 0, 0.2), (50, 30, 0), (0, 30, 0)]
    turned = corners[2:] + corners[:2]
    once = Stroke("outline", Closed(closed(corners)))
    backwards = Stroke("outline", Closed(closed(turned).reversed()))
    render = WRITERS[writer].render
    assert render(drawing_of(once, backwards), DEFAULT_LAYERS) == render(
        drawing_of(once), DEFAULT_LAYERS
    )


@pytest.mark.parametrize("writer", WRITERS)
def test_the_same_line_on_two_layers_stays_on_both(writer):
    layer, line = SHAPES["line"]
    render = WRITERS[writer].render
    both = render(drawing_of(Stroke(layer, line), Stroke("grain", line)), DEFAULT_LAYERS)
    assert len(both) > len(render(drawing_of(Stroke(layer, line)), DEFAULT_LAYERS))
