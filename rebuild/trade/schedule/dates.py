"""The one reader of dates: as ISO 8601 writes them, and as people say them.

What is read is shown again as year-month-day, so that a guess of the year is seen. A text with two honest readings
(``3/4/2026``, ``next Friday``) is asked about. Month and day names are English, whole or their first three letters.
"""

from __future__ import annotations

import datetime as dt
import re

from rebuild.errors import Ambiguous, BadEntry
from rebuild.trade.sizes.number import read_whole
from rebuild.trade.sizes.typed_text import short, tidy

#: What happened in a shop, or will, lies between these years; common practice, no source.
FIRST_YEAR, LAST_YEAR = 1900, 2199
#: Built: the oldest machine tools anyone rebuilds are of the early industry; common practice, no source.
FIRST_BUILT = 1750
LONGEST = 60

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH_NAMES = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
)  # fmt: skip
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_NEAR = {"today": 0, "yesterday": -1, "tomorrow": 1}
_TIME = re.compile(
    r"(?:^|[ ,]|(?<=\d)t)(?:at )?(\d{1,2}):(\d\d)(?::(\d\d)(?:\.\d{1,6})?)?(?:z|[+-]\d\d:?\d\d)?$"
)
_ISO = re.compile(r"(\d{1,6})-(\d{1,2})-(\d{1,2})")
_POINTS = re.compile(r"(\d{1,2})\. ?(\d{1,2})\. ?(\d{1,6})")
_SLASHES = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{1,6})")
_DAY_MONTH = re.compile(r"(\d{1,2})(?:st|nd|rd|th|\.)? ?(?:of )?([a-z]{3,9})\.?(?:,? (\d{1,6}))?")
_MONTH_DAY = re.compile(r"([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?(?:,? (\d{1,6}))?")
_WEEKDAY = re.compile(r"(?:(last|next|this|on) )?([a-z]{3,9})")
_AWAY = re.compile(r"(in )?(\d{1,3}|a|one) (day|week)s?( ago)?")


def read_moment(
    text: str, field: str = "Date", *, now: dt.datetime | None = None, spoken: bool = True
) -> dt.datetime:
    """A date, or date and time, as it is typed; midnight stands for no time of day.

    Args:
        text: ``2026-03-14 19:30``, ``14.3.2026``, ``12 March``, ``yesterday``, ``next Friday``.
        field: what the sentence of a refusal names.
        now: the wall clock, to which ``yesterday`` and a date without a year belong; without it, the one of now.
        spoken: whether words that change with the day they were said may stand there (not in a list from outside).

    Raises:
        BadEntry: no date, or one of a year without sense.
        Ambiguous: two dates may be meant; both are named.

    >>> read_moment("12 March", now=dt.datetime(2026, 4, 1)), read_moment("14.3.2026 19:30")
    (datetime.datetime(2026, 3, 12, 0, 0), datetime.datetime(2026, 3, 14, 19, 30))
    >>> read_moment("yesterday", now=dt.datetime(2026, 3, 1, 9, 30))
    datetime.datetime(2026, 2, 28, 0, 0)
    """
    plain = " ".join(tidy(text[: LONGEST + 1]).lower().split())
    told = _Typed(short(text.strip()), field)
    if not plain or len(plain) > LONGEST or not plain.isascii():
        raise told.no_date()
    time = _TIME.search(plain)
    day = plain[: time.start()].rstrip(" ,") if time is not None else plain
    clock = told.clock(time) if time is not None else dt.time()
    today = (now or dt.datetime.now()).date()  # noqa: DTZ005 - wall-clock times of one shop
    return dt.datetime.combine(told.day(day.removesuffix("t"), today, spoken=spoken), clock)


def in_sense(moment: dt.datetime) -> bool:
    """Whether a moment lies where a shop's dates lie."""
    return FIRST_YEAR <= moment.year <= LAST_YEAR


def read_built(text: str, field: str = "Year built") -> str:
    """A year a machine was built, as it was typed: ``1957``, ``about 1920``, ``1950-55``, ``before '48``.

    Raises:
        BadEntry: a number in it is no year.

    >>> read_built("about 1920"), read_built("1950-55")
    ('about 1920', '1950-55')
    """
    for found in re.finditer(r"\d+", text[:200]):
        year = found.group()
        short_form = len(year) == 2 and text[: found.start()].endswith(("-", "–", "/", "'", "’"))
        if not short_form and not (len(year) == 4 and FIRST_BUILT <= read_whole(year, field) <= LAST_YEAR):
            raise BadEntry(
                f"holds {short(year)}, which is no year a machine was built in.",
                where=field,
                value=short(text.strip()),
                way_out=f"Type a year from {FIRST_BUILT} on, as 1957, about 1920 or 1950-55; leave it empty if nobody "
                "knows, and put other numbers into the note.",
            )
    return text


class _Typed:
    """One text as it was typed, and what is said of it."""

    def __init__(self, text: str, field: str) -> None:
        self._text = text
        self._field = field

    def no_date(self, what: str = "is not a date.") -> BadEntry:
        return BadEntry(
            what,
            where=self._field,
            value=self._text,
            way_out="Type it as 2026-03-14 or 2026-03-14 19:30; 12 March, yesterday and last Friday are read too.",
        )

    def clock(self, found: re.Match[str]) -> dt.time:
        hour, minute, second = (self._whole(part or "0") for part in found.groups())
        if hour > 23 or minute > 59 or second > 59:
            raise self.no_date("has no time of day a clock shows.")
        return dt.time(hour, minute, second)

    def day(self, day: str, today: dt.date, *, spoken: bool) -> dt.date:
        if found := _ISO.fullmatch(day):
            return self._date(*found.groups())
        if found := _POINTS.fullmatch(day):
            return self._date(*reversed(found.groups()))
        if found := _SLASHES.fullmatch(day):
            return self._slashes(*found.groups())
        if found := _DAY_MONTH.fullmatch(day):
            return self._named(found[2], found[1], found[3], today, spoken=spoken)
        if (found := _MONTH_DAY.fullmatch(day)) and found[1][:3] in _MONTHS:
            return self._named(found[1], found[2], found[3], today, spoken=spoken)
        if spoken:
            return self._said(day, today)
        raise self.no_date()

    def _said(self, day: str, today: dt.date) -> dt.date:
        """Words that mean another day each day they are said."""
        if day in _NEAR or not day:
            return today + dt.timedelta(days=_NEAR.get(day, 0))
        if (found := _AWAY.fullmatch(day)) and bool(found[1]) != bool(found[4]):
            count = 1 if found[2] in ("a", "one") else self._whole(found[2])
            days = count * (7 if found[3] == "week" else 1)
            return today + dt.timedelta(days=days if found[1] else -days)
        if (found := _WEEKDAY.fullmatch(day)) and (named := _number_of(found[2], _DAYS)) is not None:
            return self._weekday(found[1] or "", named, today)
        raise self.no_date()

    def _weekday(self, which: str, named: int, today: dt.date) -> dt.date:
        ahead = (named - today.weekday()) % 7
        if which == "last":
            return today - dt.timedelta(days=(today.weekday() - named) % 7 or 7)
        if which == "next":
            first = today + dt.timedelta(days=ahead or 7)
            raise Ambiguous(
                "may be the first one from now or the one after it.",
                where=self._field,
                value=self._text,
                readings=(
                    ("the first one from now", f"{first:%Y-%m-%d}"),
                    ("a week later", f"{first + dt.timedelta(days=7):%Y-%m-%d}"),
                ),
            )
        return today + dt.timedelta(days=ahead)

    def _named(self, month: str, day: str, year: str | None, today: dt.date, *, spoken: bool) -> dt.date:
        number = _number_of(month, _MONTH_NAMES)
        if number is None:
            raise self.no_date()
        if year is not None:
            return self._date(year, str(number + 1), day)
        if not spoken:
            raise self.no_date("has no year.")
        years = (today.year - 1, today.year, today.year + 1)
        there = [one for one in years if _is_day(one, number + 1, self._whole(day))]
        if not there:
            raise self.no_date()
        days = {abs((dt.date(one, number + 1, self._whole(day)) - today).days): one for one in there}
        return self._date(str(days[min(days)]), str(number + 1), day)

    def _slashes(self, first: str, second: str, year: str) -> dt.date:
        """Day and month in the order of one country or another: asked about unless only one way is a date."""
        ways = [
            (words, month, day)
            for words, month, day in (("day first", second, first), ("month first", first, second))
            if _is_day(2000, self._whole(month), self._whole(day))
        ]
        if len({(month, day) for _words, month, day in ways}) == 2:
            raise Ambiguous(
                "may have the day or the month first.",
                where=self._field,
                value=self._text,
                readings=tuple(
                    (words, f"{self._date(year, month, day):%Y-%m-%d}") for words, month, day in ways
                ),
            )
        if not ways:
            raise self.no_date()
        return self._date(year, ways[0][1], ways[0][2])

    def _date(self, year: str, month: str, day: str) -> dt.date:
        number = self._whole(year)
        if not FIRST_YEAR <= number <= LAST_YEAR:
            raise BadEntry(
                f"is of the year {number}; dates here lie between {FIRST_YEAR} and {LAST_YEAR}.",
                where=self._field,
                value=self._text,
                way_out="Look at the year; type it as 2026-03-14.",
            )
        if not _is_day(number, self._whole(month), self._whole(day)):
            raise self.no_date("is no day of the calendar.")
        return dt.date(number, self._whole(month), self._whole(day))

    def _whole(self, digits: str) -> int:
        return read_whole(digits, self._field)


def _is_day(year: int, month: int, day: int) -> bool:
    try:
        dt.date(year, month, day)
    except ValueError:
        return False
    return True


def _number_of(word: str, names: tuple[str, ...]) -> int | None:
    """The place of a name, whole or its first three letters (four for Sept, Tues, Thur)."""
    found = [
        at for at, name in enumerate(names) if name == word or (3 <= len(word) <= 4 and name.startswith(word))
    ]
    return found[0] if len(found) == 1 else None
