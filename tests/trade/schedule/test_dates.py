"""Dates as they are written and said: against the standard library, and each refusal by its sentence."""

from __future__ import annotations

import datetime as dt
import email.utils

import pytest
from hypothesis import given, settings, strategies as st

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.schedule.dates import read_built, read_moment

#: A Monday, by ``calendar`` of the standard library too.
MONDAY = dt.datetime(2026, 11, 30, 20, 15)


def said(text: str, now: dt.datetime = MONDAY) -> str:
    return f"{read_moment(text, now=now):%Y-%m-%d %H:%M}"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("today", "2026-11-30 00:00"),
        ("Yesterday 19:30", "2026-11-29 19:30"),
        ("tomorrow at 8:05", "2026-12-01 08:05"),
        ("19:30", "2026-11-30 19:30"),
        ("12 March", "2027-03-12 00:00"),
        ("12 Sept.", "2026-09-12 00:00"),
        ("July 4, 2026", "2026-07-04 00:00"),
        ("3rd of January", "2027-01-03 00:00"),
        ("14.3.2026", "2026-03-14 00:00"),
        ("14. 3. 2026, 19:30", "2026-03-14 19:30"),
        ("25/12/2026", "2026-12-25 00:00"),
        ("12/25/2026", "2026-12-25 00:00"),
        ("5/5/2026", "2026-05-05 00:00"),
        ("Friday", "2026-12-04 00:00"),
        ("on Monday", "2026-11-30 00:00"),
        ("last Monday", "2026-11-23 00:00"),
        ("last fri", "2026-11-27 00:00"),
        ("3 days ago", "2026-11-27 00:00"),
        ("in a week", "2026-12-07 00:00"),
        ("2026-03-14T19:30:00+02:00", "2026-03-14 19:30"),
        ("29 Feb 2028", "2028-02-29 00:00"),
    ],
)
def test_dates_are_read_as_people_say_them(text: str, read: str) -> None:
    assert said(text) == read


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("0001-01-01", "is of the year 1;"),
        ("1899-12-31", "is of the year 1899;"),
        ("2200-01-01", "is of the year 2200;"),
        ("19422-03-14", "is of the year 19422;"),
        ("12 March 26", "is of the year 26;"),
        ("2026-02-29", "is no day of the calendar."),
        ("2026-13-01", "is no day of the calendar."),
        ("2026-03-14 25:00", "has no time of day"),
        ("31 February", "is not a date."),
        ("3 days", "is not a date."),
        ("in 3 days ago", "is not a date."),
        ("soon", "is not a date."),
        ("40/40/2026", "is not a date."),
        ("", "is not a date."),
        ("٣ March", "is not a date."),
    ],
)
def test_what_is_no_date_or_of_no_sense_is_refused(text: str, what: str) -> None:
    with pytest.raises(BadEntry) as refused:
        read_moment(text, "Done", now=MONDAY)
    assert what in str(refused.value)
    assert "2026-03-14" in refused.value.way_out


def test_the_years_at_the_edges_are_taken() -> None:
    assert said("1900-01-01") == "1900-01-01 00:00"
    assert said("2199-12-31") == "2199-12-31 00:00"


def test_two_honest_readings_are_asked_about() -> None:
    for text, ways in (
        ("3/4/2026", ["2026-04-03", "2026-03-04"]),
        ("next Friday", ["2026-12-04", "2026-12-11"]),
    ):
        with pytest.raises(Ambiguous) as asked:
            read_moment(text, now=MONDAY)
        assert [retyped for _words, retyped in asked.value.readings] == ways


def test_a_list_from_outside_says_no_yesterday() -> None:
    assert read_moment("12 March 2026", spoken=False) == dt.datetime(2026, 3, 12)
    for text in ("yesterday", "12 March", "Friday", "19:30"):
        with pytest.raises(BadEntry):
            read_moment(text, spoken=False)


@settings(max_examples=40)
@given(st.dates(dt.date(1900, 1, 1), dt.date(2199, 12, 31)))
def test_every_day_is_read_back_from_each_way_of_writing_it(day: dt.date) -> None:
    # Source: RFC 5322 3.3 as the standard library writes it ("Tue, 14 Mar 2026 …"); ISO 8601.
    wordy = email.utils.format_datetime(dt.datetime.combine(day, dt.time()))[5:16]
    for text in (day.isoformat(), wordy, f"{day:%d.%m.%Y}", f"{day:%B} {day.day}, {day.year}"):
        assert read_moment(text, now=MONDAY).date() == day


def test_a_year_built_is_kept_as_typed() -> None:
    for text in ("1957", "about 1920", "1950-55", "before ’48", "1950s", "", "unknown"):
        assert read_built(text) == text
    for text in ("19422", "1", "1957 no. 12", "0050", "12"):
        with pytest.raises(BadEntry, match="no year a machine was built in"):
            read_built(text)
