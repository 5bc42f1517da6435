"""The columns of a table as they are written down: once, with their type, by small words.

A cell is only a note. Nothing of SQLAlchemy is made before a question names it, because making every
column and index of the file takes longer than opening a window.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from enum import StrEnum
from typing import TYPE_CHECKING, Any, Generic, TypeVar, overload

from sqlalchemy import Boolean, Column, ColumnClause, Double, ForeignKey, Integer, String, column
from sqlalchemy.types import TypeEngine

from rebuild.model.stored import Moment, word

if TYPE_CHECKING:
    from rebuild.model.asked import Asked

T = TypeVar("T")
W = TypeVar("W", bound=StrEnum)


class Cell(Generic[T]):
    """One column: of a table (``Parts.name``) the column to ask for, of a record (``part.name``) the value."""

    __slots__ = ("default", "index", "is_key", "made_type", "name", "nullable", "refers")

    def __init__(
        self,
        made_type: Callable[[], TypeEngine[Any]],
        *,
        default: object = None,
        index: bool = False,
        is_key: bool = False,
        refers: tuple[str, str] | None = None,
    ) -> None:
        self.name = ""
        self.made_type = made_type
        self.default = default
        self.index = index
        self.is_key = is_key
        self.nullable = False
        self.refers = refers

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    @overload
    def __get__(self, row: None, table: type[Asked]) -> ColumnClause[T]: ...

    @overload
    def __get__(self, row: Asked, table: type[Asked]) -> T: ...

    def __get__(self, row: Asked | None, table: type[Asked]) -> ColumnClause[T] | T:
        """The column; a row holds its values itself, and a mapped record has the mapper's own attributes."""
        if row is not None:
            raise AttributeError(f"{table.table_name} was read without {self.name}")
        return table.clause().c[self.name]  # type: ignore[return-value]

    if TYPE_CHECKING:

        def __set__(self, row: Asked, value: T) -> None: ...

    def asked(self) -> ColumnClause[T]:
        """The column for questions: its name and how it is read back."""
        return column(self.name, self.made_type())

    def kept(self) -> Column[T]:
        """The column for the file: with its default, reference and index."""
        refers = [ForeignKey(f"{self.refers[0]}.id", ondelete=self.refers[1])] if self.refers else []
        return Column(
            self.name,
            self.made_type(),
            *refers,
            default=self.default,
            index=self.index or None,
            primary_key=self.is_key,
            nullable=self.nullable,
        )


def number_key() -> Cell[int]:
    """The number of a row, never used twice."""
    return Cell(Integer, is_key=True)


def text_key() -> Cell[str]:
    """A row's own word."""
    return Cell(String, is_key=True)


def as_text(default: str | None = None, *, index: bool = False) -> Cell[str]:
    """Text; without a default it must be given."""
    return Cell(String, default=default, index=index)


def as_count(default: int | None = None) -> Cell[int]:
    """A whole number."""
    return Cell(Integer, default=default)


def as_number(default: float | None = None) -> Cell[float]:
    """A number, exactly as typed."""
    return Cell(Double, default=default)


def as_yes(default: bool | None = None) -> Cell[bool]:
    """Yes or no."""
    return Cell(Boolean, default=default)


def as_moment() -> Cell[dt.datetime]:
    """A local wall-clock time."""
    return Cell(Moment)


def one_of(words: type[W], default: W | None = None) -> Cell[W]:
    """One of the trade's words."""
    return Cell(lambda: word(words), default=default)


def goes_with(table: str, *, index: bool = False) -> Cell[int]:
    """The row this one belongs to, and is removed with."""
    return Cell(Integer, refers=(table, "CASCADE"), index=index)


def points_at(table: str, *, index: bool = False) -> Cell[int | None]:
    """A row this one names; empty when that one is removed."""
    return maybe(Cell(Integer, refers=(table, "SET NULL"), index=index))


def maybe(cell: Cell[T]) -> Cell[T | None]:
    """The same, or nothing."""
    cell.nullable = True
    return cell  # type: ignore[return-value]
