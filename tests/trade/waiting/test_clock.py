"""Clocks: from running to now to over, in words."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, strategies as st

from rebuild.trade.waiting import clock
from rebuild.words.waiting import ClockKind

AT = dt.datetime(2026, 3, 14, 8, 0)


@given(st.sampled_from(list(ClockKind)), st.integers(0, 5000), st.integers(0, 5000), st.integers(0, 20000))
def test_a_clock_goes_from_running_to_now_to_over(kind: ClockKind, low: int, more: int, gone: int) -> None:
    order = list(clock.Standing)
    here = clock.read_clock(kind.value, AT, low, low + more, AT + dt.timedelta(minutes=gone))
    later = clock.read_clock(kind.value, AT, low, low + more, AT + dt.timedelta(minutes=gone + 60))
    assert order.index(later.standing) >= order.index(here.standing)
    assert here.words
    assert (here.standing is clock.Standing.RUNNING) == (gone < low)


def test_clock_words() -> None:
    def words(kind: str, hours: float, low: float | None, high: float | None = None) -> str:
        return clock.read_clock(kind, AT, low, high, AT + dt.timedelta(hours=hours)).words

    assert words("recoat", 5, 240, 2880) == "recoat now, until 16 Mar 08:00"
    assert words("re-torque", 1, 120) == "re-torque from 14 Mar 10:00, in 1 h"
    assert words("re-level", 90, 72 * 60) == "re-level: due since 17 Mar 08:00"
    assert words("in the bath", 72, None, 2880).endswith("meant to be out by 16 Mar 08:00, 1 d ago")


def test_a_clock_beyond_every_calendar_is_read_all_the_same() -> None:
    """As a stranger's file may hold one; it ended the first page in a traceback."""
    for kind in ClockKind:
        assert clock.read_clock(kind, AT, 2.0**62, None, AT).standing is clock.Standing.RUNNING
        assert clock.read_clock(kind, AT, None, 2.0**62, AT).latest == AT.replace(year=9999, month=1, day=1)
        assert clock.read_clock(kind, AT, -(2.0**62), None, AT).due == AT.replace(year=1, month=1, day=1)
