"""What was in hand when a photo was taken: the things noted nearest in time, the likeliest first."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)

#: Further off than this nothing was in hand; a photo is rather taken before a thing is written down than after.
WITHIN = dt.timedelta(minutes=90)
AFTER_COUNTS = 2.0


@dataclass(frozen=True, slots=True)
class Noted(Generic[K]):
    """Something written down at a time: a part came off, a step was done, a size was read."""

    key: K
    at: dt.datetime


def in_hand(taken: dt.datetime, noted: Iterable[Noted[K]], most: int = 3) -> list[K]:
    """The keys of what was noted nearest to ``taken``, each once; nothing when all of it is too far off.

    A photo is taken with the part in hand, and the part is written down when it is off: what is noted soon after
    a photo counts as twice as near as what was noted before it.

    >>> at = dt.datetime(2026, 5, 2, 20, 0)
    >>> minutes = lambda n: at + dt.timedelta(minutes=n)
    >>> in_hand(at, [Noted("key", minutes(-8)), Noted("gib", minutes(9)), Noted("bed", minutes(300))])
    ['gib', 'key']
    """

    def far(one: Noted[K]) -> float:
        seconds = (one.at - taken).total_seconds()
        return seconds if seconds >= 0 else -seconds * AFTER_COUNTS

    near = [one for one in noted if abs(one.at - taken) <= WITHIN]
    return list(dict.fromkeys(one.key for one in sorted(near, key=far)))[:most]
