"""Where square slats meet at the hinge: values derived by hand.

With the axis at mid-gap both upper arrises are equally far from it and meet on the line that
halves the angle: tan(angle / 2) = gap / (2 T), T the height of the arrises above the axis.
12, 18 and 24 mm over 18 mm: twice atan(1/3), atan(1/2), atan(2/3).  With the axis 3 mm lower,
18 mm: twice atan(9/21).
"""

import pytest

from flatpack.mechanism.hinge_joint import HingeJoint, gap_for, largest_angle


@pytest.mark.parametrize(
    ("gap", "depth", "degrees"),
    [(12.0, 0.0, 36.87), (18.0, 0.0, 53.13), (24.0, 0.0, 67.38), (18.0, 3.0, 46.4)],
)
def test_square_arrises_at_mid_gap(gap: float, depth: float, degrees: float) -> None:
    joint = HingeJoint.mid_gap(gap, 18.0, depth)
    assert largest_angle(joint) == pytest.approx(degrees, abs=0.005)
    back = gap_for(largest_angle(joint), joint, axis_share=0.5)
    assert back == pytest.approx(gap, abs=1e-5)
