"""Fits of two features, the options weighed for a part, odd sizes that must be carried on, and edited wear rules."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.decisions import Decision
from rebuild.words.fits import Adjuster, FitJoint, FitKind, Side, WantedOrigin
from rebuild.words.readings import Stage


class Fit(Record):
    """Two features that run or sit together, and what is wanted between them.

    A clearance counts up, an interference down. ``gap_id`` names a feature on which the clearance itself is
    read (bearing lift, backlash, a feeler gap). ``looked`` keeps what was known of both sides when the user
    last looked; the fit is stale when it is no longer so.
    """

    __tablename__ = "fit"
    __table_args__ = table_args(
        Index("ix_fit_machine_position", "machine_id", "position"),
        Index("ix_fit_outer_id", "outer_id"),
        Index("ix_fit_inner_id", "inner_id"),
        Index("ix_fit_gap_id", "gap_id"),
    )

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    name: Mapped[str] = mapped_column(default="")
    joint: Mapped[FitJoint] = mapped_column(word(FitJoint), default=FitJoint.HOLE_AND_SHAFT)
    kind: Mapped[FitKind] = mapped_column(word(FitKind), default=FitKind.RUNNING)
    outer_id: Mapped[int] = mapped_column(ForeignKey("feature.id", ondelete="CASCADE"))
    inner_id: Mapped[int] = mapped_column(ForeignKey("feature.id", ondelete="CASCADE"))
    gap_id: Mapped[int | None] = mapped_column(ForeignKey("feature.id", ondelete="SET NULL"))
    outer_station_id: Mapped[int | None] = mapped_column(
        ForeignKey("station.id", ondelete="SET NULL"), index=True
    )
    inner_station_id: Mapped[int | None] = mapped_column(
        ForeignKey("station.id", ondelete="SET NULL"), index=True
    )
    outer_stage: Mapped[Stage | None] = mapped_column(word(Stage))
    inner_stage: Mapped[Stage | None] = mapped_column(word(Stage))
    unit: Mapped[str] = mapped_column(default="mm")
    wanted_text: Mapped[str] = mapped_column(default="")
    low_text: Mapped[str | None]
    low_unit: Mapped[str | None]
    low_mm: Mapped[float | None]
    high_text: Mapped[str | None]
    high_unit: Mapped[str | None]
    high_mm: Mapped[float | None]
    wanted_origin: Mapped[WantedOrigin | None] = mapped_column(word(WantedOrigin))
    wanted_note: Mapped[str] = mapped_column(default="")
    master: Mapped[Side | None] = mapped_column(word(Side))
    adjuster: Mapped[Adjuster] = mapped_column(word(Adjuster), default=Adjuster.NONE)
    note: Mapped[str] = mapped_column(default="")
    looked_at: Mapped[dt.datetime | None]
    looked: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class DecisionOption(Record):
    """One way a part could go, with what it would take. Cost is in the file's own money."""

    __tablename__ = "decision_option"

    part_id: Mapped[int] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"), index=True)
    decision: Mapped[Decision] = mapped_column(word(Decision), default=Decision.OPEN)
    method: Mapped[str] = mapped_column(default="")
    cost: Mapped[float | None]
    work_min: Mapped[float | None]
    wait_days: Mapped[float | None]
    reversible: Mapped[bool] = mapped_column(default=True)
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class OddSize(Record):
    """A size that is not the standard one (a pin one size up, a bore opened): mates and spares must know."""

    __tablename__ = "odd_size"

    part_id: Mapped[int] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"), index=True)
    feature_id: Mapped[int | None] = mapped_column(ForeignKey("feature.id", ondelete="SET NULL"), index=True)
    what: Mapped[str]
    size_text: Mapped[str | None]
    size_unit: Mapped[str | None]
    size_mm: Mapped[float | None]
    instead_of: Mapped[str] = mapped_column(default="")
    reason: Mapped[str] = mapped_column(default="")
    since: Mapped[dt.datetime | None]


class WearRule(Record):
    """The user's own limits in place of a wear rule's: shown as edited, the rule's own beside them."""

    __tablename__ = "wear_rule"
    __table_args__ = table_args(Index("ix_wear_rule_key", "key"))

    key: Mapped[str]
    good_text: Mapped[str | None]
    good_unit: Mapped[str | None]
    good_mm: Mapped[float | None]
    rework_text: Mapped[str | None]
    rework_unit: Mapped[str | None]
    rework_mm: Mapped[float | None]
    left_out: Mapped[bool] = mapped_column(default=False)
    note: Mapped[str] = mapped_column(default="")
