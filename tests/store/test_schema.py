"""The schema: migrations and metadata agree, upgrades lose nothing, and fail whole when they fail."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import create_engine

from rebuild.errors import FileTrouble
from rebuild.fault_report import kept_report
from rebuild.model.shadows import add_shadows, journaled, shadow_name
from rebuild.model.tables.every import whole
from rebuild.store import schema
from rebuild.store.store import Store
from rebuild.work.readings import acts as measure

if TYPE_CHECKING:
    from tests.conftest import Shop
    from tests.support import Contents

NEXT = "9001"
metadata = whole()
add_shadows(metadata)


def described(path: Path) -> dict[str, dict[str, object]]:
    """A file's schema as SQLite tells it: columns, keys, indexes, AUTOINCREMENT, constraint names."""
    raw = sqlite3.connect(path)
    found: dict[str, dict[str, object]] = {}
    for name, sql in raw.execute(
        "SELECT name, sql FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' "
        "AND name <> 'alembic_version' AND name NOT LIKE 'find!_words%' ESCAPE '!'"  # made by SQLite, not described
    ).fetchall():
        found[name] = {
            "columns": {
                row[1]: (affinity(row[2]), row[3], row[4], row[5])
                for row in raw.execute(f"PRAGMA table_xinfo({name})")
            },
            "foreign keys": sorted(
                tuple(row[2:7]) for row in raw.execute(f"PRAGMA foreign_key_list({name})")
            ),
            "indexes": {
                row[1]: (row[2], tuple(c[2] for c in raw.execute(f"PRAGMA index_info({row[1]})")))
                for row in raw.execute(f"PRAGMA index_list({name})")
                if not row[1].startswith("sqlite_")
            },
            "autoincrement": "AUTOINCREMENT" in sql.upper(),
            "constraints": sorted(
                word.strip('"')
                for at, word in zip(sql.split(), sql.split()[1:], strict=False)
                if at == "CONSTRAINT"
            ),
        }
    raw.close()
    return found


def affinity(declared: str) -> str:
    """SQLite's rule for the affinity of a declared type."""
    kind = declared.upper()
    if "INT" in kind:
        return "INTEGER"
    if any(word in kind for word in ("CHAR", "CLOB", "TEXT")):
        return "TEXT"
    if not kind or "BLOB" in kind:
        return "BLOB"
    return "REAL" if any(word in kind for word in ("REAL", "FLOA", "DOUB")) else "NUMERIC"


def test_the_migrations_make_exactly_what_the_records_describe(empty_template: Path, tmp_path: Path) -> None:
    made = tmp_path / "metadata.db"
    engine = create_engine(f"sqlite:///{made}")
    metadata.create_all(engine)
    engine.dispose()
    migrated, wanted = described(empty_template), described(made)
    assert set(migrated) == set(wanted)
    for name in wanted:
        assert migrated[name] == wanted[name], name


def test_alembic_finds_no_difference(empty_template: Path) -> None:
    from alembic.autogenerate import compare_metadata
    from alembic.runtime.migration import MigrationContext

    engine = create_engine(f"sqlite:///{empty_template}")
    with engine.connect() as connection:
        options = {"include_object": lambda _made, name, *_: not name.startswith("find_words")}
        context = MigrationContext.configure(connection, opts=options)
        assert compare_metadata(context, metadata) == []
    engine.dispose()


def test_head_is_the_newest_migration(empty_template: Path) -> None:
    from alembic.config import Config
    from alembic.script import ScriptDirectory

    config = Config()
    config.set_main_option("script_location", str(schema.migrations_folder()))
    scripts = ScriptDirectory.from_config(config)
    assert scripts.get_heads() == [schema.HEAD]
    assert {script.revision for script in scripts.walk_revisions()} == set(schema.known_revisions())
    assert schema.revision_of(empty_template) == schema.HEAD


def test_every_journaled_table_has_a_whole_shadow(empty_template: Path) -> None:
    tables = described(empty_template)
    for table in journaled(metadata):
        wanted = {"change_id"} | {f"{side}_{column.name}" for side in "ba" for column in table.columns}
        assert set(tables[shadow_name(table.name)]["columns"]) == wanted  # type: ignore[call-overload]
        assert tables[table.name]["autoincrement"], table.name


def test_every_constraint_has_a_name(empty_template: Path) -> None:
    """A batch migration can only keep what it can name."""
    raw = sqlite3.connect(empty_template)
    for name, sql in raw.execute("SELECT name, sql FROM sqlite_master WHERE type = 'table'").fetchall():
        if name.startswith("sqlite_") or name == "alembic_version":
            continue
        words = sql.upper()
        assert words.count("FOREIGN KEY") == words.count("CONSTRAINT FK_"), name
        assert words.count("CHECK") == words.count("CONSTRAINT CK_"), name
    raw.close()


def test_every_reference_has_an_index(empty_template: Path) -> None:
    """Else each removal would read whole tables to find what hangs on the row."""
    for name, table in described(empty_template).items():
        indexes = [columns for _unique, columns in table["indexes"].values()]  # type: ignore[attr-defined]
        keys = {column for column, about in table["columns"].items() if about[3] == 1}  # type: ignore[attr-defined]
        first = {columns[0] for columns in indexes} | keys
        for target, column, *_ in table["foreign keys"]:  # type: ignore[attr-defined]
            assert column in first, f"{name}.{column} → {target}"


# Upgrades, each with a migration written for the test


@pytest.fixture
def next_migration(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Gives the program one migration more, with ``body`` as its ``upgrade``."""

    def write(body: str) -> None:
        folder = tmp_path / "migrations"
        shutil.copytree(schema.migrations_folder(), folder)
        lines = "\n".join(f"    {line}" for line in body.splitlines())
        (folder / "versions" / f"{NEXT}_next.py").write_text(
            "import sqlalchemy as sa\nfrom alembic import op\n"
            "from rebuild.store.migrating import add_journaled_column, seal_history\n"
            f"revision = {NEXT!r}\ndown_revision = {schema.HEAD!r}\nbranch_labels = depends_on = None\n"
            f"def upgrade():\n{lines}\n"
        )
        monkeypatch.setattr(schema, "migrations_folder", lambda: folder)
        monkeypatch.setattr(schema, "HEAD", NEXT)

    return write


def closed(shop: Shop) -> Path:
    measure.record_reading(shop.store, "59.98; 59.97", measure.Entry(shop.journal, shop.near))
    measure.record_reading(shop.store, "59.96", measure.Entry(shop.journal, shop.far))
    shop.store.close()
    return shop.path


Read = Callable[[Path], "Contents"]
REBUILD_PARENTS = """
for table in ("machine", "part", "feature"):
    with op.batch_alter_table(table, recreate="always") as batch:
        batch.alter_column("note" if table != "machine" else "story", existing_type=sa.String(), nullable=False)
seal_history()
"""


def test_rebuilding_parent_tables_keeps_their_children(
    shop: Shop, next_migration: Callable[[str], None], contents: Read
) -> None:
    """Pitfall 2: with foreign keys on, dropping the old parent would cascade into every reading."""
    path = closed(shop)
    before = contents(path)
    next_migration(REBUILD_PARENTS)
    kept = schema.upgrade(path)
    assert contents(path) == before
    assert len(before["reading"]) == 2
    assert schema.revision_of(path) == NEXT
    assert kept is not None
    assert contents(kept) == before
    raw = sqlite3.connect(path)
    assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
    raw.close()


def test_after_an_upgrade_acts_are_journaled_and_undone(
    shop: Shop, next_migration: Callable[[str], None]
) -> None:
    """Pitfall 16: a batch migration drops triggers; ours are made again at each open."""
    path = closed(shop)
    next_migration(REBUILD_PARENTS)
    again = Store.open(path)
    assert again.upgraded_from is not None
    assert "before schema" in again.upgraded_from.name
    assert again.undo_label() is None
    taken = measure.record_reading(again, "59.95", measure.Entry(shop.journal, shop.far))
    assert again.undo() == "reading 59.95 mm on HS-01 spindle, front journal, far, as found"
    with again.read() as connection:
        assert (
            connection.exec_driver_sql(f"SELECT COUNT(*) FROM reading WHERE id = {taken.reading_id}").scalar()
            == 0
        )
    again.close()


def test_a_column_added_to_a_journaled_table_goes_into_its_shadow(
    shop: Shop, next_migration: Callable[[str], None]
) -> None:
    path = closed(shop)
    next_migration(
        'add_journaled_column("place", sa.Column("key_at", sa.String(), server_default="", nullable=False))'
    )
    schema.upgrade(path)
    tables = described(path)
    assert "key_at" in tables["place"]["columns"]  # type: ignore[operator]
    assert {"b_key_at", "a_key_at"} <= set(tables["j_place"]["columns"])  # type: ignore[call-overload]


@pytest.mark.usefixtures("own_reports")
@pytest.mark.parametrize(
    ("body", "said"),
    [
        (
            'op.execute("CREATE TABLE half (id INTEGER)")\nop.execute("INSERT INTO nowhere VALUES (1)")',
            "could not be brought up to date: a fault of the program. The file is as it was",
        ),
        ('op.execute("DELETE FROM reading")', "would lose 2 rows of reading"),
        ('op.execute("DELETE FROM feature WHERE id = 1")', "without its feature"),
    ],
    ids=["fails halfway", "loses rows", "leaves orphans"],
)
def test_an_upgrade_that_goes_wrong_leaves_the_file_as_it_was(
    shop: Shop, next_migration: Callable[[str], None], contents: Read, body: str, said: str
) -> None:
    """Pitfall 3: what was done before the failure is taken back, tables and all."""
    path = closed(shop)
    before, tables = contents(path), described(path)
    old_head = schema.HEAD
    next_migration(body)
    with pytest.raises(FileTrouble, match=said):
        Store.open(path)
    assert ("no such table: nowhere" in kept_report()) == ("fault of the program" in said)
    assert contents(path) == before
    assert described(path) == tables
    assert schema.revision_of(path) == old_head


def test_a_newer_file_is_refused_and_not_touched(shop: Shop) -> None:
    path = closed(shop)
    raw = sqlite3.connect(path)
    raw.execute("UPDATE alembic_version SET version_num = '9999'")
    raw.commit()
    raw.close()
    before = path.read_bytes()
    with pytest.raises(FileTrouble, match=r"made by a newer Rebuild \(schema 9999.*Install the newer"):
        Store.open(path)
    assert path.read_bytes() == before
    assert list(path.parent.glob("*backup*")) == []


def test_a_file_without_a_revision_is_refused(project: Path) -> None:
    raw = sqlite3.connect(project)
    raw.execute("DELETE FROM alembic_version")
    raw.commit()
    raw.close()
    with pytest.raises(FileTrouble, match="no schema revision"):
        Store.open(project)


def test_an_up_to_date_file_is_neither_backed_up_nor_slowed(project: Path) -> None:
    store = Store.open(project)
    assert store.upgraded_from is None
    store.close()
    assert [path.name for path in project.parent.iterdir()] == [project.name]
