"""A section of the facts is skipped only where reading it would give nothing; and is read once something is there.

Source: the section itself, read on the demo with all rows of a table it wants taken out by SQLite.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Connection, create_engine

from rebuild.model.tables.every import whole
from rebuild.trade.limits.judgement import Rule
from rebuild.words.fitting import FittingKind
from rebuild.work.plan.rows_facts import SECTIONS, Section, empty_tables
from tests.conftest import demo_copy

RULE = Rule.CONFORMANCE_95
WANTED = [(section, table) for section in SECTIONS for table in sorted(section.wants)]


@pytest.fixture(scope="module")
def emptied(demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Connection]:
    """A copy of the demo on a bare connection."""
    path = demo_copy(demo_template, tmp_path_factory.mktemp("emptied"))
    engine = create_engine(f"sqlite:///{path}")
    with engine.connect() as connection:
        connection.exec_driver_sql(
            "PRAGMA foreign_keys = ON"
        )  # what hangs on a row goes with it, as in every act
        # What the demo has nothing of, or nothing that is still open.
        connection.exec_driver_sql("UPDATE clock SET closed_at = NULL, task_id = (SELECT MIN(id) FROM task)")
        connection.execute(
            whole().tables["fitting"].insert(), {"part_id": 1, "kind": FittingKind.REAM, "what": "bush"}
        )
        connection.commit()
        yield connection
    engine.dispose()


def test_what_a_section_wants_is_of_its_tables() -> None:
    for section in SECTIONS:
        assert section.wants <= section.tables, "else it would not hear that something came"
    assert sum(bool(section.wants) for section in SECTIONS) > 10


@pytest.mark.parametrize(("section", "table"), WANTED, ids=[table for _, table in WANTED])
def test_without_what_it_wants_there_is_nothing_to_read(
    section: Section, table: str, emptied: Connection
) -> None:
    machines = list(emptied.exec_driver_sql("SELECT id FROM machine").scalars())
    there = [section.read(emptied, machine, RULE) for machine in machines]
    assert any(any(fields) for fields in there), "the demo shows something of every section"
    assert table not in empty_tables(emptied)
    whole = section.first(emptied, machines[0], RULE, frozenset())
    assert whole == there[0] == section.first(emptied, machines[0], RULE, empty_tables(emptied))
    emptied.exec_driver_sql(f'DELETE FROM "{table}"')
    try:
        empty = empty_tables(emptied)
        assert table in empty
        for machine in machines:
            assert section.read(emptied, machine, RULE) == section.first(emptied, machine, RULE, empty)
            assert not any(section.first(emptied, machine, RULE, empty))
    finally:
        emptied.rollback()
