"""The test chart: geometry tests, their readings, and the level read over days."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.charts import ChartStage, LevelWay, LimitLength, LimitSign, LimitStatus


class ChartTest(Record):
    """One geometry test of a machine. ``key`` names the library's own; empty for the owner's.

    ``after_id`` is the test that must be right before this one means anything.
    """

    __tablename__ = "chart_test"
    __table_args__ = table_args(Index("ix_chart_test_machine_position", "machine_id", "position"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    after_id: Mapped[int | None] = mapped_column(ForeignKey("chart_test.id", ondelete="SET NULL"), index=True)
    key: Mapped[str] = mapped_column(default="")
    number: Mapped[str] = mapped_column(default="")
    name: Mapped[str]
    sketch: Mapped[str] = mapped_column(default="")
    set_up: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class ChartLine(Record):
    """One position of a test, with its own limit: so much, over such a length, of such a sign."""

    __tablename__ = "chart_line"
    __table_args__ = table_args(Index("ix_chart_line_test_position", "test_id", "position"))

    test_id: Mapped[int] = mapped_column(ForeignKey("chart_test.id", ondelete="CASCADE"))
    key: Mapped[str] = mapped_column(default="")
    name: Mapped[str] = mapped_column(default="")
    unit: Mapped[str] = mapped_column(default="mm")
    sign: Mapped[LimitSign] = mapped_column(word(LimitSign), default=LimitSign.SIZE)
    plus_means: Mapped[str] = mapped_column(default="")
    minus_means: Mapped[str] = mapped_column(default="")
    allowed_text: Mapped[str | None]
    allowed_unit: Mapped[str | None]
    allowed_mm: Mapped[float | None]
    per_text: Mapped[str | None]
    per_unit: Mapped[str | None]
    per_mm: Mapped[float | None]
    along: Mapped[LimitLength] = mapped_column(word(LimitLength), default=LimitLength.FIXED)
    origin: Mapped[str] = mapped_column(default="")
    status: Mapped[LimitStatus] = mapped_column(word(LimitStatus), default=LimitStatus.OWN)
    position: Mapped[int] = mapped_column(default=0)


class ChartReading(Record):
    """What was read at a position: the text as typed, and the deviation [mm] over ``over_mm``."""

    __tablename__ = "chart_reading"
    __table_args__ = table_args(Index("ix_chart_reading_line_stage", "line_id", "stage", "id"))

    line_id: Mapped[int] = mapped_column(ForeignKey("chart_line.id", ondelete="CASCADE"))
    stage: Mapped[ChartStage] = mapped_column(word(ChartStage))
    typed: Mapped[str]
    value_mm: Mapped[float]
    over_text: Mapped[str | None]
    over_unit: Mapped[str | None]
    over_mm: Mapped[float | None]
    instrument_id: Mapped[int | None] = mapped_column(
        ForeignKey("instrument.id", ondelete="SET NULL"), index=True
    )
    temperature_c: Mapped[float | None]
    taken_at: Mapped[dt.datetime]
    adjusted: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")


class LevelReading(Record):
    """One reading of the level on the bed: where, which way it lay, and what was turned afterwards."""

    __tablename__ = "level_reading"
    __table_args__ = table_args(Index("ix_level_reading_machine_at", "machine_id", "taken_at"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    place: Mapped[str]
    at_text: Mapped[str | None]
    at_unit: Mapped[str | None]
    at_mm: Mapped[float | None]
    way: Mapped[LevelWay] = mapped_column(word(LevelWay))
    typed: Mapped[str]
    slope_um_per_m: Mapped[float]
    division: Mapped[str] = mapped_column(default="")
    instrument_id: Mapped[int | None] = mapped_column(
        ForeignKey("instrument.id", ondelete="SET NULL"), index=True
    )
    temperature_c: Mapped[float | None]
    taken_at: Mapped[dt.datetime]
    adjusted: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
