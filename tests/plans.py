"""How SQLite means to answer what a lookup asks, step by step, as it says itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sqlalchemy import Connection


def plans_of(connection: Connection, statements: Iterable[str]) -> Iterator[list[str]]:
    """The steps of each statement; the values it is asked with make no difference to the way.

    SQLite plans with no statistics, as in every file of the program: a small file is planned as a large one.
    """
    for said in list(statements):
        marks = (None,) * said.count("?")
        yield [row[3] for row in connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {said}", marks)]
