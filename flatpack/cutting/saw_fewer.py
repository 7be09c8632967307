"""Saw plans with a sheet fewer: from the plan of a share of the job, or by laying out anew."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

from flatpack.cutting.bounds import sheets_needed
from flatpack.cutting.resettle import Resettler
from flatpack.cutting.saw_search import FIRST_PLANS, SawSearch, Used

_SHARE_ROUNDS = 12


def resettled(search: SawSearch, low: int, rounds: int) -> None:
    """Take a sheet of the commonest kind away, as often as that succeeds."""
    while search.best and search.rank and not search.rank.short and not search.good(low):
        new = Counter(u.kind for u in search.best if not search.job.offcuts[u.kind])
        kind = new.most_common(1)[0][0]
        views = [f.view for f in search.fillers[kind]]
        same = [u.layout for u in search.best if u.kind == kind]
        others = tuple(u for u in search.best if u.kind != kind)
        again = Resettler(views, search.job.sizes, search.effort, search.random)
        fewer = again.without_one(same, rounds)
        if fewer is None:
            return
        search.keep((*others, *(Used(kind, layout) for layout in fewer)))


def from_a_share(search: SawSearch, low: int, seed: int) -> None:
    """All counts may be the same multiple: then so many plans of the share make a plan."""
    job = search.job
    times = math.gcd(*job.demand)
    if times < 2 or search.good(low) or any(limit is not None for limit in job.limits):
        return
    share = replace(job, demand=tuple(n // times for n in job.demand))
    room = max(r[0] for r in job.rooms), max(r[1] for r in job.rooms)
    if sheets_needed(job.sizes, share.demand, job.turns, room).sheets > low // times:
        return
    part = SawSearch(share, search.effort, seed)
    part.run_quick(FIRST_PLANS, low // times)
    part.run_learning(FIRST_PLANS, low // times)
    resettled(part, low // times, _SHARE_ROUNDS)
    if part.best:
        search.keep(part.best * times)
