"""The test chart: geometry tests, their readings, and the level read over days."""

from __future__ import annotations

import datetime as dt

from rebuild.model.asked import Journaled
from rebuild.model.cells import (
    Cell,
    as_count,
    as_moment,
    as_number,
    as_text,
    goes_with,
    maybe,
    one_of,
    points_at,
)
from rebuild.words.charts import ChartStage, LevelWay, LimitLength, LimitSign, LimitStatus


class ChartTests(Journaled, name="chart_test"):
    """One geometry test of a machine. ``key`` names the library's own; empty for the owner's.

    ``after_id`` is the test that must be right before this one means anything.
    """

    indexes = (("ix_chart_test_machine_position", "machine_id", "position"),)

    machine_id: Cell[int] = goes_with("machine")
    after_id: Cell[int | None] = points_at("chart_test", index=True)
    key: Cell[str] = as_text("")
    number: Cell[str] = as_text("")
    name: Cell[str] = as_text()
    sketch: Cell[str] = as_text("")
    set_up: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
    position: Cell[int] = as_count(0)


class ChartLines(Journaled, name="chart_line"):
    """One position of a test, with its own limit: so much, over such a length, of such a sign."""

    indexes = (("ix_chart_line_test_position", "test_id", "position"),)

    test_id: Cell[int] = goes_with("chart_test")
    key: Cell[str] = as_text("")
    name: Cell[str] = as_text("")
    unit: Cell[str] = as_text("mm")
    sign: Cell[LimitSign] = one_of(LimitSign, LimitSign.SIZE)
    plus_means: Cell[str] = as_text("")
    minus_means: Cell[str] = as_text("")
    allowed_text: Cell[str | None] = maybe(as_text())
    allowed_unit: Cell[str | None] = maybe(as_text())
    allowed_mm: Cell[float | None] = maybe(as_number())
    per_text: Cell[str | None] = maybe(as_text())
    per_unit: Cell[str | None] = maybe(as_text())
    per_mm: Cell[float | None] = maybe(as_number())
    along: Cell[LimitLength] = one_of(LimitLength, LimitLength.FIXED)
    origin: Cell[str] = as_text("")
    status: Cell[LimitStatus] = one_of(LimitStatus, LimitStatus.OWN)
    position: Cell[int] = as_count(0)


class ChartReadings(Journaled, name="chart_reading"):
    """What was read at a position: the text as typed, and the deviation [mm] over ``over_mm``."""

    indexes = (("ix_chart_reading_line_stage", "line_id", "stage", "id"),)

    line_id: Cell[int] = goes_with("chart_line")
    stage: Cell[ChartStage] = one_of(ChartStage)
    typed: Cell[str] = as_text()
    value_mm: Cell[float] = as_number()
    over_text: Cell[str | None] = maybe(as_text())
    over_unit: Cell[str | None] = maybe(as_text())
    over_mm: Cell[float | None] = maybe(as_number())
    instrument_id: Cell[int | None] = points_at("instrument", index=True)
    temperature_c: Cell[float | None] = maybe(as_number())
    taken_at: Cell[dt.datetime] = as_moment()
    adjusted: Cell[str] = as_text("")
    note: Cell[str] = as_text("")


class LevelReadings(Journaled, name="level_reading"):
    """One reading of the level on the bed: where, which way it lay, and what was turned afterwards."""

    indexes = (("ix_level_reading_machine_at", "machine_id", "taken_at"),)

    machine_id: Cell[int] = goes_with("machine")
    place: Cell[str] = as_text()
    at_text: Cell[str | None] = maybe(as_text())
    at_unit: Cell[str | None] = maybe(as_text())
    at_mm: Cell[float | None] = maybe(as_number())
    way: Cell[LevelWay] = one_of(LevelWay)
    typed: Cell[str] = as_text()
    slope_um_per_m: Cell[float] = as_number()
    division: Cell[str] = as_text("")
    instrument_id: Cell[int | None] = points_at("instrument", index=True)
    temperature_c: Cell[float | None] = maybe(as_number())
    taken_at: Cell[dt.datetime] = as_moment()
    adjusted: Cell[str] = as_text("")
    note: Cell[str] = as_text("")
