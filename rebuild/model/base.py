"""The declarative base: naming conventions, stored types, and which tables are journaled."""

from __future__ import annotations

import datetime as dt
from typing import Any, ClassVar

from sqlalchemy import MetaData, String
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from rebuild.model.stored import Moment as Moment, word as word

CONVENTION = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Base(DeclarativeBase):
    """Base of all mapped records."""

    metadata = MetaData(naming_convention=CONVENTION)
    type_annotation_map: ClassVar[dict[Any, Any]] = {dt.datetime: Moment(), str: String()}


class Record(Base):
    """A journaled record: an id that is never used twice (AUTOINCREMENT), every change undoable."""

    __abstract__ = True
    __table_args__: Any = {"sqlite_autoincrement": True, "info": {"journaled": True}}  # noqa: RUF012

    id: Mapped[int] = mapped_column(primary_key=True, sort_order=-1)


def table_args(*args: Any) -> tuple[Any, ...]:
    """Table arguments of a journaled record with indexes or constraints of its own."""
    return (*args, {"sqlite_autoincrement": True, "info": {"journaled": True}})
