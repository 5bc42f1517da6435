"""The level read on the bed over days."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from rebuild.errors import BadEntry
from rebuild.model.records.charts import LevelReading
from rebuild.model.records.machines import Machine
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.charts.entry import read_slope
from rebuild.trade.charts.lying import lying
from rebuild.trade.sizes.quantity import parse_length, tidy
from rebuild.words.charts import LevelWay
from rebuild.work.charts.acts import celsius_of, division_of
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now


@dataclass(frozen=True, slots=True)
class LevelEntry:
    """What goes with a level reading. ``unit`` is that of a bare number: mm/m, in/ft, arcsec or div."""

    unit: str = "mm/m"
    division: str = ""
    at: str = ""
    instrument_id: int | None = None
    temperature: str = ""
    taken_at: dt.datetime | None = None
    adjusted: str = ""
    note: str = ""


def read_level(
    store: Store, machine_id: int, place: str, way: LevelWay, text: str, entry: LevelEntry | None = None
) -> int:
    """Store one reading of the level on the bed; returns its id.

    Raises:
        BadEntry: not a slope, divisions without their value, no place.
    """
    comma = decimal_comma(store)
    with store.act(Act.READ_LEVEL, "") as tx:
        return put_level(tx, machine_id, place, way, text, entry or LevelEntry(), comma)


def put_level(
    tx: Tx, machine_id: int, place: str, way: LevelWay, text: str, given: LevelEntry, comma: bool | None
) -> int:
    """Store one reading of the level inside an act; raises as ``read_level`` does."""
    machine = tx.get(Machine, machine_id, "machine")
    if not place.strip():
        end = lying(machine.kind).ends[0]
        raise BadEntry("is empty.", where="Where the level lay", way_out=f"Say which end, e.g. {end}.")
    where = f"Level {way.value}, {place.strip()}"
    slope = read_slope(
        text,
        where,
        division_um_per_m=division_of(given.division, comma),
        unit=given.unit,
        decimal_comma=comma,
    )
    typed = tidy(text)
    if typed[-1:].isdigit():
        typed = f"{typed} {given.unit}"
    at = (
        parse_length(given.at, machine.unit, "Distance along", decimal_comma=comma)
        if given.at.strip()
        else None
    )
    row = LevelReading(
        machine_id=machine_id,
        place=place.strip(),
        way=way,
        typed=typed,
        slope_um_per_m=slope,
        at_text=at and at.text,
        at_unit=at and at.unit,
        at_mm=at and at.mm,
        division=given.division.strip(),
        instrument_id=given.instrument_id,
        taken_at=given.taken_at or now(),
        adjusted=given.adjusted.strip(),
        temperature_c=celsius_of(given.temperature, comma),
        note=given.note.strip(),
    )
    tx.session.add(row)
    tx.session.flush()
    tx.subject = f"{typed} {way.value} at {place.strip()}"
    return row.id
