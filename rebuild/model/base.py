"""The declarative base: naming conventions, stored types, and which tables are journaled."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Any, ClassVar

from sqlalchemy import Enum, MetaData, String, TypeDecorator
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

CONVENTION = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Moment(TypeDecorator[dt.datetime]):
    """A local wall-clock time, to the second, as ISO text a person can read in twenty years."""

    impl = String(19)
    cache_ok = True

    def process_bind_param(self, value: dt.datetime | None, dialect: Any) -> str | None:
        return value.replace(tzinfo=None).isoformat(timespec="seconds") if value else None

    def process_result_value(self, value: str | None, dialect: Any) -> dt.datetime | None:
        return dt.datetime.fromisoformat(value) if value else None


def word(enumeration: type[StrEnum]) -> Enum:
    """A column of one of the trade's words, stored as the word itself."""
    return Enum(
        enumeration,
        native_enum=False,
        create_constraint=False,
        length=40,
        values_callable=lambda members: [member.value for member in members],
        name=enumeration.__name__.lower(),
    )


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
