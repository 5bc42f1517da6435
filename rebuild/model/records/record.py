"""Mapped records: a class of rows on the table whose cells it inherits.

``class Part(Record, Parts)`` maps ``Part`` on ``Parts.table``: nothing is written twice. Only acts, and the
rules they ask, load records; a lookup asks the tables.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy.orm import registry

from rebuild.model.asked import Asked, metadata

mapped = registry(metadata=metadata)


class _Mappers:
    """A record is asked for through its mapper, so it must not stand for its bare table."""

    def __get__(self, _row: object, _record: type) -> Any:
        raise AttributeError("__clause_element__")


class Record(Asked):
    """Base of all mapped records."""

    __clause_element__: Any = _Mappers()

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        mapped.map_imperatively(cls, cls.table)

    def __init__(self, **values: Any) -> None:
        mapped.constructor(self, **values)
