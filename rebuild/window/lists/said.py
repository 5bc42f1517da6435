"""A day or moment as people say it, which tells the exact one on hover and is put in order by that."""

from __future__ import annotations

import datetime as dt

from rebuild.work.records.field import show_day, show_exact, show_moment


class Said(str):
    """The words of a cell; ``exact`` is told on hover."""

    exact: str

    def __new__(cls, words: str, exact: str) -> Said:
        made = super().__new__(cls, words)
        made.exact = exact
        return made


def day(moment: dt.datetime | None) -> str:
    """The day of a moment; empty for none.

    >>> said = day(dt.datetime(2026, 3, 2, 19, 4)); said, said.exact
    ('2 Mar 2026', '2026-03-02 19:04')
    """
    return Said(show_day(moment), show_moment(moment)) if moment is not None else ""


def moment(at: dt.datetime | None) -> str:
    """The day and, where one was noted, the hour; empty for none.

    >>> moment(dt.datetime(2026, 3, 2, 19, 4))
    '2 Mar 2026, 19:04'
    """
    if at is None:
        return ""
    return Said(show_exact(at), show_moment(at))


def exact(text: str) -> str:
    """What a cell tells on hover: the exact moment, else its own words."""
    return text.exact if isinstance(text, Said) else text
