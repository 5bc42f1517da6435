"""The exact days of what is said: ``31 Oct 22:00`` is told on hover as ``2026-10-31 22:00, Saturday``."""

from __future__ import annotations

import datetime as dt
import re

from rebuild.trade.waiting.clock import MONTHS

_SAID = re.compile(r"\b(\d{1,2}) (" + "|".join(MONTHS) + r")[a-z]*\b(?: (\d{4})\b)?(?:,? (\d\d:\d\d)\b)?")


def exact_days(text: str, now: dt.datetime) -> str:
    """Each day a text names, exactly, one a line; one without a year is of the year of ``now``.

    >>> now = dt.datetime(2026, 12, 1)
    >>> exact_days("last at it 31 Oct 22:00; finish 22 June 2027", now).splitlines()
    ['2026-10-31 22:00, Saturday', '2027-06-22, Tuesday']
    >>> exact_days("30 Feb, M10 x 1.5, 5 May be", now)
    '2026-05-05, Tuesday'
    """
    found: dict[str, None] = {}
    for day, month, year, hour in _SAID.findall(text):
        try:
            date = dt.date(int(year or now.year), MONTHS.index(month) + 1, int(day))
        except ValueError:
            continue
        found[f"{date.isoformat()}{f' {hour}' if hour else ''}, {date:%A}"] = None
    return "\n".join(found)
