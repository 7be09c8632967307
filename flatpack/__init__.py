"""flatpack: from one parameter file to cut-ready drawings of flat-pack garden furniture."""

__version__ = "0.1.0"
