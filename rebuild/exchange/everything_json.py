"""All records of an export as one JSON file, written row by row as they stream by."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TextIO

from rebuild import __version__
from rebuild.store import schema
from rebuild.work.lists.plain_rows import Value
from rebuild.work.lists.rows_everything import Listing

#: Is handed rows as they are written elsewhere.
Beside = Callable[[Sequence[Sequence[Value]]], None]

_encode = json.JSONEncoder(ensure_ascii=False, check_circular=False).encode


class JsonFile:
    """Writes ``{what, schema, program, records: {name: [row, ...]}}``, as many rows a line as come at a time."""

    def __init__(self, file: TextIO) -> None:
        self._file, self._tables = file, 0
        head = {"what": "everything of one Rebuild project", "schema": schema.HEAD, "program": __version__}
        file.write(f'{_encode(head)[:-1]},\n"records": {{')

    @contextmanager
    def table(self, listing: Listing) -> Iterator[Beside]:
        """One table: its rows are those handed to what this gives, under their column names. Raises OSError."""
        names = [head.column for head in listing.heads]
        self._file.write(f"{',' if self._tables else ''}\n{_encode(listing.name)}: [")
        self._tables += 1
        begun = False

        def write(rows: Sequence[Sequence[Value]]) -> None:
            nonlocal begun
            told = _encode([dict(zip(names, row, strict=True)) for row in rows])
            self._file.write(f"{',' if begun else ''}\n{told[1:-1]}")
            begun = True

        yield write
        self._file.write("]")

    def end(self) -> None:
        """Close what is open. Raises OSError."""
        self._file.write("}}\n")
