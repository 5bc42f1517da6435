"""``READS`` beside every lookup: the tables SQLite says it read are those it declares, both ways.

Source: SQLite's authorizer callback (SQLITE_READ names the table of every column a statement reads), an oracle
outside the project. The demo fills what the lookups ask; a page hears exactly what its rows modules declare.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from types import ModuleType
from unittest.mock import patch

import pytest
from sqlalchemy import Connection

from rebuild.errors import RebuildError
from rebuild.model.tables.every import whole
from rebuild.store.store import Store
from rebuild.work.plan import rows_graph
from tests.conftest import demo_copy
from tests.work.asking import HAND_MADE, Asking, Ears, lookups, rows_modules


class _ForOneLookup(rows_graph._Kept):
    """What is kept while one lookup is called with one thing after another; it asks the journal nothing."""

    def _look(self, connection: Connection) -> None:
        pass


@pytest.fixture(scope="module")
def ears() -> Iterator[Ears]:
    """Ears on every connection made in this module."""
    made = Ears()
    with made.opened():
        yield made


@pytest.fixture(scope="module")
def asking(ears: Ears, demo_template: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asking]:
    """The demo, open, with what its lookups can be called with."""
    store = Store.open(demo_copy(demo_template, tmp_path_factory.mktemp("asked")))
    # The work graph is kept while the journal stands still; here each lookup reads it anew, once for a machine.
    with store.read() as connection:
        yield Asking(store, connection)
    store.close()


@pytest.mark.parametrize("module", rows_modules(), ids=lambda module: module.__name__.split(".", 2)[2])
def test_a_rows_module_declares_exactly_the_tables_its_lookups_read(
    module: ModuleType, asking: Asking, ears: Ears
) -> None:
    read: set[str] = set()
    for name, lookup in lookups(module).items():
        called, kept = 0, _ForOneLookup()
        for call in asking.calls(lookup):
            asking.forget_settings()
            with (
                patch.object(rows_graph, "_kept_of", lambda _connection, kept=kept: kept),
                ears.listening() as heard,
                suppress(RebuildError),
            ):
                call()
            read |= heard
            called += 1
        assert called, f"{name} was never called: the file holds nothing it can be asked about"
    assert isinstance(module.READS, frozenset)
    assert read - module.READS == set(), "read and not declared: a page would not hear of it"
    assert module.READS - read == set(), "declared and never read: a page would hear of it for nothing"


def test_what_is_declared_are_tables_of_the_file() -> None:
    names = {table.name for table in whole().sorted_tables}
    declared = set().union(*(module.READS for module in rows_modules()))
    assert declared <= names
    assert {"reading", "waiting", "setting"} <= declared


def test_a_lookup_called_by_hand_is_still_there() -> None:
    known = {
        f"{module.__name__.removeprefix('rebuild.work.')}.{name}"
        for module in rows_modules()
        for name in lookups(module)
    }
    assert set(HAND_MADE) <= known


def test_the_ears_tell_one_table_from_another(asking: Asking, ears: Ears) -> None:
    with ears.listening() as heard:
        asking.connection.exec_driver_sql("SELECT count(*) FROM oil_point").scalar_one()
    assert heard == {"oil_point"}
    with ears.listening() as heard:
        asking.connection.exec_driver_sql("SELECT count(*) FROM oil_point").scalar_one()
    assert heard == {"oil_point"}, "a statement prepared before is told again"
    with ears.listening() as heard:
        asking.connection.exec_driver_sql("SELECT a_name FROM j_part").fetchall()
    assert heard == {"part"}, "the journal's image of a table counts as the table"
