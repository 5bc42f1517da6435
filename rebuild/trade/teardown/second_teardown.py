"""A second teardown against the last refit: what is missing, what is new, and which order was never written down.

Read backwards, a removal order says in which order things can go on. Where the last refit put two of them on
the other way round and they then had to come off in the order found now, a constraint was missed.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Compared(Generic[K]):
    """``missed``: (first, then) that the last refit did the other way round; ``missing`` were put on and did
    not come off; ``new`` came off and had not been put on."""

    missed: tuple[tuple[K, K], ...]
    missing: tuple[K, ...]
    new: tuple[K, ...]


def compare(refitted: Sequence[K], taken_off: Sequence[K]) -> Compared[K]:
    """Compare the order things were put on with the order they came off again.

    Only neighbours in the new order are named: with the pairs both orders agree on, they imply the rest.

    Args:
        refitted: first put on to last put on.
        taken_off: first off to last off.

    >>> found = compare(["bracket", "half nuts", "worm", "cover"], ["cover", "half nuts", "worm", "bracket"])
    >>> found.missed
    (('worm', 'half nuts'),)
    """
    put_on = list(dict.fromkeys(refitted))
    backwards = list(dict.fromkeys(reversed(taken_off)))
    at = {key: place for place, key in enumerate(put_on)}
    common = [key for key in backwards if key in at]
    missed = tuple((first, then) for first, then in pairwise(common) if at[first] > at[then])
    off = set(backwards)
    return Compared(
        missed,
        tuple(key for key in put_on if key not in off),
        tuple(key for key in reversed(backwards) if key not in at),
    )
