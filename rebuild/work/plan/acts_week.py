"""The owner's week: hours on which evenings, and days off."""

from __future__ import annotations

import datetime as dt
import itertools
import re
from collections.abc import Sequence

from sqlalchemy import Connection, delete, select

from rebuild.errors import BadEntry
from rebuild.model.records.plan import DayOff, WorkSpell
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.schedule.week import Spell, Week
from rebuild.work.editing.acts import read_typed, set_columns

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
#: Taken until the owner says otherwise; shown as such.
ASSUMED = (Spell(1, 19 * 60, 21 * 60), Spell(3, 19 * 60, 21 * 60), Spell(5, 9 * 60, 12 * 60))
_SPELL = re.compile(r"(\d{1,2})(?:[:.](\d{2}))?\s*(?:-|to)\s*(\d{1,2})(?:[:.](\d{2}))?")
_WAYS = "Type it as 19:00-21:30, several with commas between, or leave it empty."


def parse_day(text: str, weekday: int) -> tuple[Spell, ...]:
    """The spells of one weekday as typed: ``19:00-21:30, 9-12``.

    Raises:
        BadEntry: not spells, or they overlap.

    >>> [(spell.start_min, spell.end_min) for spell in parse_day("9-12, 19:30-21", 5)]
    [(540, 720), (1170, 1260)]
    """
    spells = []
    for part in filter(None, (piece.strip() for piece in text.replace("–", "-").split(","))):
        match = _SPELL.fullmatch(part)
        if not match:
            raise BadEntry("is not hours of a day.", where=DAYS[weekday], value=part, way_out=_WAYS)
        start, end = (int(match[at]) * 60 + int(match[at + 1] or 0) for at in (1, 3))
        if not 0 <= start < end <= 24 * 60:
            raise BadEntry("does not end after it begins.", where=DAYS[weekday], value=part, way_out=_WAYS)
        spells.append(Spell(weekday, start, end))
    spells.sort(key=lambda spell: spell.start_min)
    for first, second in itertools.pairwise(spells):
        if second.start_min < first.end_min:
            raise BadEntry("holds spells that overlap.", where=DAYS[weekday], value=text, way_out=_WAYS)
    return tuple(spells)


def show_day(spells: Sequence[Spell]) -> str:
    """Spells of one day as they would be typed.

    >>> show_day(parse_day("9-12, 19:30-21", 5))
    '9:00-12:00, 19:30-21:00'
    """
    return ", ".join(f"{_clock(spell.start_min)}-{_clock(spell.end_min)}" for spell in spells)


def _clock(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"


def set_week(store: Store, days: Sequence[str]) -> None:
    """Set the seven days' hours as typed, Monday first. Raises BadEntry."""
    spells = [spell for weekday, text in enumerate(days) for spell in parse_day(text, weekday)]
    if not spells:
        raise BadEntry("holds no hours.", where="Week", way_out="Give at least one evening.")
    with store.act(Act.SET_WEEK, "") as tx:
        tx.session.execute(delete(WorkSpell))
        tx.session.add_all(
            WorkSpell(weekday=spell.weekday, start_min=spell.start_min, end_min=spell.end_min)
            for spell in spells
        )
        hours = sum(spell.minutes for spell in spells) / 60
        tx.subject = f"of {hours:g} hours"


def add_day_off(store: Store, first: str, last: str = "", why: str = "") -> int:
    """Days without bench work; returns the id. Raises BadEntry."""
    columns = read_typed("day_off", {"first": first, "last": last or first, "why": why})
    begin, end = columns["first"], columns["last"]
    if isinstance(begin, dt.datetime) and isinstance(end, dt.datetime) and end < begin:
        raise BadEntry(
            "comes before the first day.", where="Last day", value=last, way_out="Give a later day."
        )
    with store.act(Act.ADD_DAY_OFF, f"{first} to {last}" if last and last != first else first) as tx:
        row = DayOff()
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        return row.id


def week_of(connection: Connection) -> tuple[Week, bool]:
    """The owner's week, and whether it was set (else it is assumed)."""
    rows = connection.execute(select(WorkSpell.weekday, WorkSpell.start_min, WorkSpell.end_min)).all()
    off: set[dt.date] = set()
    for first, last in connection.execute(select(DayOff.first, DayOff.last)):
        off |= {first.date() + dt.timedelta(days=at) for at in range((last.date() - first.date()).days + 1)}
    spells = tuple(Spell(row.weekday, row.start_min, row.end_min) for row in rows)
    return Week(spells or ASSUMED, frozenset(off)), bool(spells)


def days_off(connection: Connection) -> list[tuple[int, dt.date, dt.date, str]]:
    """Days off as (id, first, last, why), in order."""
    rows = connection.execute(select(DayOff.id, DayOff.first, DayOff.last, DayOff.why).order_by(DayOff.first))
    return [(row.id, row.first.date(), row.last.date(), row.why) for row in rows]
