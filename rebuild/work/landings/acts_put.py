"""Put a value on the row of its landing, and take one off again, inside an act; one way for every surface."""

from __future__ import annotations

from rebuild.errors import BadEntry
from rebuild.model.records.charts import ChartReading, LevelReading
from rebuild.model.records.readings import Reading
from rebuild.model.records.run_in import RunReading
from rebuild.model.records.surveys import SurveyReading
from rebuild.store.tx import Tx
from rebuild.words.charts import ChartStage, LevelWay
from rebuild.work.charts.acts import Reading as AtPosition, put_position
from rebuild.work.charts.acts_levelling import LevelEntry, put_level
from rebuild.work.landings.stored import How, Stored
from rebuild.work.readings.acts import put_reading
from rebuild.work.readings.entry import Entry
from rebuild.work.readings.landing import Landing, Surface
from rebuild.work.run_in.acts import put_bearing
from rebuild.work.surveys.acts import put_place

RECORDS = {
    "reading": Reading,
    "survey_reading": SurveyReading,
    "chart_reading": ChartReading,
    "run_reading": RunReading,
    "level_reading": LevelReading,
}


def put_value(
    tx: Tx, typed: str, landing: Landing, how: How, comma: bool | None, *, confirmed: bool = False
) -> Stored:
    """Store a typed value on the landing's row.

    Raises:
        BadEntry, Ambiguous, Implausible, NotThere: as the act of that surface does; nothing is stored.
    """
    if landing.feature_id is not None:
        entry = entry_of(landing, how)
        taken = put_reading(tx, typed, entry, comma, confirmed=confirmed, unit=how.unit)
        return Stored(landing, taken.typed, "reading", taken.reading_id, taken.replaced, how)
    if landing.surface is Surface.SURVEY:
        line, run, place = landing.row
        read = put_place(tx, line, place, typed, run, comma)
        return Stored(landing, read.typed, "survey_reading", read.id, read.replaced, how)
    if landing.surface is Surface.CHART:
        key = put_position(tx, landing.row[0], typed, _at_position(landing, how), comma, confirmed=confirmed)
        return Stored(landing, typed.strip(), "chart_reading", key, how=how)
    if landing.surface is Surface.LEVEL:
        way = LevelWay(landing.stage)
        key = put_level(tx, landing.row[0], landing.called, way, typed, _on_the_bed(how), comma)
        return Stored(landing, typed.strip(), "level_reading", key, how=how)
    if landing.surface is Surface.CUT:
        raise BadEntry(
            "is one of the sizes of a test piece, which are stored together.",
            where=landing.words,
            value=typed,
            way_out="Type the others as well, then Store test.",
        )
    if how.minute is None:
        raise BadEntry("is empty.", where="Minute", way_out="Count from the start of the step.")
    key = put_bearing(tx, landing.row[0], landing.called, how.minute, typed, comma, how.note, at=how.taken_at)
    return Stored(landing, typed.strip(), "run_reading", key, how=how)


def entry_of(landing: Landing, how: How) -> Entry:
    """The entry of a measured part's row."""
    return Entry(
        landing.row[0],
        landing.station_id,
        landing.part_stage,
        how.instrument_id,
        how.temperature,
        how.taken_at,
        how.taken_by,
        how.note,
        how.thread,
    )


def _at_position(landing: Landing, how: How) -> AtPosition:
    return AtPosition(
        ChartStage(landing.stage),
        how.over,
        how.instrument_id,
        how.temperature,
        how.taken_at,
        how.adjusted,
        how.note,
        how.division,
    )


def _on_the_bed(how: How) -> LevelEntry:
    return LevelEntry(
        how.unit or "mm/m",
        how.division,
        how.over,
        how.instrument_id,
        how.temperature,
        how.taken_at,
        how.adjusted,
        how.note,
    )


def take_off(tx: Tx, stored: Stored, comma: bool | None) -> None:
    """Take a stored value off its row; a survey's place gets back what stood there before.

    Raises:
        NotThere: it is gone already.
        BadEntry: a survey's run would have a gap.
    """
    row = tx.get(RECORDS[stored.record], stored.id, "reading")
    if stored.landing.surface is Surface.SURVEY:
        line, run, place = stored.landing.row
        put_place(tx, line, place, stored.replaced, run, comma)
    else:
        tx.session.delete(row)
        tx.session.flush()
