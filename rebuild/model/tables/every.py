"""Every table of the file, for what goes by the schema: migrations, the check, lists of everything."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module

from sqlalchemy import MetaData

from rebuild.model import tables
from rebuild.model.asked import Asked, metadata


def every_table() -> tuple[type[Asked], ...]:
    """Every table, by its class, module by module as the folder lists them."""
    modules = (
        import_module(f"{tables.__name__}.{found.name}") for found in pkgutil.iter_modules(tables.__path__)
    )
    return tuple(
        found
        for module in modules
        for found in vars(module).values()
        if isinstance(found, type) and issubclass(found, Asked) and found.__module__ == module.__name__
    )


@cache
def whole() -> MetaData:
    """The metadata with every table built in it."""
    for asked in every_table():
        asked.build()
    return metadata
