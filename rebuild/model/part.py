"""Parts, the matched sets that must stay together, and concessions."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.decisions import Decision
from rebuild.words.parts import Identity, Origin


class MatchedSet(Record):
    """Parts that must stay together: bearing shells and shims, spindle and nut, gib and slide."""

    __tablename__ = "matched_set"

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"), index=True)
    name: Mapped[str]
    note: Mapped[str] = mapped_column(default="")


class Part(Record):
    """One part (or several alike) of a machine, known or not yet."""

    __tablename__ = "part"
    __table_args__ = table_args(
        Index("ix_part_machine_subassembly", "machine_id", "subassembly_id", "position"),
        Index("ix_part_code", "code"),
    )

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    subassembly_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="CASCADE"), index=True
    )
    code: Mapped[str] = mapped_column(default="")
    name: Mapped[str]
    other_names: Mapped[str] = mapped_column(default="")
    quantity: Mapped[int] = mapped_column(default=1)
    identity: Mapped[Identity] = mapped_column(word(Identity), default=Identity.CONFIRMED)
    suspects: Mapped[str] = mapped_column(default="")
    origin: Mapped[Origin] = mapped_column(word(Origin), default=Origin.ORIGINAL)
    material: Mapped[str] = mapped_column(default="")
    condition: Mapped[str] = mapped_column(default="")
    decision: Mapped[Decision] = mapped_column(word(Decision), default=Decision.OPEN)
    decision_reason: Mapped[str] = mapped_column(default="")
    decision_criterion: Mapped[str] = mapped_column(default="")
    decision_would_change: Mapped[str] = mapped_column(default="")
    decided_at: Mapped[dt.datetime | None]
    place_id: Mapped[int | None] = mapped_column(ForeignKey("place.id", ondelete="SET NULL"), index=True)
    placed_at: Mapped[dt.datetime | None]
    match_mark: Mapped[str] = mapped_column(default="")
    orientation: Mapped[str] = mapped_column(default="")
    matched_set_id: Mapped[int | None] = mapped_column(
        ForeignKey("matched_set.id", ondelete="SET NULL"), index=True
    )
    figure_item: Mapped[str] = mapped_column(default="")
    maker_number: Mapped[str] = mapped_column(default="")
    stamped: Mapped[str] = mapped_column(default="")
    handedness: Mapped[str] = mapped_column(default="")
    spare_of_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)
    decision_method: Mapped[str | None]
    decision_value: Mapped[str | None]
    decision_cost: Mapped[float | None]
    decision_work_min: Mapped[float | None]
    decision_wait_days: Mapped[float | None]


class Concession(Record):
    """A part accepted outside its spec: which feature, what value, by whom and why (ISO 9000:2015)."""

    __tablename__ = "concession"

    part_id: Mapped[int] = mapped_column(ForeignKey("part.id", ondelete="CASCADE"), index=True)
    feature_id: Mapped[int | None] = mapped_column(ForeignKey("feature.id", ondelete="SET NULL"), index=True)
    accepted: Mapped[str] = mapped_column(default="")
    reason: Mapped[str]
    accepted_by: Mapped[str] = mapped_column(default="")
    accepted_at: Mapped[dt.datetime | None]
