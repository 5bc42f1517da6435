"""Machines, their subassemblies, and the places parts lie in."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import ForeignKey, Index
from sqlalchemy.orm import Mapped, mapped_column

from rebuild.model.base import Record, table_args, word
from rebuild.words.machines import MachineKind, Scope
from rebuild.words.places import PlaceKind


class Machine(Record):
    """One machine being brought back."""

    __tablename__ = "machine"

    name: Mapped[str]
    kind: Mapped[MachineKind] = mapped_column(word(MachineKind), default=MachineKind.OTHER)
    maker: Mapped[str] = mapped_column(default="")
    model: Mapped[str] = mapped_column(default="")
    serial: Mapped[str] = mapped_column(default="")
    serial_where: Mapped[str] = mapped_column(default="")
    stampings: Mapped[str] = mapped_column(default="")
    year: Mapped[str] = mapped_column(default="")
    year_basis: Mapped[str] = mapped_column(default="")
    unit: Mapped[str] = mapped_column(default="mm")
    capacity: Mapped[str] = mapped_column(default="")
    weight: Mapped[str] = mapped_column(default="")
    power_found: Mapped[str] = mapped_column(default="")
    power_planned: Mapped[str] = mapped_column(default="")
    scope: Mapped[Scope] = mapped_column(word(Scope), default=Scope.REFURBISH)
    location: Mapped[str] = mapped_column(default="")
    bought: Mapped[str] = mapped_column(default="")
    story: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class Subassembly(Record):
    """A group of parts that comes off and goes on together; may nest."""

    __tablename__ = "subassembly"
    __table_args__ = table_args(
        Index("ix_subassembly_machine_position", "machine_id", "parent_id", "position"),
    )

    machine_id: Mapped[int] = mapped_column(ForeignKey("machine.id", ondelete="CASCADE"))
    parent_id: Mapped[int | None] = mapped_column(
        ForeignKey("subassembly.id", ondelete="CASCADE"), index=True
    )
    code: Mapped[str] = mapped_column(default="")
    name: Mapped[str]
    scope: Mapped[Scope | None] = mapped_column(word(Scope))
    manual_page: Mapped[str] = mapped_column(default="")
    note: Mapped[str] = mapped_column(default="")
    position: Mapped[int] = mapped_column(default=0)


class Place(Record):
    """Somewhere a part can lie: a bag, tote, shelf, bath, another shop."""

    __tablename__ = "place"

    kind: Mapped[PlaceKind] = mapped_column(word(PlaceKind), default=PlaceKind.OTHER)
    name: Mapped[str]
    note: Mapped[str] = mapped_column(default="")
    since: Mapped[dt.datetime | None]
