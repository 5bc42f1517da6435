"""Records mapped on their tables before the first act needs them: at once, or in short steps while nobody waits."""

from __future__ import annotations

from collections.abc import Iterator


def make_ready() -> Iterator[None]:
    """Load what the first act needs and the first page did not, in short steps while nobody waits."""
    from sqlalchemy.orm import configure_mappers

    yield
    from rebuild.model.records.every import piecemeal

    yield from piecemeal()
    configure_mappers()
    yield


def map_every_record() -> None:
    """Before an act: a flush sorts tables by their references, so all must be known."""
    from rebuild.model.records.every import every_record

    every_record()
