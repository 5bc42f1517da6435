"""The owner's week: which hours of which days go to the machine, and days off.

Turns bench minutes into dates and back. A day's hours count from its first minute given; two spells
on one day are allowed. Times are wall-clock; a change of clock at night does not matter here.
"""

from __future__ import annotations

import datetime as dt
from bisect import bisect_right
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.trade.sizes.given import number_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: How far ahead a date is looked for before saying that the week holds no hours for it.
LONGEST_DAYS = 366 * 30
#: So many at once are worked one by one: the first page names the finish, and a start loads no library of arrays.
_FEW = 200
#: In a minute: dates are told as finely as the calendar of the language does.
_MICROSECONDS = 60_000_000


@dataclass(frozen=True, slots=True)
class Spell:
    """Hours on one weekday (0 = Monday), in minutes from midnight."""

    weekday: int
    start_min: int
    end_min: int

    def __post_init__(self) -> None:
        for name, value in (("Weekday", self.weekday), ("Start", self.start_min), ("End", self.end_min)):
            number_of(f"{name} of a spell", value)
        if not (0 <= self.weekday <= 6 and 0 <= self.start_min < self.end_min <= 24 * 60):
            raise BadEntry(
                "is not a spell of a day.",
                where="Week",
                value=f"day {self.weekday}, {self.start_min}-{self.end_min} min",
                way_out="Give a weekday, a start and a later end of the same day.",
            )

    @property
    def minutes(self) -> int:
        """How long it is."""
        return self.end_min - self.start_min


@dataclass(frozen=True, slots=True)
class Week:
    """The spells of a week and the days off.

    >>> week = Week((Spell(1, 19 * 60, 21 * 60),))
    >>> week.after(dt.datetime(2026, 11, 23, 8, 0), 180)
    datetime.datetime(2026, 12, 1, 20, 0)
    """

    spells: tuple[Spell, ...]
    days_off: Collection[dt.date] = field(default=frozenset())

    @property
    def minutes_a_week(self) -> int:
        """Bench minutes in a week without days off."""
        return sum(spell.minutes for spell in self.spells)

    def of_day(self, day: dt.date) -> list[Spell]:
        """The spells of one date, in order."""
        if day in self.days_off:
            return []
        return sorted((s for s in self.spells if s.weekday == day.weekday()), key=lambda s: s.start_min)

    def after(self, start: dt.datetime, minutes: float) -> dt.datetime:
        """When ``minutes`` of bench time from ``start`` are used up.

        Raises:
            BadEntry: the week holds no hours, or not enough for thirty years; minutes that are no number.
        """
        number_of("Minutes of work", minutes)
        self._refuse_empty()
        left, day = minutes, start.date()
        for _ in range(LONGEST_DAYS):
            midnight = dt.datetime.combine(day, dt.time())
            for spell in self.of_day(day):
                begin = max(midnight + dt.timedelta(minutes=spell.start_min), start)
                room = (midnight + dt.timedelta(minutes=spell.end_min) - begin).total_seconds() / 60
                if room <= 0:
                    continue
                if left <= room + 1e-9:
                    return begin + dt.timedelta(minutes=left)
                left -= room
            day += dt.timedelta(days=1)
        raise BadEntry(
            "holds too few hours for the work.",
            where="Week",
            value=f"{self.minutes_a_week} min",
            way_out="Add hours or take steps out.",
        )

    def between(self, start: dt.datetime, end: dt.datetime) -> float:
        """Bench minutes from ``start`` to ``end``."""
        total, day = 0.0, start.date()
        while day <= end.date():
            midnight = dt.datetime.combine(day, dt.time())
            for spell in self.of_day(day):
                begin = max(midnight + dt.timedelta(minutes=spell.start_min), start)
                stop = min(midnight + dt.timedelta(minutes=spell.end_min), end)
                total += max(0.0, (stop - begin).total_seconds() / 60)
            day += dt.timedelta(days=1)
        return total

    def _refuse_empty(self) -> None:
        if not self.spells:
            raise BadEntry("holds no hours.", where="Week", way_out="Give at least one evening.")


class Clock:
    """Bench minutes against elapsed minutes from one start, as a piecewise-linear table.

    Work counts in bench minutes, waiting (a cure, a delivery) in elapsed ones; this turns one into the other,
    number by number here, or in whole arrays from ``bench`` and ``elapsed``.
    """

    def __init__(self, week: Week, start: dt.datetime, days: int) -> None:
        """Lay the table out for ``days`` days; beyond, the week's average goes on. Raises BadEntry."""
        week._refuse_empty()
        self.start = start
        self.bench: list[float] = [0.0]
        self.elapsed: list[float] = [0.0]
        self._arrays: tuple[NDArray[np.float64], NDArray[np.float64]] | None = None
        first = start.date()
        midnight = (dt.datetime.combine(first, dt.time()) - start).total_seconds() / 60
        of_weekday = [
            sorted((s for s in week.spells if s.weekday == day), key=lambda s: s.start_min)
            for day in range(7)
        ]
        off = {(day - first).days for day in week.days_off}
        for day in range(days):
            for spell in () if day in off else of_weekday[(first.weekday() + day) % 7]:
                begin = max(0.0, midnight + spell.start_min)
                end = midnight + spell.end_min
                if end > begin:
                    self._add(begin, self.bench[-1])
                    self._add(end, self.bench[-1] + end - begin)
            midnight += 24 * 60
        average = week.minutes_a_week / (7 * 24 * 60)
        far = self.elapsed[-1] + 366 * 100 * 24 * 60
        self._add(far, self.bench[-1] + (far - self.elapsed[-1]) * average)

    def _add(self, elapsed: float, bench: float) -> None:
        self.elapsed.append(elapsed)
        self.bench.append(bench)

    def to_bench(self, elapsed: float) -> float:
        """Bench minutes by an elapsed moment."""
        return _between(self.elapsed, self.bench, elapsed)

    def to_elapsed(self, bench: float) -> float:
        """The earliest elapsed moment by which so many bench minutes are used."""
        return _between(self.bench, self.elapsed, bench)

    def after_waiting(
        self, bench: NDArray[np.float64], waits: float | NDArray[np.float64]
    ) -> NDArray[np.float64]:
        """Bench minutes by the end of ``waits`` elapsed minutes begun at ``bench``, for a whole array."""
        at_bench, at_clock = self._both()
        return _between_all(at_clock, at_bench, _between_all(at_bench, at_clock, bench) + waits)

    def date(self, bench: float) -> dt.datetime:
        """The date by which so many bench minutes are used: when work ends."""
        return _after(self.start, self.to_elapsed(bench))

    def dates(self, bench: Sequence[float]) -> list[dt.datetime]:
        """``date`` of each of many."""
        import numpy as np

        at_bench, at_clock = self._both()
        return _all_after(self.start, _between_all(at_bench, at_clock, np.asarray(bench, dtype=float)))

    def wait_dates(self, bench: Sequence[float], waits: Sequence[float]) -> list[dt.datetime]:
        """When ``waits`` elapsed minutes begun at ``bench`` are over: on the clock, whether anyone is there or not."""
        if len(bench) <= _FEW:
            begins = [self.to_elapsed(minutes) for minutes in bench]
            return [_after(self.start, begin + wait) for begin, wait in zip(begins, waits, strict=True)]
        import numpy as np

        at_bench, at_clock = self._both()
        begun = _between_all(at_bench, at_clock, np.asarray(bench, dtype=float))
        return _all_after(self.start, begun + np.asarray(waits, dtype=float))

    def begin_dates(self, bench: Sequence[float]) -> list[dt.datetime]:
        """``begin_date`` of each of many."""
        import numpy as np

        at_bench, at_clock = self._both()
        begins = np.asarray(bench, dtype=float)
        at = np.searchsorted(at_bench, begins + 1e-9, side="right")
        in_spell = (at < len(at_bench)) & (at_bench[at - 1] >= begins - 1e-9)
        minutes = np.where(in_spell, at_clock[at - 1], _between_all(at_bench, at_clock, begins))
        return _all_after(self.start, minutes)

    def _both(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        import numpy as np

        if self._arrays is None:
            self._arrays = np.asarray(self.bench), np.asarray(self.elapsed)
        return self._arrays

    def begin_date(self, bench: float) -> dt.datetime:
        """The date at which the next bench minute begins: when work starts, in the spell it starts in."""
        at = bisect_right(self.bench, bench + 1e-9)
        if at < len(self.bench) and self.bench[at - 1] >= bench - 1e-9:
            return _after(self.start, self.elapsed[at - 1])
        return self.date(bench)


def _after(start: dt.datetime, minutes: float) -> dt.datetime:
    """So long after a start; what lies beyond every calendar is at its end."""
    try:
        return start + dt.timedelta(microseconds=round(minutes * _MICROSECONDS))
    except OverflowError:
        return start.replace(year=dt.MAXYEAR, month=1, day=1)


def _all_after(start: dt.datetime, minutes: NDArray[np.float64]) -> list[dt.datetime]:
    """``_after`` for an array."""
    import numpy as np

    room = (start.replace(year=dt.MAXYEAR, month=12, day=31) - start) / dt.timedelta(minutes=1)
    if minutes.size and not float(minutes.max()) < room:
        return [_after(start, one) for one in minutes.tolist()]
    passed = np.rint(minutes * _MICROSECONDS).astype("timedelta64[us]")
    found: list[dt.datetime] = (np.datetime64(start, "us") + passed).tolist()
    return found


def _between(xs: list[float], ys: list[float], x: float) -> float:
    if x <= xs[0]:
        # What starts at once starts now, not when the bench is next manned.
        return ys[0]
    at = max(1, min(bisect_right(xs, x), len(xs) - 1))
    while at > 1 and xs[at - 1] >= x:
        at -= 1
    low, high = xs[at - 1], xs[at]
    # The order of working is that of whole arrays (``_between_all``): one date, whichever way it was asked.
    return ys[at] if high <= low else ys[at - 1] + (ys[at] - ys[at - 1]) * ((x - low) / (high - low))


def _between_all(
    across: NDArray[np.float64], up: NDArray[np.float64], x: NDArray[np.float64]
) -> NDArray[np.float64]:
    """``_between`` for an array: the earliest of equal places counts."""
    import numpy as np

    at = np.clip(np.searchsorted(across, x, side="left"), 1, len(across) - 1)
    low, high = across[at - 1], across[at]
    wide = np.where(high > low, high - low, 1.0)
    share = np.where(high > low, (x - low) / wide, 1.0)
    found = up[at - 1] + (up[at] - up[at - 1]) * share
    return np.asarray(np.where(x <= across[0], up[0], found))
