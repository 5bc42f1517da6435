"""How times and words are stored; free of the mapper, so that a question to the file can know them early."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Any

from sqlalchemy import Enum, String, TypeDecorator


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
