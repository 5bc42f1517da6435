"""What lies at a shop or is lent: since when, promised back when, and what of mine lies where an order is late."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, select

from rebuild.model.tables.parts import Parts
from rebuild.model.tables.places import Places
from rebuild.trade.waiting.clock import ago, show_when
from rebuild.words.places import PlaceKind, lies_words
from rebuild.words.waiting import WaitingKind
from rebuild.work.waiting.rows import Stand, WaitingRow, promise_ends

#: The tables the lookups here ask.
READS = frozenset({"part", "place"})
_AWAY = (PlaceKind.AT_A_SHOP, PlaceKind.LENT)
_OUT = (WaitingKind.SENT_OUT, WaitingKind.LENT)


@dataclass(frozen=True, slots=True)
class AwayRow:
    """One thing that is away: a part, or what was sent out without one. ``waiting_id`` is its line in Waiting."""

    what: str
    part_id: int | None
    waiting_id: int | None
    holder: str
    words: str


def away(
    connection: Connection, machine_id: int, now: dt.datetime, lines: Sequence[WaitingRow] = ()
) -> tuple[AwayRow, ...]:
    """All that is away, late first, then as it went; ``lines`` are the open lines of Waiting."""
    out = [line for line in lines if line.kind in _OUT and line.ordered_at and not line.arrived_at]
    found: list[tuple[bool, dt.datetime, AwayRow]] = []
    told: set[int] = set()
    for row in _parts(connection, machine_id):
        line = next((one for one in out if one.part_id == row.id), None)
        since = row.placed_at or (line.ordered_at if line else None)
        words = _words(lies_words(row.kind, row.place), since, line, now)
        key = line.id if line is not None else None
        told.add(key or 0)
        made = AwayRow(f"{row.code} {row.name}".strip(), row.id, key, row.place, words)
        found.append((not _late(line), since or now, made))
    for line in out:
        if line.id not in told:
            where = f"{line.kind.value}{f' to {line.who}' if line.who else ''}"
            words = _words(where, line.ordered_at, line, now)
            made = AwayRow(line.what, line.part_id, line.id, line.who, words)
            found.append((not _late(line), line.ordered_at or now, made))
    return tuple(one for _on_time, _since, one in sorted(found, key=lambda one: one[:2]))


def lies_there(line: WaitingRow, gone: Sequence[AwayRow]) -> str:
    """What of mine lies with the one an order was placed with, in words; empty where nothing does."""
    named = [one.what for one in gone if line.who and one.holder.casefold() == line.who.casefold()]
    sent = [line.sent_with] if line.sent_with else []
    return f"there lies {', '.join([*named, *sent])}" if named or sent else ""


@dataclass(frozen=True, slots=True)
class _Part:
    id: int
    code: str
    name: str
    placed_at: dt.datetime | None
    kind: PlaceKind
    place: str


def _parts(connection: Connection, machine_id: int) -> list[_Part]:
    rows = connection.execute(
        select(Parts.id, Parts.code, Parts.name, Parts.placed_at, Places.kind, Places.name.label("place"))
        .select_from(Parts)
        .join(Places, Places.id == Parts.place_id)
        .where(Parts.machine_id == machine_id, Places.kind.in_(_AWAY))
        .order_by(Parts.code, Parts.id)
    )
    return [_Part(row.id, row.code, row.name, row.placed_at, row.kind, row.place) for row in rows]


def _late(line: WaitingRow | None) -> bool:
    return line is not None and line.stand is Stand.LATE


def _words(where: str, since: dt.datetime | None, line: WaitingRow | None, now: dt.datetime) -> str:
    said = [f"{where} since {show_when(since, now)}" if since is not None else where]
    if line is None or line.promised_at is None:
        said.append("no date promised")
    else:
        late = f", {ago(promise_ends(line.promised_at), now)} late" if _late(line) else ""
        said.append(f"promised {show_when(line.promised_at, now)}{late}")
    said += [f"with it {line.sent_with}"] if line is not None and line.sent_with else []
    return " · ".join(said)
