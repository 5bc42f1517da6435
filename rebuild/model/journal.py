"""The journal's tables: acts, the rows each act touched, and shadow tables of their images.

A shadow table ``j_<table>`` keeps the row before (``b_``) and after (``a_``) in untyped columns:
SQLite then gives back exactly what it was given, where a JSON image would lose digits.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Any

from sqlalchemy import Column, ForeignKey, Index, Integer, MetaData, Table
from sqlalchemy.orm import Mapped, mapped_column
from sqlalchemy.types import UserDefinedType

from rebuild.model.base import Base


class Untyped(UserDefinedType[Any]):
    """A column without a declared type, so no affinity: values come back as they went in."""

    cache_ok = True

    def get_col_spec(self, **_kw: Any) -> str:
        return ""


class ActRow(Base):
    """One act of the user: what, on what, when; ``undone`` while it is taken back.

    ``reverses`` names the act that an undo or redo replays; ``sealed`` acts are history only: the schema
    changed under them, or they were taken back and something else was done instead.
    """

    __tablename__ = "act"
    __table_args__ = (
        Index("ix_act_undone", "undone", "sealed", "id"),
        {"sqlite_autoincrement": True},
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    kind: Mapped[str]
    subject: Mapped[str] = mapped_column(default="")
    at: Mapped[dt.datetime]
    window: Mapped[str] = mapped_column(default="")
    reverses: Mapped[int | None]
    undone: Mapped[bool] = mapped_column(default=False)
    sealed: Mapped[bool] = mapped_column(default=False)


class Change(Base):
    """One row touched by an act: which table, which row, and i(nsert), u(pdate) or d(elete)."""

    __tablename__ = "change"
    __table_args__ = (
        Index("ix_change_act", "act_id", "id"),
        Index("ix_change_row", "tbl", "row_id", "id"),
        {"sqlite_autoincrement": True},
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    act_id: Mapped[int] = mapped_column(ForeignKey("act.id", ondelete="CASCADE"))
    tbl: Mapped[str]
    row_id: Mapped[int]
    op: Mapped[str]


def journaled(metadata: MetaData) -> Iterator[Table]:
    """The tables whose every change is journaled."""
    return (table for table in metadata.sorted_tables if table.info.get("journaled"))


def shadow_name(table: str) -> str:
    """The name of a table's shadow."""
    return f"j_{table}"


#: Shadow columns the history of a part is looked up by.
SHADOW_INDEXES = {"feature": "part_id", "reading": "feature_id", "concession": "part_id"}


def add_shadows(metadata: MetaData) -> None:
    """Put a shadow table beside every journaled table of ``metadata``: for migrations; the program needs none."""
    for table in list(journaled(metadata)):
        if shadow_name(table.name) in metadata.tables:
            continue
        columns = [
            Column(f"{side}_{column.name}", Untyped(), nullable=True)
            for side in ("b", "a")
            for column in table.columns
        ]
        Table(
            shadow_name(table.name),
            metadata,
            Column("change_id", Integer, ForeignKey("change.id", ondelete="CASCADE"), primary_key=True),
            *columns,
            *(
                Index(f"ix_{shadow_name(table.name)}_a_{name}", f"a_{name}")
                for name in (SHADOW_INDEXES.get(table.name),)
                if name
            ),
        )
