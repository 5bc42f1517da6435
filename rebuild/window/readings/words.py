"""What a grid cell says when pointed at, read aloud, or opened for typing."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from rebuild.trade.limits.uncertainty import InstrumentLimit
from rebuild.trade.sizes.quantity import Size
from rebuild.trade.sizes.show import show_both, show_typed
from rebuild.window.readings.columns import HEADINGS, Column, stage_of
from rebuild.window.readings.shown import Shown
from rebuild.words.readings import STAGES, Stage
from rebuild.work.readings.read import typed_again
from rebuild.work.readings.rows_grid import GridRow, ReadingRow
from rebuild.work.records.field import show_day


def reading_at(row: GridRow, stage: Stage) -> ReadingRow | None:
    """The reading that speaks for a row at a stage."""
    return row.readings[STAGES.index(stage)]


def edit_text(row: GridRow, column: int) -> str:
    """What the cell's editor starts with: the text as it was typed."""
    if column == Column.SPEC:
        return row.spec_text
    stage = stage_of(column)
    reading = reading_at(row, stage) if stage is not None else None
    return typed_again(reading.typed, reading.how) if reading is not None else ""


def spec_from(row: GridRow) -> str:
    """Where a spec comes from, with what was said of it: ``handbook: Woodruff seat, ASME B17.2``."""
    return ": ".join(filter(None, (row.spec_origin.value if row.spec_origin else "", row.spec_note)))


def tip(shown: Shown, column: int, instruments: Mapping[int, InstrumentLimit] = MappingProxyType({})) -> str:
    """The whole truth of a cell, for the pointer; ``instruments`` by id, for the name of what it was read with."""
    row = shown.row
    stage = stage_of(column)
    if stage is not None:
        reading = reading_at(row, stage)
        return (
            _reading_in_words(reading) + _when_and_with(reading, instruments)
            if reading is not None
            else f"Not read {stage.value}."
        )
    if column == Column.SPEC:
        origin = f" (from {spec_from(row)})" if spec_from(row) else ""
        sense = f"; plus means {row.sense}" if row.sense else ""
        return f"{row.spec_text}{origin}{sense}" if row.spec_text else "No spec yet. F2 types one."
    if column in (Column.OFF, Column.VERDICT, Column.ZONE):
        return row.judgement.sentence if row.judgement is not None else "Nothing to judge yet."
    if column == Column.PART:
        return f"{row.part_code} {row.part_name}: {row.decision.value}".strip()
    return shown.texts[column]


def _reading_in_words(reading: ReadingRow) -> str:
    words = show_both(reading.value_mm, "in" if reading.unit in ("in", "thou", "tenth", "ft") else "mm")
    if reading.read_mm is not None:
        return f"{words}: the pitch diameter; typed {typed_again(reading.typed, reading.how)}"
    behind = f", {reading.how}" if reading.how else ""
    if reading.repeats > 1:
        return f"{words}: the mean of {reading.repeats}, typed {reading.typed}{behind}"
    typed = show_typed(Size(reading.typed, reading.unit, reading.value_mm), reading.unit)
    return f"{words}, typed {typed}{behind}"


def _when_and_with(reading: ReadingRow, instruments: Mapping[int, InstrumentLimit]) -> str:
    """Behind a reading: its day, and the instrument it was taken with."""
    instrument = instruments.get(reading.instrument_id) if reading.instrument_id is not None else None
    day = show_day(reading.taken_at) if reading.taken_at is not None else ""
    return "".join(
        f"; {said}" for said in (day, instrument.name if instrument else "no instrument noted") if said
    )


def spoken(shown: Shown, column: int) -> str:
    """A cell as a screen reader says it: its heading first."""
    if column in (Column.VERDICT, Column.ZONE):
        return tip(shown, column)
    return f"{HEADINGS[Column(column)].title}: {shown.texts[column] or 'none'}"
