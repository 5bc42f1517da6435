"""The chart's readings and the level's worked out again from what was typed; rings among tests and oil lines."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from rebuild.errors import BadEntry
from rebuild.store.check import named
from rebuild.store.file_tables import tables_of
from rebuild.trade.charts.entry import SignWords, read_deviation, read_slope
from rebuild.trade.charts.order import ring_in
from rebuild.trade.sizes.reread import near
from rebuild.words.charts import LimitSign

_READINGS = (
    "SELECT r.id, r.typed, r.value_mm, r.over_mm, l.unit, l.sign, l.plus_means, l.minus_means, l.per_mm "
    "FROM chart_reading AS r JOIN chart_line AS l ON l.id = r.line_id"
)
_BETWEEN = (("oil_point", "fed_by_id", "oil_point"), ("chart_test", "after_id", "chart_test"),
            ("oil_point", "part_id", "part"), ("oil_point", "task_id", "task"))  # fmt: skip


def chart_readings(raw: sqlite3.Connection) -> Iterator[str]:
    """A deviation typed as a length must come to the millimetres stored; a slope needs its length to be checked."""
    if "chart_reading" not in tables_of(raw):
        return
    for row, typed, value, over, unit, sign, plus, minus, per in raw.execute(_READINGS).fetchall():
        where = f"{named('chart_reading', row)} “{typed}” ({unit})"
        if sign not in tuple(LimitSign) or "div" in typed.lower():
            continue
        try:
            again = read_deviation(
                typed, unit, SignWords(LimitSign.EITHER, plus, minus), where, per_mm=over or per
            )
        except BadEntry:
            continue  # its position was changed since: words or unit are others now
        if not near(abs(again.mm), abs(value)):
            yield f"{where} does not come to the {value} mm that is stored."


def level_readings(raw: sqlite3.Connection) -> Iterator[str]:
    """A slope as typed must come to the µm/m stored."""
    if "level_reading" not in tables_of(raw):
        return
    rows = raw.execute("SELECT id, typed, slope_um_per_m, division FROM level_reading").fetchall()
    for row, typed, slope, division in rows:
        where = f"{named('level_reading', row)} “{typed}”"
        again = tuple(_slopes_again(typed, division))
        if not again:
            yield f"{where} is no slope."
        elif not any(near(one, slope) for one in again):
            yield f"{where} does not come to the {slope} µm/m that is stored."


def _slopes_again(typed: str, division: str) -> Iterator[float]:
    """Every way a slope and what a division was worth can have been read."""
    for comma in (None, True, False):
        try:
            worth = read_slope(division, unit="mm/m", decimal_comma=comma) if division.strip() else None
            yield read_slope(typed, division_um_per_m=worth, decimal_comma=comma)
        except BadEntry:
            continue


def chart_rings(raw: sqlite3.Connection) -> Iterator[str]:
    """Tests must not wait for each other, oil must not run in a ring, and both stay on one machine."""
    here = tables_of(raw)
    for table, column, target in _BETWEEN:
        if table not in here:
            continue
        for (row,) in raw.execute(
            f"SELECT t.id FROM {table} AS t JOIN {target} AS o ON o.id = t.{column} WHERE o.machine_id <> t.machine_id"
        ):
            yield f"{named(table, row)} refers to a {target.replace('_', ' ')} of another machine."
        if table == target:
            after = dict(raw.execute(f"SELECT id, {column} FROM {table}").fetchall())
            for row, before in after.items():
                if before is not None and ring_in(after, row, before):
                    yield f"{named(table, row)} lies in a ring: it comes after itself."
