"""How times and words are stored; free of the mapper, so that a question to the file can know them early."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
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


class Word(Enum):
    """One of a few words. A cell is looked up in a table, without a call: lists read them by ten thousands."""

    def result_processor(self, dialect: Any, coltype: Any) -> Callable[[str | None], StrEnum | None]:
        """From the word stored; raises LookupError for one that is not known."""
        words: type[StrEnum] = self.python_type
        return _Known(words, self).__getitem__


class _Known(dict[str | None, StrEnum | None]):
    """The words by what stands for them in the file, nothing for nothing; any other is refused as ``Enum`` does."""

    def __init__(self, words: type[StrEnum], column: Word) -> None:
        super().__init__({one.value: one for one in words})
        self[None] = None
        self._column = column

    def __missing__(self, stored: object) -> StrEnum | None:
        raise LookupError(f"{stored!r} is none of the words of {self._column.name}: {self._column.enums}")


def word(enumeration: type[StrEnum]) -> Enum:
    """A column of one of the trade's words, stored as the word itself."""
    return Word(
        enumeration,
        native_enum=False,
        create_constraint=False,
        length=40,
        values_callable=lambda members: [member.value for member in members],
        name=enumeration.__name__.lower(),
    )
