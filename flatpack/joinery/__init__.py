"""Joints, one kind a file: each machines the parts it joins and brings its own hardware."""

from flatpack.joinery.bolt import BoltThrough
from flatpack.joinery.face_screws import FaceScrews
from flatpack.joinery.fit_trial import fit_trials
from flatpack.joinery.fitting import Fitting, fitting
from flatpack.joinery.glue import GluedFaces
from flatpack.joinery.halving import Halving
from flatpack.joinery.hinge import HingeJoint, Leaf
from flatpack.joinery.knock_down import BarrelNutBolt, InsertBolt
from flatpack.joinery.machining import machine
from flatpack.joinery.pocket_screws import PocketScrews
from flatpack.joinery.round_bar import BarInHoles, WheelsOnAxle
from flatpack.joinery.tenon import ThroughTenon
from flatpack.joinery.wedged_tenon import TenonThrough, Wedged, WedgedTenon, wedge_part, wedge_size

__all__ = [
    "BarInHoles",
    "BarrelNutBolt",
    "BoltThrough",
    "FaceScrews",
    "Fitting",
    "GluedFaces",
    "Halving",
    "HingeJoint",
    "InsertBolt",
    "Leaf",
    "PocketScrews",
    "TenonThrough",
    "ThroughTenon",
    "Wedged",
    "WedgedTenon",
    "WheelsOnAxle",
    "fit_trials",
    "fitting",
    "machine",
    "wedge_part",
    "wedge_size",
]
