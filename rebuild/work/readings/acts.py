"""Record readings: as typed, durable when the call returns, the implausible held for one keypress."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sqlalchemy import insert, select

from rebuild.errors import BadEntry, NotThere
from rebuild.model.records.features import Feature, Station
from rebuild.model.records.parts import Part
from rebuild.model.records.readings import Reading
from rebuild.store.act import Act
from rebuild.store.store import Store, Tx
from rebuild.trade.sizes.amounts import parse_celsius
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_typed
from rebuild.words.counted import counted
from rebuild.work.readings.entry import Entry as Entry, Pasted as Pasted, Taken as Taken
from rebuild.work.readings.read import Place, Read, columns_of, read_value, typed_again
from rebuild.work.readings.rules_instrument import refuse_unfit
from rebuild.work.readings.rules_plausible import Expected, refuse_implausible
from rebuild.work.readings.rules_standing import standing_at
from rebuild.work.readings.rules_thread import refuse_no_pitch_diameter, refuse_wrong_side
from rebuild.work.records.field import whole
from rebuild.work.records.rows_settings import decimal_comma
from rebuild.work.records.wall_clock import now

#: On the bare table: an entry waits for this statement, and the mapped one takes three times as long.
_INTO = insert(Reading.table)
_IDS = _INTO.returning(Reading.table.c.id, sort_by_parameter_order=True)


def record_reading(store: Store, typed: str, entry: Entry, *, confirmed: bool = False) -> Taken:
    """Store one reading (or repeats, ``24.98; 24.99``) as typed.

    ``confirmed`` takes a value that was held as implausible.

    Raises:
        BadEntry, Ambiguous: the text cannot be taken.
        Implausible: 10x or 25.4x off the spec or the last reading, until ``confirmed``.
        NotThere: the feature or station was removed.
    """
    comma = decimal_comma(store)
    with store.act(Act.RECORD_READING, "") as tx:
        return put_reading(tx, typed, entry, comma, confirmed=confirmed)


def put_reading(
    tx: Tx, typed: str, entry: Entry, comma: bool | None, *, confirmed: bool = False, unit: str = ""
) -> Taken:
    """Store one reading inside an act; raises as ``record_reading`` does.

    A bare number is in ``unit`` (that of the instrument's scale; empty: the feature's own); where that is not
    the feature's, it is written down with the value, so that the text alone tells what was meant.
    """
    place = _place(tx, entry)
    read = read_value(typed, place, comma, entry.how, unit)
    if not confirmed:
        _refuse_odd(tx, entry, place, read)
    replaced = _speaking(tx, entry)
    if unit and unit != place.unit and read_value(typed, place, comma, entry.how).unit != read.unit:
        read = replace(read, typed=shown(read.sizes))
    (reading_id,) = tx.connection.execute(_INTO, _row(entry, read, comma)).inserted_primary_key or (0,)
    tx.subject = f"{shown(read.sizes)}{read.behind} on {place.label}, {entry.stage.value}"
    return Taken(reading_id, read.value_mm, read.typed + read.behind, read.unit, len(read.sizes), replaced)


def _refuse_odd(tx: Tx, entry: Entry, place: Place, read: Read) -> None:
    """Hold a value that wants a second look: against spec and last reading, the thread, the instrument."""
    refuse_implausible(read.value_mm, _expected(tx, entry, place), read.typed, place.unit)
    refuse_wrong_side(tx, entry.feature_id, read, place)
    refuse_no_pitch_diameter(read, place)
    # What the instrument read is what lies in its range, not the pitch diameter that follows.
    refuse_unfit(tx.connection, entry.instrument_id, place.kind, read.sizes, place.as_asked(read.typed))


def _speaking(tx: Tx, entry: Entry) -> str:
    """What is read at the same place and stage so far, as typed; empty when nothing is."""
    found = tx.connection.execute(
        select(Reading.typed, Reading.how)
        .where(standing_at(entry.feature_id, entry.station_id), Reading.stage == entry.stage)
        .order_by(Reading.id.desc())
        .limit(1)
    ).first()
    return typed_again(found.typed, found.how) if found is not None else ""


def shown(sizes: Sequence[Size]) -> str:
    """Readings as typed with their unit, for the history."""
    return "; ".join(show_typed(size, size.unit) for size in sizes)


def _place(tx: Tx, entry: Entry) -> Place:
    found = tx.connection.execute(
        select(
            Feature.unit,
            Feature.name,
            Feature.kind,
            Feature.thread,
            Feature.nominal_mm,
            Feature.low_mm,
            Feature.high_mm,
            Part.id.label("part_id"),
            Part.code,
            Part.name.label("part_name"),
            Station.name.label("station_name"),
        )
        .join(Part, Part.id == Feature.part_id)
        .outerjoin(Station, (Station.feature_id == Feature.id) & (Station.id == entry.station_id))
        .where(Feature.id == entry.feature_id)
    ).first()
    if found is None or (entry.station_id is not None and found.station_name is None):
        raise NotThere(
            "The feature or station was removed.", way_out="Choose another; your entry is still in the line."
        )
    station = f", {found.station_name}" if found.station_name else ""
    label = f"{found.code} {found.part_name}, {found.name}{station}".strip()
    return Place(
        found.unit,
        label,
        found.kind,
        found.name,
        found.thread,
        found.part_id,
        found.nominal_mm,
        found.low_mm,
        found.high_mm,
    )


def _expected(tx: Tx, entry: Entry, place: Place) -> Expected:
    last = tx.connection.execute(
        select(Reading.value_mm)
        .where(standing_at(entry.feature_id, entry.station_id))
        .order_by(Reading.id.desc())
        .limit(1)
    ).scalar()
    return Expected(place.label, place.nominal_mm, place.low_mm, place.high_mm, last)


def _row(entry: Entry, read: Read, comma: bool | None) -> dict[str, object]:
    warmth = entry.temperature.strip()
    temperature = parse_celsius(warmth, decimal_comma=comma) if warmth else None
    return {
        "feature_id": entry.feature_id,
        "station_id": entry.station_id,
        "stage": entry.stage,
        **columns_of(read),
        "instrument_id": entry.instrument_id,
        "temperature_text": entry.temperature.strip() or None,
        "temperature_c": temperature,
        "taken_at": entry.taken_at or now(),
        "taken_by": whole(entry.taken_by),
        "note": whole(entry.note),
    }


def strike_reading(store: Store, reading_id: int, why: str) -> None:
    """Strike a reading out, with the reason; it stays in the book but no longer speaks.

    Raises:
        BadEntry: no reason given.
    """
    if not whole(why):
        raise BadEntry("is empty.", where="Reason", way_out="Say why the reading does not count.")
    with store.act(Act.STRIKE_READING, "") as tx:
        row = tx.get(Reading, reading_id, "reading")
        row.struck = whole(why)
        tx.subject = f"{row.typed}: {why.strip()}"


def paste_readings(store: Store, cells: Sequence[Pasted], *, confirmed: bool = False) -> tuple[int, ...]:
    """Store a block of readings in one act; returns their ids in order. One bad cell stops the whole block.

    Raises:
        BadEntry, Ambiguous, Implausible: names the feature and the value.
    """
    comma = decimal_comma(store)
    rows = []
    with store.act(Act.PASTE, "") as tx:
        for cell in cells:
            if not cell.typed.strip():
                continue
            place = _place(tx, cell.entry)
            read = read_value(cell.typed, place, comma, cell.entry.how)
            if not confirmed:
                _refuse_odd(tx, cell.entry, place, read)
            rows.append(_row(cell.entry, read, comma))
        stored = tuple(tx.connection.execute(_IDS, rows).scalars()) if rows else ()
        tx.subject = f"of {counted(len(rows), 'reading')}"
    return stored
