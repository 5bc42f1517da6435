"""The removal log on paper: first off first, how, from which end, with which fasteners, and where it was put."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rebuild.errors import BadEntry
from rebuild.sheets.pages.tray_list import TICK
from rebuild.sheets.paper import A4, Heading, Paper, build, words
from rebuild.sheets.table import ruled
from rebuild.work.machines.rows_named import subassembly_named
from rebuild.work.machines.rows_tree import machines
from rebuild.work.records.field import show_day
from rebuild.work.teardown.rows_attempts import AttemptRow, attempts
from rebuild.work.teardown.rows_removals import RemovalRow, removals

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HEAD = ("No.", "What came off", "How, and how it sat", "Fasteners and shims", "Stored in", "Back")
_SHARES = (0.06, 0.25, 0.26, 0.23, 0.14, 0.06)


def write_removal_log(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    target: Path,
    on: Paper = A4,
    *,
    printed: dt.datetime | None = None,
) -> int:
    """Print the last attempt on a subassembly, or on every one of a machine; returns how many pages it took.

    Raises:
        BadEntry: nothing came off there yet.
        FileTrouble: it cannot be written there.
    """
    with store.read() as connection:
        machine = next(row.name for row in machines(connection) if row.id == machine_id)
        of = subassembly_named(connection, machine_id, subassembly_id) or machine
        logs = [
            (one, removals(connection, one.id))
            for one in _last(attempts(connection, machine_id), subassembly_id)
        ]
    logs = [(one, rows) for one, rows in logs if rows]
    if not logs:
        raise BadEntry("has no log yet.", where="Removal log", value=of, way_out="Log what came off first.")
    title = logs[0][0].of if len(logs) == 1 else machine
    story: list[Any] = []
    for one, rows in logs:
        story += [words(f"{one.of}, attempt {one.number}, begun {show_day(one.began_at)}", "strong")]
        lines = [_line(row) for row in rows]
        story.append(ruled([_HEAD, *lines], [share * on.inside_mm for share in _SHARES], least_mm=8.0))
    heading = Heading("Removal log", title, (machine, "first off first"), foot=f"Removal log · {title}")
    return build(target, heading, story, on, printed=printed)


def _last(listed: list[AttemptRow], subassembly_id: int | None) -> list[AttemptRow]:
    """The newest attempt of each subassembly, oldest begun first; of one when it is named."""
    found: dict[int | None, AttemptRow] = {}
    for one in sorted(listed, key=lambda row: row.number):
        found[one.subassembly_id] = one
    chosen = [one for key, one in found.items() if subassembly_id is None or key == subassembly_id]
    return sorted(chosen, key=lambda row: row.began_at)


def _line(row: RemovalRow) -> tuple[str, ...]:
    sat = [
        row.way,
        row.location,
        row.orientation and f"sat {row.orientation}",
        row.match_mark and f"mark {row.match_mark}",
        row.hard,
        row.found,
    ]
    held = [one.words for one in row.fasteners] + [f"shims {one.words}" for one in row.shims]
    lies = row.now or row.place
    back = "✓" if row.refitted else TICK
    return (str(row.number), row.called, "\n".join(filter(None, sat)), "\n".join(held), lies, back)
