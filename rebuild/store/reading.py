"""A door for work beside the window: one view of the file that can only be read and needs no open ``Store``."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy import Connection

from rebuild.errors import FileTrouble
from rebuild.store import schema
from rebuild.store.connect import read_only, reader_engine
from rebuild.store.foreign_log import is_foreign
from rebuild.store.identity import is_held_here
from rebuild.store.recognise import recognise
from rebuild.store.set_aside import set_aside
from rebuild.store.sqlite_words import explained
from rebuild.store.strangers import refuse_strange
from rebuild.store.unreadable import BadCell, unreadable


@contextmanager
def reading(
    path: Path, found: Callable[[Sequence[BadCell]], object] = lambda _cells: None
) -> Iterator[Connection]:
    """One consistent view of a project file, from a thread or process of its own.

    ``found`` hears which cells cannot be read; what stands for them is what the view shows.

    Raises:
        FileTrouble: no project, of another schema than this program's, or unreadable.
    """
    recognise(path)
    if not is_held_here(path) and is_foreign(path):
        raise FileTrouble(
            "beside it lies the log (-wal) of another state of the file.",
            where=path.name,
            way_out="Open it once in the window; the log is set aside by name.",
        )
    if schema.revision_of(path) != schema.HEAD:
        raise FileTrouble(
            "the file is of another version of the program.",
            where=path.name,
            way_out="Open it once; it is brought up to date after a backup.",
        )
    with explained(path), closing(read_only(path)) as raw:
        refuse_strange(raw, schema.HEAD, path)
        bad = unreadable(raw)
    found(bad)
    engine = reader_engine(path, lambda raw: set_aside(raw, bad))
    try:
        with explained(path), engine.connect() as connection:
            yield connection
    finally:
        engine.dispose()
