"""Lubrication points: where, what they feed, through what, and whether oil was seen to arrive."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.lubrication import FlowProof, OilPointKind


class OilPoint(Record):
    """One point of the oil card. ``fed_by_id`` makes the tree of a central oiler; ``x``, ``y`` lie on the map (0 to 1).

    ``task_id`` is the step that hides it: that step may not be closed before oil was seen to flow.
    """

    __tablename__ = "oil_point"
    __table_args__ = table_args(Index("ix_oil_point_machine_position", "machine_id", "position"))

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    fed_by_id: Mapped[int | None] = mapped_column(ForeignKey("oil_point.id", ondelete="SET NULL"), index=True)
    part_id: Mapped[int | None] = mapped_column(ForeignKey("part.id", ondelete="SET NULL"), index=True)
    task_id: Mapped[int | None] = mapped_column(ForeignKey("task.id", ondelete="SET NULL"), index=True)
    number: Mapped[str]
    kind: Mapped[OilPointKind] = mapped_column(word(OilPointKind), default=OilPointKind.OIL_HOLE)
    feeds: Mapped[str]
    path: Mapped[str] = mapped_column(default="")
    old_oil: Mapped[str] = mapped_column(default="")
    duty: Mapped[str] = mapped_column(default="")
    oil: Mapped[str] = mapped_column(default="")
    quantity: Mapped[str] = mapped_column(default="")
    interval: Mapped[str] = mapped_column(default="")
    dose_ml: Mapped[float | None]
    delivery_ml: Mapped[float | None]
    first_fill_at: Mapped[dt.datetime | None]
    proof: Mapped[FlowProof] = mapped_column(word(FlowProof), default=FlowProof.NOT_PROVED)
    proved_at: Mapped[dt.datetime | None]
    proved_note: Mapped[str] = mapped_column(default="")
    x: Mapped[float | None]
    y: Mapped[float | None]
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)
