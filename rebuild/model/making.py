"""Making sheets: what is to be made, its dimensions with limits, its steps, and the tools it needs."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.making import LimitsFrom, MakingProgress, PartShape


class MakingSheet(Record):
    """One attempt at making a part. Whether it waits or is ready is worked out, never stored.

    ``looked`` keeps the facts (readings of the mates, wanted ranges) its limits were worked out from; the
    sheet is stale when they are no longer so. ``thread``, ``taper``, ``gear`` and ``key`` are designations as
    people write them; their numbers are worked out when the sheet is shown.
    """

    __tablename__ = "making_sheet"

    part_id: Mapped[int] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"), index=True)
    attempt: Mapped[int] = mapped_column(default=1)
    shape: Mapped[PartShape] = mapped_column(word(PartShape), default=PartShape.OTHER)
    progress: Mapped[MakingProgress] = mapped_column(word(MakingProgress), default=MakingProgress.DRAFT)
    unit: Mapped[str] = mapped_column(default="mm")
    quantity: Mapped[int] = mapped_column(default=1)
    why: Mapped[str] = mapped_column(default="")
    do_not_copy: Mapped[str] = mapped_column(default="")
    material: Mapped[str] = mapped_column(default="")
    bar_skin: Mapped[str] = mapped_column(default="bright")
    blank: Mapped[str] = mapped_column(default="")
    blank_at: Mapped[str] = mapped_column(default="")
    thread: Mapped[str] = mapped_column(default="")
    taper: Mapped[str] = mapped_column(default="")
    gear: Mapped[str] = mapped_column(default="")
    key: Mapped[str] = mapped_column(default="")
    finish: Mapped[str] = mapped_column(default="")
    allow_uncertainty: Mapped[bool] = mapped_column(default=False)
    started_at: Mapped[dt.datetime | None]
    begun_at: Mapped[dt.datetime | None]
    made_at: Mapped[dt.datetime | None]
    settled_at: Mapped[dt.datetime | None]
    settled_by: Mapped[str] = mapped_column(default="")
    settled_note: Mapped[str] = mapped_column(default="")
    trial_fit: Mapped[str] = mapped_column(default="")
    marked: Mapped[str] = mapped_column(default="")
    looked: Mapped[str] = mapped_column(default="")
    looked_at: Mapped[dt.datetime | None]
    note: Mapped[str] = mapped_column(default="")


class MakingDimension(Record):
    """One line of a sheet: a size with its limits, where they come from, and what it is checked with.

    ``role`` is the shape's own word for it and ties it to the drawing; as-made values are readings of the
    feature.
    """

    __tablename__ = "making_dimension"
    __table_args__ = table_args(Index("ix_making_dimension_sheet_position", "sheet_id", "position"))

    sheet_id: Mapped[int] = mapped_column(ForeignKey("making_sheet.id", ondelete="CASCADE"))
    role: Mapped[str] = mapped_column(default="")
    name: Mapped[str]
    feature_id: Mapped[int | None] = mapped_column(ForeignKey("feature.id", ondelete="SET NULL"), index=True)
    fit_id: Mapped[int | None] = mapped_column(ForeignKey("fit.id", ondelete="SET NULL"), index=True)
    limits_from: Mapped[LimitsFrom] = mapped_column(word(LimitsFrom), default=LimitsFrom.OWN)
    size_text: Mapped[str] = mapped_column(default="")
    nominal_text: Mapped[str | None]
    nominal_unit: Mapped[str | None]
    nominal_mm: Mapped[float | None]
    low_text: Mapped[str | None]
    low_unit: Mapped[str | None]
    low_mm: Mapped[float | None]
    high_text: Mapped[str | None]
    high_unit: Mapped[str | None]
    high_mm: Mapped[float | None]
    measured_with: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class MakingStep(Record):
    """One step at the machine; ``measure`` says stop here and measure."""

    __tablename__ = "making_step"
    __table_args__ = table_args(Index("ix_making_step_sheet_position", "sheet_id", "position"))

    sheet_id: Mapped[int] = mapped_column(ForeignKey("making_sheet.id", ondelete="CASCADE"))
    what: Mapped[str]
    machine: Mapped[str] = mapped_column(default="")
    hold: Mapped[str] = mapped_column(default="")
    tool: Mapped[str] = mapped_column(default="")
    speed: Mapped[str] = mapped_column(default="")
    feed: Mapped[str] = mapped_column(default="")
    leave: Mapped[str] = mapped_column(default="")
    measure: Mapped[bool] = mapped_column(default=False)
    done_at: Mapped[dt.datetime | None]
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class MakingTool(Record):
    """A tool the sheet needs before work starts, and whether it is in hand."""

    __tablename__ = "making_tool"
    __table_args__ = table_args(Index("ix_making_tool_sheet_position", "sheet_id", "position"))

    sheet_id: Mapped[int] = mapped_column(ForeignKey("making_sheet.id", ondelete="CASCADE"))
    what: Mapped[str]
    why: Mapped[str] = mapped_column(default="")
    in_hand: Mapped[bool] = mapped_column(default=False)
    position: Mapped[int] = mapped_column(default=0)
