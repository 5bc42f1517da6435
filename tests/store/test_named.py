"""Records by name, mapped late, against the records as they are mapped."""

from __future__ import annotations

import ast
import datetime as dt
from pathlib import Path

import pytest
from sqlalchemy import Boolean, Column, Enum, Float, Integer, String
from sqlalchemy.dialects import sqlite
from sqlalchemy.types import NullType

import rebuild.model.all as every
from rebuild.model import named
from rebuild.model.base import Base
from rebuild.model.named import Named
from rebuild.model.stored import Moment

STANDING_IN = {name: found for name, found in vars(named).items() if isinstance(found, Named)}


def typed_names(path: Path) -> set[str]:
    """The records a type checker is shown: those imported under TYPE_CHECKING."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    block = next(
        node for node in tree.body if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
    )
    return {alias.name for node in block.body if isinstance(node, ast.ImportFrom) for alias in node.names} - {
        "Base"
    }


def test_every_mapped_record_is_listed_once_for_each_reader() -> None:
    every.whole()
    mapped = {mapper.class_.__name__ for mapper in Base.registry.mappers}
    listed = [name for names in every._WHERE.values() for name in names if name != "Base"]
    assert sorted(listed) == sorted(mapped)
    assert typed_names(Path(every.__file__)) == mapped
    modules = {path.stem for path in Path(every.__file__).parent.glob("*.py")}
    assert set(every._WHERE) == modules - {"__init__", "all", "named", "stored"}


def test_what_a_type_checker_sees_is_what_stands_in() -> None:
    assert typed_names(Path(named.__file__)) == set(STANDING_IN)


@pytest.mark.parametrize("name", sorted(STANDING_IN))
def test_a_stand_in_gives_back_what_the_record_gives_back(name: str) -> None:
    record = getattr(every, name)
    stand_in = STANDING_IN[name]
    assert stand_in.__clause_element__().name == record.__tablename__
    columns = {column.name: column for column in record.__table__.columns}
    assert set(stand_in._kept) <= set(columns), "a column that is not there"
    for column in columns.values():
        same_kind(column, getattr(stand_in, column.name).type)


def same_kind(column: Column[object], found: object) -> None:
    """Both ways of naming a column give back alike; a number or text that is bound needs nothing done to it."""
    if isinstance(column.type, Enum):
        assert isinstance(found, Enum), column.name
        assert found.enum_class is column.type.enum_class
        assert found.enums == column.type.enums
    elif isinstance(column.type, Boolean | Moment):
        assert type(found) is type(column.type), column.name
    else:
        assert isinstance(column.type, Integer | String | Float), column.name
        assert isinstance(found, NullType), column.name
        dialect = sqlite.dialect()  # type: ignore[no-untyped-call]
        assert column.type.dialect_impl(dialect).result_processor(dialect, None) is None, column.name


def test_columns_are_made_once_and_private_names_are_none() -> None:
    stand_in = Named("reading", taken_at=dt.datetime)
    assert stand_in.taken_at is stand_in.taken_at
    with pytest.raises(AttributeError):
        _ = stand_in._sa_instance_state
