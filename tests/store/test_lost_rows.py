"""An upgrade that loses a single row is refused, and a file is whole without a log or with one that holds pages."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from rebuild.errors import FileTrouble
from rebuild.store import schema
from rebuild.store.recognise import recognise
from rebuild.store.store import Store
from rebuild.work.readings import acts as measure
from tests.store.test_schema import next_migration as next_migration
from tests.support import acts_in, read_contents

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.conftest import Shop


@pytest.fixture
def filled(shop: Shop) -> Path:
    for typed in ("59.98", "59.97", "59.96"):
        measure.record_reading(shop.store, typed, measure.Entry(shop.journal, shop.near))
    shop.store.close()
    return shop.path


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ('op.execute("DELETE FROM reading WHERE id = (SELECT MAX(id) FROM reading)")', "would lose 1 rows of reading"),
        ('op.execute("DELETE FROM reading")', "would lose 3 rows of reading"),
        ('op.execute("DELETE FROM setting WHERE key = \'kept\'")', "would lose 1 rows of setting"),
    ],
)  # fmt: skip
def test_an_upgrade_that_loses_one_row_is_refused_whole(
    filled: Path, next_migration: Callable[[str], None], body: str, said: str
) -> None:
    store = Store.open(filled)
    store.set_setting("kept", "yes")
    store.close()
    before = read_contents(filled), acts_in(filled)
    next_migration(body)
    with pytest.raises(FileTrouble, match=said):
        schema.upgrade(filled)
    assert (read_contents(filled), acts_in(filled)) == before


def test_an_upgrade_that_adds_rows_or_drops_a_table_whole_is_let_through(
    filled: Path, next_migration: Callable[[str], None]
) -> None:
    before = read_contents(filled)
    next_migration(
        "op.execute(\"INSERT INTO setting (key, value) VALUES ('new', '1')\")\n"
        'op.execute("CREATE TABLE odd (id INTEGER)")\nop.execute("DROP TABLE odd")'
    )
    assert schema.upgrade(filled) is not None
    assert read_contents(filled) == before


def test_a_file_cut_short_is_refused_beside_an_empty_log(project: Path) -> None:
    whole = project.read_bytes()
    recognise(project)
    project.write_bytes(whole[:-1])
    log = Path(f"{project}-wal")
    with pytest.raises(FileTrouble, match="cut short: it was not copied whole"):
        recognise(project)
    log.write_bytes(b"")
    with pytest.raises(FileTrouble, match="cut short: it was not copied whole"):
        recognise(project)
    assert project.read_bytes() == whole[:-1]


def test_a_file_longer_than_its_header_says_is_whole(project: Path) -> None:
    raw = sqlite3.connect(project)
    pages, size = (raw.execute(f"PRAGMA {name}").fetchone()[0] for name in ("page_count", "page_size"))
    raw.close()
    assert project.stat().st_size == pages * size
    recognise(project)
    with project.open("ab") as file:
        file.write(bytes(size))
    recognise(project)
