"""Is the chart read in the right order? A test on a bed that was not true, or was moved since, says nothing."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ChartState:
    """What the order asks of one test: what comes before it, when it was last read, whether it is right.

    ``right`` is None while some position has no verdict. ``missing`` names the positions not read.
    """

    id: int
    number: str
    name: str
    after_id: int | None
    read_at: dt.datetime | None
    moved_at: dt.datetime | None
    right: bool | None
    missing: tuple[str, ...] = ()

    @property
    def called(self) -> str:
        """Number and name."""
        return f"{self.number} {self.name}".strip()


def order_warnings(tests: Sequence[ChartState], unsettled: str = "") -> dict[int, tuple[str, ...]]:
    """Sentences for each test whose reading stands on something not right; ``unsettled`` is the levelling's own.

    Only the reading after the work counts: as found everything may be read in any order.

    >>> bed = ChartState(1, "1", "Bed", None, None, None, None)
    >>> axis = ChartState(2, "6", "Spindle axis", 1, dt.datetime(2026, 5, 1), None, True)
    >>> order_warnings([bed, axis])[2][0]
    'Read before “1 Bed”, which has not been read after the work: read that first, then this again.'
    """
    by_id = {test.id: test for test in tests}
    found: dict[int, tuple[str, ...]] = {}
    for test in tests:
        said = [_missing(test)] if test.missing and test.read_at is not None else []
        if test.read_at is not None:
            said += [words for before in _before(test, by_id) for words in _about(test, before)]
            if unsettled and _rests_on_bed(test, by_id):
                said.append(f"The level is {unsettled}; read this again when it has settled.")
        if said:
            found[test.id] = tuple(said)
    return found


def _missing(test: ChartState) -> str:
    return f"Not finished: {', '.join(test.missing)} not read; read every position before the test is judged."


def _before(test: ChartState, by_id: Mapping[int, ChartState]) -> list[ChartState]:
    """The tests before this one, nearest first; a ring is cut where it closes."""
    found: list[ChartState] = []
    seen = {test.id}
    at = test.after_id
    while at is not None and at not in seen and at in by_id:
        seen.add(at)
        found.append(by_id[at])
        at = by_id[at].after_id
    return found


def _rests_on_bed(test: ChartState, by_id: Mapping[int, ChartState]) -> bool:
    return test.after_id is not None and bool(_before(test, by_id))


def _about(test: ChartState, before: ChartState) -> list[str]:
    assert test.read_at is not None
    called = f"“{before.called}”"
    if before.read_at is None:
        return [
            f"Read before {called}, which has not been read after the work: read that first, then this again."
        ]
    if before.right is False:
        return [f"{called} does not conform; mend that first, then read this again."]
    if before.moved_at is not None and before.moved_at > test.read_at:
        return [f"{called} was adjusted on {before.moved_at:%Y-%m-%d}, after this was read: read this again."]
    return []


def ring_in(after: Mapping[int, int | None], start: int, new_after: int | None) -> bool:
    """Whether putting ``start`` after ``new_after`` would make tests wait for each other.

    >>> ring_in({1: None, 2: 1}, 1, 2)
    True
    """
    at = new_after
    for _ in range(len(after) + 1):
        if at is None:
            return False
        if at == start:
            return True
        at = after.get(at)
    return True
