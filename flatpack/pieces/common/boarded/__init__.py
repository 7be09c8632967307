"""A boarded box: four sides of boards on corner posts or battens, a drained bottom off the ground.

Planter boxes and cushion boxes are both one; what they carry on top is their own.
"""
