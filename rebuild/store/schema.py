"""Make a new file and bring an older one up to date, whole or not at all.

Foreign keys are off while a migration rebuilds tables (else ON DELETE CASCADE empties the children),
checked before the commit, and the rows of every table are counted before and after.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from rebuild.errors import Bug, FileDamaged, FileTrouble
from rebuild.fault_report import keep_report, report_of
from rebuild.store import connect
from rebuild.store.beside import written_beside
from rebuild.store.connect import read_only
from rebuild.store.recognise import APPLICATION_ID
from rebuild.store.sqlite_words import explained
from rebuild.store.strangers import refuse_strange, wary

if TYPE_CHECKING:
    from sqlalchemy import Connection

#: The newest schema revision this program knows; a test keeps it equal to the migrations' head.
HEAD = "0022"


def migrations_folder() -> Path:
    """The alembic environment: inside the wheel, or at the top of a checkout."""
    package = Path(__file__).resolve().parent.parent
    shipped = package / "_migrations"
    return shipped if shipped.is_dir() else package.parent / "migrations"


def made_by_script(revision: str) -> Path:
    """The statements that make what the migrations up to this revision make, in a thirtieth of the time."""
    return Path(__file__).parent / "known" / f"{revision}.sql"


def revision_of(path: Path) -> str:
    """The schema revision a project file is at.

    Raises:
        FileTrouble: damaged, or without a revision.
    """
    with _looked_at(path) as raw:
        return _revision(raw, path)


@contextmanager
def _looked_at(path: Path) -> Iterator[sqlite3.Connection]:
    with explained(path, at_head=False), closing(read_only(path)) as raw:
        raw.execute(f"PRAGMA busy_timeout = {connect.BUSY_MS}")
        yield raw


def _revision(raw: sqlite3.Connection, path: Path) -> str:
    row = raw.execute("SELECT version_num FROM alembic_version").fetchone()
    if row is None:
        raise FileDamaged("the file carries no schema revision.", where=path.name, way_out="Open a backup.")
    return str(row[0])


def known_revisions() -> tuple[str, ...]:
    """Every revision this program can read, oldest first (numbers in the migrations' file names)."""
    return tuple(
        sorted(path.name.split("_")[0] for path in (migrations_folder() / "versions").glob("[0-9]*_*.py"))
    )


def create(path: Path, revision: str = "head") -> None:
    """Make a new, empty project file at ``path``, of the newest schema unless an older is named.

    Raises:
        FileTrouble: a file is already there, or the folder may not be written.
    """
    if path.exists():
        raise FileTrouble(
            "a file of that name is already there.", where=path.name, way_out="Choose another name."
        )
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with written_beside(path) as part:
            part.touch(exist_ok=False)
            script = made_by_script(HEAD)
            if revision in ("head", HEAD) and script.is_file():
                _run_script(part, script)
            else:
                _migrate(part, counted=False, to=revision)
    except OSError as trouble:
        raise FileTrouble(
            f"cannot be made ({trouble.strerror}).",
            where=path.name,
            way_out="Choose a folder you may write to.",
        ) from trouble


def upgrade(path: Path, at_head: Callable[[sqlite3.Connection], None] = lambda raw: None) -> Path | None:
    """Bring the file to ``HEAD`` after a verified backup; returns the backup, or None when up to date.

    Of a file up to date ``at_head`` hears, with the connection it was looked at through: SQLite reads the file's long
    table of contents anew on each.

    Raises:
        FileTrouble: made by a newer program, or the migration failed (the file is then as it was).
    """
    with _looked_at(path) as raw:
        revision = _revision(raw, path)
        if revision not in known_revisions():
            raise FileTrouble(
                f"was made by a newer Rebuild (schema {revision}; this program knows up to {HEAD}).",
                where=path.name,
                way_out="Install the newer program; the file has not been touched.",
            )
        refuse_strange(raw, revision, path)
        if revision == HEAD:
            at_head(raw)
            return None
    from rebuild.store.backup import backup

    kept = backup(path, reason=f"before schema {HEAD}")
    try:
        _migrate(path, counted=True)
    except Bug as fault:
        kept.unlink(missing_ok=True)
        keep_report(report_of(fault))
        raise FileTrouble(
            "could not be brought up to date: a fault of the program.",
            where=path.name,
            way_out="The file is as it was; “rebuild --trouble” prints the report.",
        ) from fault
    except BaseException:
        kept.unlink(missing_ok=True)  # the file is as it was: the copy tells nothing more
        raise
    return kept


def upgrade_in_place(path: Path) -> None:
    """Bring a file nobody has been told of yet to ``HEAD``, without a backup. Raises FileTrouble."""
    if revision_of(path) != HEAD:
        _migrate(path, counted=True)


def _migrate(path: Path, *, counted: bool, to: str = "head") -> None:
    from sqlalchemy import URL, create_engine, event

    engine = create_engine(URL.create("sqlite", database=str(path)), connect_args={"isolation_level": None})
    event.listen(engine, "connect", lambda raw, _record: _prepare(raw))
    event.listen(engine, "begin", lambda connection: connection.exec_driver_sql("BEGIN IMMEDIATE"))
    try:
        with explained(path, at_head=False), engine.begin() as connection:
            before = _counts(connection) if counted else {}
            _run_alembic(connection, to)
            _refuse_lost_rows(connection, before, path)
            connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
    finally:
        engine.dispose()


def _run_script(path: Path, script: Path) -> None:
    """One transaction of plain statements; a test compares what they make with what the migrations make."""
    with explained(path, at_head=False), closing(sqlite3.connect(path, isolation_level=None)) as raw:
        _prepare(raw)
        raw.executescript(script.read_text(encoding="utf-8"))
        raw.execute(f"PRAGMA application_id = {APPLICATION_ID}")


def _prepare(raw: sqlite3.Connection) -> None:
    wary(raw)
    raw.execute("PRAGMA foreign_keys = OFF")


def _run_alembic(connection: Connection, to: str) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(migrations_folder()).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, to)


def _counts(connection: Connection) -> dict[str, int]:
    names = connection.exec_driver_sql(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' "
        "AND name <> 'alembic_version'"
    ).scalars()
    return {
        name: connection.exec_driver_sql(f'SELECT COUNT(*) FROM "{name}"').scalar_one()
        for name in list(names)
    }


def _refuse_lost_rows(connection: Connection, before: dict[str, int], path: Path) -> None:
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
    if broken is not None:
        raise FileTrouble(
            f"upgrading would leave {broken[0]} row {broken[1]} without its {broken[2]}.",
            where=path.name,
            way_out="The file is as it was; please report this.",
        )
    after = _counts(connection)
    for name, count in before.items():
        if name in after and after[name] < count:
            raise FileTrouble(
                f"upgrading would lose {count - after[name]} rows of {name}.",
                where=path.name,
                way_out="The file is as it was; please report this.",
            )
