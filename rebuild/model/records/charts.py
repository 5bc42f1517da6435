"""The records of ``tables/charts``: what an act writes."""

from __future__ import annotations

from rebuild.model.records.record import Record
from rebuild.model.tables.charts import ChartLines, ChartReadings, ChartTests, LevelReadings


class ChartTest(Record, ChartTests):
    """One row of ``ChartTests``."""


class ChartLine(Record, ChartLines):
    """One row of ``ChartLines``."""


class ChartReading(Record, ChartReadings):
    """One row of ``ChartReadings``."""


class LevelReading(Record, LevelReadings):
    """One row of ``LevelReadings``."""
