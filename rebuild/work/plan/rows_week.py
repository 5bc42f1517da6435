"""The owner's week as it is set, and days off."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.plan import DaysOff, WorkSpells
from rebuild.trade.schedule.week import Spell, Week
from rebuild.trade.schedule.week_entry import ASSUMED

#: The tables the lookups here ask.
READS = frozenset({"day_off", "work_spell"})


def week_of(connection: Connection) -> tuple[Week, bool]:
    """The owner's week, and whether it was set (else it is assumed)."""
    rows = connection.execute(select(WorkSpells.weekday, WorkSpells.start_min, WorkSpells.end_min)).all()
    off: set[dt.date] = set()
    for first, last in connection.execute(select(DaysOff.first, DaysOff.last)):
        off |= {first.date() + dt.timedelta(days=at) for at in range((last.date() - first.date()).days + 1)}
    spells = tuple(Spell(row.weekday, row.start_min, row.end_min) for row in rows)
    return Week(spells or ASSUMED, frozenset(off)), bool(spells)


@dataclass(frozen=True, slots=True)
class WeekAhead:
    """One week to come: its Monday, its bench time [min], and how many of its bench days are off."""

    monday: dt.date
    minutes: int
    off: int


def weeks_ahead(connection: Connection, now: dt.datetime, count: int = 12) -> list[WeekAhead]:
    """This week's rest and the weeks after it, ``count`` in all, with what days off leave of each."""
    today = now.date()
    week, _is_set = week_of(connection)
    whole = Week(week.spells)
    found = []
    for at in range(count):
        monday = today - dt.timedelta(days=today.weekday() - 7 * at)
        days = [day for day in (monday + dt.timedelta(days=n) for n in range(7)) if day >= today]
        minutes = sum(spell.minutes for day in days for spell in week.of_day(day))
        off = sum(bool(whole.of_day(day)) and not week.of_day(day) for day in days)
        found.append(WeekAhead(monday, minutes, off))
    return found


def days_off(connection: Connection) -> list[tuple[int, dt.date, dt.date, str]]:
    """Days off as (id, first, last, why), in order."""
    rows = connection.execute(
        select(DaysOff.id, DaysOff.first, DaysOff.last, DaysOff.why).order_by(DaysOff.first)
    )
    return [(row.id, row.first.date(), row.last.date(), row.why) for row in rows]
