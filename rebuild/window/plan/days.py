"""Days as people say them, for what is drawn of the plan."""

from __future__ import annotations

import datetime as dt

_QUARTERS_FROM = 500


def day_month(day: dt.date) -> str:
    """``3 Feb``, on every system."""
    return f"{day.day} {day:%b}"


def spoken(moment: dt.datetime) -> str:
    """``Thu 3 Feb 2027``; the clock is told on hover."""
    return f"{moment:%a} {day_month(moment)} {moment.year}"


def month_firsts(start: dt.date, end: dt.date) -> list[tuple[dt.date, str]]:
    """Firsts of months between two days, of quarters over a long time; a year is said where it begins.

    >>> month_firsts(dt.date(2026, 12, 20), dt.date(2027, 2, 3))
    [(datetime.date(2027, 1, 1), 'Jan 2027'), (datetime.date(2027, 2, 1), 'Feb')]
    """
    step = 1 if (end - start).days <= _QUARTERS_FROM else 3
    found: list[tuple[dt.date, str]] = []
    year, month = start.year, start.month
    while dt.date(year, month, 1) <= end:
        day = dt.date(year, month, 1)
        if day >= start and (month - 1) % step == 0:
            found.append((day, f"{day:%b %Y}" if month == 1 or not found else f"{day:%b}"))
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
    return found
