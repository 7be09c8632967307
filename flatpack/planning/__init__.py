"""From pieces of furniture to timber: what to cut from which board, what to buy, pack and expect.

    pieces ─► pool: parts by board ─► plans (flatpack.cutting) ─► buying, offcuts, kits, bench time

Pure: records in, records out.  What a plan can't do becomes a finding; the rest is still made.
"""

from flatpack.planning.making import Asked, Plans, plans
from flatpack.planning.pool import Counted, Lot, Wanted, pool

__all__ = ["Asked", "Counted", "Lot", "Plans", "Wanted", "plans", "pool"]
