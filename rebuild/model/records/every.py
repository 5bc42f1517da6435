"""Every mapped record, loaded a module at a time, and a record by its table.

All of them must be there before the first act (a flush sorts tables by their references); mapping them
takes longer than opening a window, so the window loads them once it has painted.
"""

from __future__ import annotations

import pkgutil
from collections.abc import Iterator
from functools import cache
from importlib import import_module

from rebuild.model import records
from rebuild.model.records.record import Record, mapped


def piecemeal() -> Iterator[None]:
    """Map every record, a module at a step, so that others get their turn in between."""
    for module in pkgutil.iter_modules(records.__path__):
        import_module(f"{records.__name__}.{module.name}")
        yield


@cache
def every_record() -> dict[str, type[Record]]:
    """Every mapped record by its table."""
    for _ in piecemeal():
        pass
    return {mapper.class_.table_name: mapper.class_ for mapper in mapped.mappers}


def record(table: str) -> type[Record]:
    """The mapped record of one table (``log_entry`` → ``LogEntry``). Raises KeyError."""
    return every_record()[table]
