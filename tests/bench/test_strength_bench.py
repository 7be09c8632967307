"""Time of the strength report; aimed at: the lounger within 100 ms.

python -m pytest tests/bench/test_strength_bench.py --benchmark-enable --benchmark-only
"""

from __future__ import annotations

import pytest

from flatpack.pieces import PIECES
from flatpack.profile_files import profile_texts
from flatpack.profiles import load
from flatpack.strength import report


@pytest.mark.parametrize("family", ["lounger", "bench", "dining-table", "planter", "low-chair"])
def test_report(benchmark, family):
    profiles = load(profile_texts())
    made = PIECES[family]
    record = made.record()
    assembly = made.build(record, profiles)
    found = benchmark(report, assembly, record, profiles)
    assert found.checks
