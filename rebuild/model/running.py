"""The first run: steps with their speeds, bearing temperatures, cut tests, and what is looked at before power."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.charts import ChartStage, LimitStatus
from rebuild.words.run_in import CutKind, LookWhen, RunState


class RunStep(Record):
    """One step of the run-in: a speed, for so long, up to a bearing temperature [°C] of stated origin."""

    __tablename__ = "run_step"
    __table_args__ = table_args(Index("ix_run_step_machine_position", "machine_id", "position"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    name: Mapped[str]
    speed_rpm: Mapped[float | None]
    planned_min: Mapped[float | None]
    limit_c: Mapped[float | None]
    limit_origin: Mapped[str] = mapped_column(default="")
    limit_status: Mapped[LimitStatus] = mapped_column(word(LimitStatus), default=LimitStatus.OWN)
    state: Mapped[RunState] = mapped_column(word(RunState), default=RunState.TO_RUN)
    ambient_c: Mapped[float | None]
    started_at: Mapped[dt.datetime | None]
    noise: Mapped[str] = mapped_column(default="")
    oil_seen: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class RunReading(Record):
    """The temperature of one bearing so many minutes into a step."""

    __tablename__ = "run_reading"
    __table_args__ = table_args(Index("ix_run_reading_step_bearing", "step_id", "bearing", "minute"))

    step_id: Mapped[int] = mapped_column(ForeignKey("run_step.id", ondelete="CASCADE"))
    bearing: Mapped[str]
    minute: Mapped[float]
    celsius: Mapped[float]
    note: Mapped[str] = mapped_column(default="")


class CutTest(Record):
    """A test piece: two collars turned at one setting, or a faced disc.

    Two collars: ``first`` near the spindle, ``second`` at the free end, ``apart`` between them.
    Facing: ``first`` is the hollow (minus: proud in the middle), ``apart`` the diameter faced.
    """

    __tablename__ = "cut_test"
    __table_args__ = table_args(Index("ix_cut_test_machine_at", "machine_id", "taken_at"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    kind: Mapped[CutKind] = mapped_column(word(CutKind))
    stage: Mapped[ChartStage] = mapped_column(word(ChartStage), default=ChartStage.AFTER)
    unit: Mapped[str] = mapped_column(default="mm")
    first_text: Mapped[str | None]
    first_unit: Mapped[str | None]
    first_mm: Mapped[float | None]
    second_text: Mapped[str | None]
    second_unit: Mapped[str | None]
    second_mm: Mapped[float | None]
    apart_text: Mapped[str | None]
    apart_unit: Mapped[str | None]
    apart_mm: Mapped[float | None]
    allowed_text: Mapped[str | None]
    allowed_unit: Mapped[str | None]
    allowed_mm: Mapped[float | None]
    allowed_over_text: Mapped[str | None]
    allowed_over_unit: Mapped[str | None]
    allowed_over_mm: Mapped[float | None]
    allowed_origin: Mapped[str] = mapped_column(default="")
    allowed_status: Mapped[LimitStatus] = mapped_column(word(LimitStatus), default=LimitStatus.OWN)
    instrument_id: Mapped[int | None] = mapped_column(
        ForeignKey("instrument.id", ondelete="SET NULL"), index=True
    )
    temperature_c: Mapped[float | None]
    taken_at: Mapped[dt.datetime]
    adjusted: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")


class RunLook(Record):
    """Something looked at by hand before power, or left to licensed practice; ``topic`` is its caution."""

    __tablename__ = "run_look"
    __table_args__ = table_args(Index("ix_run_look_machine_position", "machine_id", "position"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    due: Mapped[LookWhen] = mapped_column(word(LookWhen), default=LookWhen.BEFORE_POWER)
    text: Mapped[str]
    topic: Mapped[str] = mapped_column(default="")
    licensed: Mapped[bool] = mapped_column(default=False)
    done_at: Mapped[dt.datetime | None]
    done_by: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)
