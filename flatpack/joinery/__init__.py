"""Joints, one kind a file: each machines the parts it joins and brings its own hardware."""

from flatpack.joinery.bolt import BoltThrough
from flatpack.joinery.face_screws import FaceScrews
from flatpack.joinery.glue import GluedFaces
from flatpack.joinery.hinge import HingeJoint, Leaf
from flatpack.joinery.knock_down import BarrelNutBolt, InsertBolt
from flatpack.joinery.machining import machine
from flatpack.joinery.pocket_screws import PocketScrews
from flatpack.joinery.round_bar import BarInHoles, WheelsOnAxle

__all__ = [
    "BarInHoles",
    "BarrelNutBolt",
    "BoltThrough",
    "FaceScrews",
    "GluedFaces",
    "HingeJoint",
    "InsertBolt",
    "Leaf",
    "PocketScrews",
    "WheelsOnAxle",
    "machine",
]
