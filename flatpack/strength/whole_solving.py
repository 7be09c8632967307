"""Every case of a piece solved as one frame."""

from __future__ import annotations

from collections.abc import Sequence

from flatpack.frozen import frozen
from flatpack.strength.loading import Loading
from flatpack.strength.space import Stood, stand
from flatpack.strength.use_cases import Use
from flatpack.strength.whole import Push, Whole


@frozen
class State:
    """A case solved."""

    loading: Loading
    whole: Whole
    stood: Stood


def solved(whole: Whole, cases: Sequence[Use], own: Sequence[Push]) -> list[State]:
    """Every case with the piece's own weight; what only lies on something doesn't pull.

    Raises:
        UnstableError: something moves without strain.
    """
    loads = [whole.loads((*case.pushes, *own)) for case in cases]
    contacts = [i for i, held in enumerate(whole.held) if held.kind in ("lying", "hooked", "foot")]
    return [
        State(loading=case.loading, whole=whole, stood=stood)
        for case, stood in zip(
            cases, stand(whole.members, whole.ties, loads, contacts), strict=True
        )
    ]
