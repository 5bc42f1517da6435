"""Which tables are journaled, and the shadow tables of their images.

A shadow table ``j_<table>`` keeps the row before (``b_``) and after (``a_``) in untyped columns:
SQLite then gives back exactly what it was given, where a JSON image would lose digits.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sqlalchemy import Column, ForeignKey, Index, Integer, MetaData, Table
from sqlalchemy.types import UserDefinedType


class Untyped(UserDefinedType[Any]):
    """A column without a declared type, so no affinity: values come back as they went in."""

    cache_ok = True

    def get_col_spec(self, **_kw: Any) -> str:
        return ""


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
