"""Ending a session: three short answers, so that coming back after half a year takes two minutes."""

from __future__ import annotations

import datetime as dt
import re

from sqlalchemy import select

from rebuild.errors import BadEntry
from rebuild.model.records.log import HoursSpent, LogEntry
from rebuild.model.records.machines import Machine, Subassembly
from rebuild.model.records.parts import Part
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.sizes.amounts import parse_hours
from rebuild.work.records.columns import read_typed, set_columns
from rebuild.work.records.field import show_day
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now

_SHARE = re.compile(r"(?P<code>[^\s,;]+(?:\s+[^\s\d,;]+)*)\s+(?P<hours>\d[\d.,:]*\s*(?:h|min)?)")


def end_session(
    store: Store,
    machine_id: int,
    *,
    did: str,
    left: str = "",
    next_step: str = "",
    hours: str = "",
    split: str = "",
    at: dt.datetime | None = None,
) -> int:
    """Store what was done, what is left on the bench in what state, and what comes next, in the bench log.

    Args:
        hours: how long, as ``1.5``, ``90 min`` or ``1:30``.
        split: where the hours went, as ``HS 1, AP-11 0.5``: codes of subassemblies or parts.

    Returns the log entry's id.

    Raises:
        BadEntry: nothing was written, or the hours cannot be read or split.
    """
    typed = {"did": did, "left_on_bench": left, "next_step": next_step, "hours": hours}
    comma = decimal_comma(store)
    columns = read_typed("log_entry", typed, comma=comma)
    if not any(columns.get(name) for name in ("did", "left_on_bench", "next_step")):
        raise BadEntry(
            "is empty.", where="Did", way_out="Write what was done, what is left, or what comes next."
        )
    with store.act(Act.END_SESSION, "") as tx:
        tx.get(Machine, machine_id, "machine")
        row = LogEntry(machine_id=machine_id, at=at or now())
        set_columns(row, columns)
        tx.session.add(row)
        tx.session.flush()
        shares = [_share(tx, machine_id, words, comma) for words in re.split(r"[,;]", split) if words.strip()]
        _refuse_too_much(row.hours, shares, split)
        for share in shares:
            share.log_entry_id = row.id
            tx.session.add(share)
        if row.hours is None and shares:
            row.hours = sum(share.hours for share in shares)
        tx.subject = f"of {show_day(row.at)}"
        return row.id


def split_hours(store: Store, log_entry_id: int, split: str) -> None:
    """Say where the hours of a session went, as ``HS 1, AP-11 0.5``; what was said before is replaced.

    Raises:
        BadEntry: the hours cannot be split like this.
    """
    comma = decimal_comma(store)
    with store.act(Act.END_SESSION, "") as tx:
        row = tx.get(LogEntry, log_entry_id, "bench log entry")
        shares = [
            _share(tx, row.machine_id, words, comma) for words in re.split(r"[,;]", split) if words.strip()
        ]
        _refuse_too_much(row.hours, shares, split)
        for old in tx.session.scalars(select(HoursSpent).where(HoursSpent.log_entry_id == log_entry_id)):
            tx.session.delete(old)
        for share in shares:
            share.log_entry_id = log_entry_id
            tx.session.add(share)
        if row.hours is None and shares:
            row.hours = sum(share.hours for share in shares)
        tx.subject = f"hours of {show_day(row.at)}"


def _refuse_too_much(hours: float | None, shares: list[HoursSpent], split: str) -> None:
    spent = sum(share.hours for share in shares)
    if hours is not None and spent > hours + 1e-6:
        raise BadEntry(
            f"comes to {spent:g} h, more than the {hours:g} h of the session.",
            where="Hours by part",
            value=split,
            way_out="Split no more than was worked.",
        )


def _share(tx: Tx, machine_id: int, words: str, comma: bool | None) -> HoursSpent:
    found = _SHARE.fullmatch(words.strip())
    if found is None:
        raise BadEntry(
            "is not a code with its hours.",
            where="Hours by part",
            value=words.strip(),
            way_out="Type it as HS 1, AP-11 0.5.",
        )
    hours = parse_hours(found["hours"], "Hours by part", decimal_comma=comma)
    code = found["code"].lower()
    for part in tx.session.scalars(select(Part).where(Part.machine_id == machine_id, Part.code != "")):
        if part.code.lower() == code:
            return HoursSpent(part_id=part.id, subassembly_id=part.subassembly_id, hours=hours)
    for group in tx.session.scalars(select(Subassembly).where(Subassembly.machine_id == machine_id)):
        if code in (group.code.lower(), group.name.lower()):
            return HoursSpent(subassembly_id=group.id, hours=hours)
    raise BadEntry(
        "is no code of a subassembly or part here.",
        where="Hours by part",
        value=found["code"],
        way_out="Type a code from the tree.",
    )
