"""Slack, waits, spells and days off at their edges."""

from __future__ import annotations

import datetime as dt

import pytest

from rebuild.errors import BadEntry
from rebuild.trade.schedule.cpm import Network
from rebuild.trade.schedule.hands import in_turn
from rebuild.trade.schedule.week import Clock, Spell, Week
from rebuild.trade.schedule.week_entry import parse_day

MONDAY = dt.datetime(2026, 11, 23, 8, 0)


# Worked by hand: A (2) before B (3) and before C (9 after D, 5): free slack of A is B's start less A's finish, 0.
def test_free_slack_is_to_the_first_of_what_follows() -> None:
    net = Network("ABCD", [("A", "B"), ("A", "C"), ("D", "C")])
    times = net.times({"A": 2.0, "B": 3.0, "C": 9.0, "D": 5.0})
    assert times["A"].free_slack == 0.0
    assert times["A"].total_slack == 3.0
    assert times["B"].free_slack == times["B"].total_slack == 9.0
    assert [times[key].critical for key in "ABCD"] == [False, False, True, True]


def test_a_wait_leaves_the_hands_free_and_a_step_does_not() -> None:
    net = Network("WXY", [])
    minutes = {"W": 60.0, "X": 5.0, "Y": 3.0}
    beside = in_turn(net, minutes, frozenset("W"))
    assert beside["W"] == (0.0, 60.0)
    assert max(finish for key, (_, finish) in beside.items() if key != "W") == 8.0
    assert max(finish for _, finish in in_turn(net, minutes).values()) == 68.0


def test_spells_may_touch_and_end_at_midnight_and_not_overlap() -> None:
    assert [spell.minutes for spell in parse_day("9-12, 12-13, 22-24", 5)] == [180, 60, 120]
    with pytest.raises(BadEntry, match=r"Saturday: “9-12, 11:59-13” holds spells that overlap"):
        parse_day("9-12, 11:59-13", 5)
    for text in ("22-24:01", "12-12"):
        with pytest.raises(BadEntry, match=f"Saturday: “{text}” does not end after it begins"):
            parse_day(text, 5)


def test_no_work_is_done_on_a_day_off() -> None:
    evenings = tuple(Spell(day, 19 * 60, 21 * 60) for day in range(7))
    tuesday = (MONDAY + dt.timedelta(days=1)).date()
    week = Week(evenings, frozenset((tuesday,)))
    assert week.after(MONDAY, 120) == MONDAY.replace(hour=21)
    assert week.after(MONDAY, 121) == dt.datetime(2026, 11, 25, 19, 1)
    assert week.between(MONDAY, MONDAY + dt.timedelta(days=3)) == 240
    assert Clock(week, MONDAY, 30).date(180.0) == dt.datetime(2026, 11, 25, 20, 0)


def test_work_beyond_every_calendar_ends_at_its_end() -> None:
    """A duration no one typed, in a damaged file, ended the first page in a fault."""
    clock = Clock(Week((Spell(0, 18 * 60, 20 * 60),)), MONDAY, 30)
    for beyond in (1e12, 2.0**62, 1e300):
        assert clock.date(beyond).year == clock.begin_date(beyond).year == dt.MAXYEAR
        assert [date.year for date in (*clock.dates([beyond]), *clock.begin_dates([beyond]))] == [
            dt.MAXYEAR
        ] * 2
    assert clock.date(120.0) == MONDAY.replace(hour=20, minute=0)
