"""Sizes and mates of a making sheet: limits in words, where they come from, what the mates read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sqlalchemy import Connection, select

from rebuild.model.tables.features import Features
from rebuild.model.tables.making import MakingDimensions, MakingSheets
from rebuild.model.tables.readings import Instruments, Readings
from rebuild.trade.drawing.measure import Measure, places_of, places_of_ends
from rebuild.trade.fits.side_reading import SideReading
from rebuild.trade.fits.words import range_words
from rebuild.trade.limits.inward import inward
from rebuild.trade.making.process_grade import process_of, tight_band
from rebuild.trade.making.roles import role
from rebuild.trade.making.words import plain_words
from rebuild.trade.sizes.show import DECIMALS, show_length
from rebuild.words.making import LimitsFrom
from rebuild.work.making.rows_as_made import MadeValue
from rebuild.work.making.rows_limits import MateLimits
from rebuild.work.making.rows_plug import PlugBand
from rebuild.work.making.rows_sheet_lists import MateRow, SizeRow

#: The tables the lookups here ask.
READS = frozenset({"feature", "instrument", "making_dimension", "reading"})


def sizes_of(
    connection: Connection,
    row: MakingSheets,
    asked: Sequence[MateLimits],
    made: dict[int, tuple[MadeValue, ...]],
    plug: PlugBand | None = None,
) -> tuple[SizeRow, ...]:
    """The sizes of a sheet; ``plug`` says of which nut the part is the plug."""
    found = []
    stored = connection.execute(
        select(*MakingDimensions.columns())
        .where(MakingDimensions.sheet_id == row.id)
        .order_by(MakingDimensions.position, MakingDimensions.id)
    )
    for line in map(MakingDimensions.of, stored):
        typed = line.limits_from is LimitsFrom.OWN  # what was worked out was given no decimals by anybody
        places = places_of(line.nominal_text, line.nominal_unit, row.unit) if typed else 0
        low, high = (line.low_text, line.low_unit), (line.high_text, line.high_unit)
        ends = places_of_ends(low, high, row.unit) if typed else None
        measure = Measure(line.name, line.nominal_mm, line.low_mm, line.high_mm, places, ends)
        mates = [one for one in asked if one.feature_id == line.feature_id]
        kind = role(row.shape.value, line.role)
        plain = kind is not None and not kind.is_length
        other = "" if plain or not measure.given else _in_other_unit(measure, row.unit)
        found.append(
            SizeRow(
                line.id,
                line.role,
                line.name,
                kind.kind if kind else "",
                measure,
                line.size_text,
                plain_words(row.shape.value, line.role, measure, row.unit),
                other,
                line.limits_from,
                _source(line, mates, measure, plug),
                line.feature_id,
                line.measured_with,
                line.note,
                made.get(line.id, ()),
                next((one.working for one in mates if one.working is not None), None),
            )
        )
    return tuple(found)


def with_tight(sizes: Sequence[SizeRow], shape: str, steps: Sequence[str], unit: str) -> tuple[SizeRow, ...]:
    """The sizes, those whose band is finer than the sheet's steps usually hold saying so.

    Left alone: what is made already, general tolerances, and the thread, which is proved by gauge and mate.
    """
    found = []
    for size in sizes:
        kind = size.kind or ("diameter" if "diameter" in size.name or "bore" in size.name else "")
        process = process_of(size.role or size.name, kind, steps)
        asked = size.limits_from not in (LimitsFrom.GENERAL, LimitsFrom.OLD_PART) and not size.made
        thread = "pitch diameter" in size.name.lower() or not (size.role or size.feature_id)
        if process is not None and asked and not thread:
            told = tight_band(size.measure, process, unit)
            size = size if told is None else replace(size, tight=told.words, grades=told.short)
        found.append(size)
    return tuple(found)


def _in_other_unit(measure: Measure, unit: str) -> str:
    """The size in the other system, for the brackets, never rounded wider."""
    other = "mm" if unit == "in" else "in"
    low, high = inward(measure.low_mm, measure.high_mm, other)
    shown = Measure(measure.name, measure.nominal_mm, low, high)
    return plain_words("", "", Measure(measure.name, None, low, high) if low or high else shown, other)


#: What a size follows from, where it is worked out from another or from a designation.
_FOLLOWS = {
    "bore before pressing": "finished bore less 0.010 to 0.015 in", "bore": "minor diameter of the thread",
    "thread diameter": "major diameter of the thread", "big end": "the pin's number and length",
    "small end": "the pin's number and length", "width": "table of keys", "height": "table of keys",
    "outside diameter": "teeth and pitch", "pitch diameter": "teeth and pitch",
    "": "the thread by its standard", "root diameter": "teeth and pitch",
}  # fmt: skip


def _source(
    line: MakingDimensions, mates: Sequence[MateLimits], measure: Measure, plug: PlugBand | None
) -> str:
    """Where limits come from, as the sheet says it; or why there are none."""
    if not measure.given:
        waits = next((one.wait.sentence for one in mates if one.wait is not None and one.mate.readings), "")
        trouble = next((one.trouble for one in mates if one.trouble), "")
        return f"waits: {waits}" if waits else trouble or "not given yet"
    if line.limits_from is LimitsFrom.MATE and mates:
        return f"to suit {' and '.join(one.mate.title for one in mates)}"
    if plug is not None and line.limits_from is LimitsFrom.SPEC and line.feature_id == plug.feature_id:
        return f"the low end of the thread of {plug.nut}"
    return {
        LimitsFrom.MATE: "to suit its mate",
        LimitsFrom.SPEC: "spec of the feature",
        LimitsFrom.TABLE: _FOLLOWS.get(line.role, "from its table"),
        LimitsFrom.GENERAL: "ISO 2768-m",
        LimitsFrom.OLD_PART: "old part, ISO 2768-m",
        LimitsFrom.OWN: line.note if line.note and not line.role else "as typed",
    }[line.limits_from]


def mates_of(connection: Connection, asked: Sequence[MateLimits], unit: str) -> tuple[MateRow, ...]:
    instruments = _instruments(
        connection, [reading.reading_id for one in asked for reading in one.mate.readings]
    )
    named = select(Features.id, Features.name).where(Features.id.in_([one.feature_id for one in asked]))
    names = {feature.id: feature.name for feature in connection.execute(named)}
    found = []
    for one in asked:
        known = max((reading.budget.U_mm for reading in one.mate.readings), default=None)
        found.append(
            MateRow(
                one.fit_id,
                names.get(one.feature_id, ""),
                one.mate.title,
                _reads(one.mate.readings),
                f"± {show_length(known, unit, DECIMALS[unit] + 1)}" if known else "",
                ", ".join(
                    dict.fromkeys(
                        instruments[r.reading_id] for r in one.mate.readings if r.reading_id in instruments
                    )
                ),
                one.wait is None,
                one.wait.sentence if one.wait is not None else "",
                _wanted(one),
                one.trouble,
            )
        )
    return tuple(found)


def _reads(readings: Sequence[SideReading]) -> tuple[str, ...]:
    """What a mate reads; readings of one day and stage share a line and say so once."""
    told: dict[str, list[str]] = {}
    for reading in readings:
        at = f" at {reading.station}" if reading.station else ""
        told.setdefault(reading.taken, []).append(f"{reading.shown}{at}")
    return tuple(f"{'; '.join(values)} {taken}".strip() for taken, values in told.items())


def _wanted(one: MateLimits) -> str:
    return one.wanted_text or range_words(None, None, one.unit)


def _instruments(connection: Connection, reading_ids: Sequence[int]) -> dict[int, str]:
    rows = connection.execute(
        select(Readings.id, Instruments.name)
        .join(Instruments, Instruments.id == Readings.instrument_id)
        .where(Readings.id.in_(reading_ids))
    )
    return {row.id: row.name for row in rows}
