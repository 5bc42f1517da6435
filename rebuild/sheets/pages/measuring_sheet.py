"""The blank measuring sheet of a subassembly: every feature in the grid's own order, with boxes to write in.

Typed back from the first line down, with the same subassembly chosen: the entry line moves on in this order.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.errors import BadEntry
from rebuild.sheets.paper import A4, Heading, Paper, build, unit_name, words
from rebuild.sheets.table import ruled
from rebuild.trade.sizes.show import show_length, show_number
from rebuild.work.machines.rows_named import subassembly_named, with_inner
from rebuild.work.machines.rows_tree import machines
from rebuild.work.readings import rows_grid
from rebuild.work.readings.rows_grid import GridRow
from rebuild.work.readings.rows_grid_keys import Asked
from rebuild.work.readings.rows_judged import instrument_limits
from rebuild.work.records.rows_settings import verdict_rule

if TYPE_CHECKING:
    from rebuild.store.store import Store

#: A class of ISO 286 (``h5``, ``H7/g6``) in a spec.
_CLASS = re.compile(r"\b[A-Za-z]{1,2}\d{1,2}\b")
_HEAD = ("No.", "Part", "Feature, station", "To be", "Last", "Read", "With")
_SHARES = (0.06, 0.2, 0.22, 0.16, 0.12, 0.15, 0.09)


def write_measuring_sheet(
    store: Store,
    machine_id: int,
    subassembly_id: int | None,
    target: Path,
    on: Paper = A4,
    *,
    printed: dt.datetime | None = None,
) -> int:
    """Print the sheet of one subassembly with what is inside it, or of the whole machine; returns its pages.

    Raises:
        BadEntry: nothing there has a feature to measure.
        FileTrouble: it cannot be written there.
    """
    rows = grid_rows(store, machine_id, subassembly_id)
    with store.read() as connection:
        machine = next(row for row in machines(connection) if row.id == machine_id)
        title = subassembly_named(connection, machine_id, subassembly_id) or machine.name
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
        ruled([_HEAD, *_lines(rows)], [share * wide for share in _SHARES], least_mm=9.5, boxed=(5, 6)),
    ]
    return build(target, heading, story, on, printed=printed)


def grid_rows(store: Store, machine_id: int, subassembly_id: int | None) -> list[GridRow]:
    """The rows of the grid in the order it shows and moves in when this subassembly is chosen."""
    rule = verdict_rule(store)
    with store.read() as connection:
        limits = instrument_limits(connection)
        inside = with_inner(connection, machine_id, subassembly_id)
        keys = rows_grid.keys(connection, Asked(machine_id, subassembly_ids=inside), rule, limits)
        return rows_grid.rows(connection, keys, rule, limits)


def to_be(row: GridRow) -> str:
    """The spec, with its limits in figures where a class stands for them: ``65 h5, 64.987 to 65.000``."""
    low, high = row.low_mm, row.high_mm
    if low is None or high is None or not _CLASS.search(row.spec_text):
        return row.spec_text
    return f"{row.spec_text}, {show_number(low, row.unit)} to {show_number(high, row.unit)}"


def read_as(typed: str, unit: str, value_mm: float) -> str:
    """A reading as typed, its unit behind it; one typed with other words is told by its number.

    >>> read_as("64.98", "mm", 64.98), read_as("64.98 mm", "mm", 64.98), read_as("0.02 at the nose", "mm", 0.02)
    ('64.98 mm', '64.98 mm', '0.020 mm')
    """
    if not any(letter.isalpha() for letter in typed):
        return f"{typed} {unit}"
    bare = typed.casefold().replace(unit.casefold(), "")
    return show_length(value_mm, unit) if any(letter.isalpha() for letter in bare) else typed


def _lines(rows: Sequence[GridRow]) -> list[tuple[str, ...]]:
    """A numbered line a feature; a part's name only where it begins."""
    found: list[tuple[str, ...]] = []
    before = 0
    for number, row in enumerate(rows, 1):
        part = f"{row.part_code} {row.part_name}".strip() if row.part_id != before else row.part_code
        before = row.part_id
        last = row.speaking
        where = ", ".join(filter(None, (row.feature, row.station)))
        found.append(
            (
                str(number),
                part,
                where,
                to_be(row),
                read_as(last.typed, last.unit, last.value_mm) if last else "",
                "",
                "",
            )
        )
    return found
