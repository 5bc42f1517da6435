"""Instruments and the readings taken with them."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.readings import InstrumentKind, Stage


class Instrument(Record):
    """A measuring instrument of the shop and how far it can be trusted.

    Either a maximum permissible error (``mpe``) or a stated expanded uncertainty with its k.
    """

    __tablename__ = "instrument"

    name: Mapped[str]
    kind: Mapped[InstrumentKind] = mapped_column(word(InstrumentKind), default=InstrumentKind.OTHER)
    unit: Mapped[str] = mapped_column(default="mm")
    resolution_text: Mapped[str | None]
    resolution_unit: Mapped[str | None]
    resolution_mm: Mapped[float | None]
    mpe_text: Mapped[str | None]
    mpe_unit: Mapped[str | None]
    mpe_mm: Mapped[float | None]
    uncertainty_text: Mapped[str | None]
    uncertainty_unit: Mapped[str | None]
    uncertainty_mm: Mapped[float | None]
    coverage_k: Mapped[float] = mapped_column(default=2.0)
    limit_source: Mapped[str] = mapped_column(default="")
    calibrated_on: Mapped[dt.datetime | None]
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class Reading(Record):
    """One measured value as typed, with its unit and mm; several repeats make one reading.

    ``typed`` keeps every repeat (``24.98; 24.99``); ``value_mm`` is their mean, ``repeats`` how many,
    ``spread_mm`` their sample standard deviation. ``rebuild check`` works them out again from the text.
    """

    __tablename__ = "reading"
    __table_args__ = table_args(
        Index("ix_reading_feature_station_stage", "feature_id", "station_id", "stage", "id"),
        Index("ix_reading_taken_at", "taken_at"),
    )

    feature_id: Mapped[int] = mapped_column(ForeignKey("feature.id", ondelete="CASCADE"))
    station_id: Mapped[int | None] = mapped_column(ForeignKey("station.id", ondelete="CASCADE"), index=True)
    stage: Mapped[Stage] = mapped_column(word(Stage))
    typed: Mapped[str]
    unit: Mapped[str]
    value_mm: Mapped[float]
    repeats: Mapped[int] = mapped_column(default=1)
    spread_mm: Mapped[float | None]
    instrument_id: Mapped[int | None] = mapped_column(
        ForeignKey("instrument.id", ondelete="SET NULL"), index=True
    )
    temperature_text: Mapped[str | None]
    temperature_c: Mapped[float | None]
    taken_at: Mapped[dt.datetime]
    taken_by: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    struck: Mapped[str | None]
