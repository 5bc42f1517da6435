"""The exact days of what is said: ``31 Oct 22:00`` is told on hover as ``2026-10-31 22:00, Saturday``."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

from rebuild.trade.waiting.clock import MONTHS

_SAID = re.compile(r"\b(\d{1,2}) (" + "|".join(MONTHS) + r")[a-z]*\b(?: (\d{4})\b)?(?:,? (\d\d:\d\d)\b)?")


def exact_days(text: str, now: dt.datetime) -> str:
    """Each day a text names, exactly, one a line; one without a year is of the year of ``now``.

    A line that begins with a day and its year is a record of then: what else it names without a year is of that year.

    >>> now = dt.datetime(2026, 12, 1)
    >>> exact_days("last at it 31 Oct 22:00; finish 22 June 2027", now).splitlines()
    ['2026-10-31 22:00, Saturday', '2027-06-22, Tuesday']
    >>> exact_days("30 Feb, M10 x 1.5, 5 May be", now)
    '2026-05-05, Tuesday'
    """
    found: dict[str, None] = {}
    for line in text.splitlines():
        first = _SAID.match(line.strip())
        usual = first[3] if first is not None and first[3] else f"{now.year}"
        found.update(dict.fromkeys(_days(line, usual)))
    return "\n".join(found)


def _days(line: str, usual: str) -> Iterator[str]:
    """The days of one line; ``usual`` is the year of those without."""
    for day, month, year, hour in _SAID.findall(line):
        try:
            date = dt.date(int(year or usual), MONTHS.index(month) + 1, int(day))
        except ValueError:
            continue
        yield f"{date.isoformat()}{f' {hour}' if hour else ''}, {date:%A}"
