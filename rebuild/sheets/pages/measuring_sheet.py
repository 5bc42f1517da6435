"""The blank measuring sheet of a subassembly: every feature in the grid's own order, with boxes to write in.

Typed back from the first line down, with the same subassembly chosen: the entry line moves on in this order.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.sheets.paper import A4, Heading, Paper, build, unit_name, words
from rebuild.sheets.table import ruled
from rebuild.work.machines.rows_named import subassembly_named, with_inner
from rebuild.work.machines.rows_tree import machines
from rebuild.work.readings import rows_grid
from rebuild.work.readings.rows_grid import GridRow
from rebuild.work.readings.rows_grid_keys import Asked
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.readings.told_in import told_reading, told_spec
from rebuild.work.records.rows_settings import verdict_rule

if TYPE_CHECKING:
    from rebuild.store.store import Store

_HEAD = ("No.", "Part", "Feature, station", "To be", "Last", "Read", "With")
#: Between the names of several parts.
_MORE = ", "
_SHARES = (0.06, 0.2, 0.22, 0.16, 0.12, 0.15, 0.09)


def write_measuring_sheet(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    target: Path,
    on: Paper = A4,
    *,
    part_ids: Collection[int] = (),
    printed: dt.datetime | None = None,
) -> int:
    """Print the sheet of parts, else of one subassembly with what is inside it, else of the machine; returns its pages.

    Raises:
        BadEntry: nothing there has a feature to measure.
        FileTrouble: it cannot be written there.
    """
    rows = grid_rows(store, machine_id, subassembly_id, part_ids)
    with store.read() as connection:
        machine = next(row for row in machines(connection) if row.id == machine_id)
        parts = dict.fromkeys(f"{row.part_code} {row.part_name}".strip() for row in rows) if part_ids else ()
        title = _MORE.join(parts) or subassembly_named(connection, machine_id, subassembly_id) or machine.name
    if not rows:
        raise BadEntry(
            "has nothing to measure yet.",
            where="Measuring sheet",
            value=title,
            way_out="Add features to its parts first.",
        )
    heading = Heading(
        "Measuring sheet",
        title,
        (machine.name, f"sizes in {unit_name(machine.unit)} unless written", f"{len(rows)} lines"),
        foot=f"{title} · {machine.name} · type back from line 1 down",
    )
    wide = on.inside_mm
    story = [
        words("Date ……………   Stage ……………………   Instrument ……………………   Set on ………………   Shop ……… °C"),
        ruled(
            [_HEAD, *_lines(rows, machine.unit)],
            [share * wide for share in _SHARES],
            least_mm=9.5,
            boxed=(5, 6),
        ),
    ]
    return build(target, heading, story, on, printed=printed)


def grid_rows(
    store: Store, machine_id: int, subassembly_id: int | None, part_ids: Collection[int] = ()
) -> list[GridRow]:
    """The rows of the grid in the order it shows and moves in when these parts, or this subassembly, are chosen."""
    rule = verdict_rule(store)
    with store.read() as connection:
        limits = instrument_limits(connection)
        if part_ids:
            asked = Asked(machine_id, part_ids=frozenset(part_ids))
        else:
            asked = Asked(machine_id, subassembly_ids=with_inner(connection, machine_id, subassembly_id))
        keys = rows_grid.keys(connection, asked, rule, limits)
        return rows_grid.rows(connection, keys, rule, limits)


def _lines(rows: Sequence[GridRow], own: str) -> list[tuple[str, ...]]:
    """A numbered line a feature; a part's name only where it begins."""
    found: list[tuple[str, ...]] = []
    before = 0
    for number, row in enumerate(rows, 1):
        part = f"{row.part_code} {row.part_name}".strip() if row.part_id != before else row.part_code
        before = row.part_id
        where = ", ".join(filter(None, (row.feature, row.station)))
        read = told_reading(row.speaking, own)
        found.append((str(number), part, where, told_spec(row, own), read, "", ""))
    return found
