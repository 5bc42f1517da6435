"""Set the owner's week and days off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from sqlalchemy import delete

from rebuild.errors import BadEntry
from rebuild.model.records.plan import DayOff, WorkSpell
from rebuild.store.act import Act
from rebuild.store.store import Store
from rebuild.trade.schedule.week_entry import parse_day
from rebuild.work.records.columns import read_typed, set_columns


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
