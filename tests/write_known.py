"""Write down what each schema version must hold: ``python -m tests.write_known`` after a new migration."""

from __future__ import annotations

import re
import sqlite3
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from sqlalchemy import URL, create_engine

from rebuild.store.schema import HEAD, known_revisions, made_by_script, migrations_folder
from rebuild.store.strangers import schema_lines, whole_line

FOLDER = Path(__file__).parent.parent / "rebuild" / "store" / "known"


def made_by_each(path: Path) -> Iterator[tuple[str, frozenset[str]]]:
    """Every revision with the schema the migrations up to it make in a new file, one after the other in ``path``."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(migrations_folder()).replace("%", "%%"))
    engine = create_engine(URL.create("sqlite", database=str(path)))
    for revision in known_revisions():
        with engine.begin() as connection:
            config.attributes["connection"] = connection
            command.upgrade(config, revision)
        with closing(sqlite3.connect(path)) as raw:
            yield revision, schema_lines(raw) | {whole_line(raw)}
    engine.dispose()


def script_of(path: Path) -> str:
    """The statements that make a new file with all that one holds: its tables in their order, then its rows."""
    with closing(sqlite3.connect(path)) as raw:
        made = [(name, sql) for name, sql in raw.execute(_MADE) if not _OF_AN_INDEX_OF_WORDS.match(name)]
        lines = [sql for _name, sql in made]
        for name in (*(name for name, _sql in made), "sqlite_sequence"):
            if (columns := raw.execute(f'PRAGMA table_info("{name}")').fetchall()) and name not in _INDEXES:
                quoted = " || ', ' || ".join(f'quote("{column[1]}")' for column in columns)
                rows = raw.execute(f'SELECT {quoted} FROM "{name}" ORDER BY rowid').fetchall()
                lines += [f'INSERT INTO "{name}" VALUES ({values})' for (values,) in rows]
    return "".join(f"{line};\n" for line in ("BEGIN IMMEDIATE", *lines, "COMMIT"))


_INDEXES = ("find_words",)
#: SQLite makes these tables with the index.
_OF_AN_INDEX_OF_WORDS = re.compile("find_words_.*")
_MADE = (
    "SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite!_%' ESCAPE '!' "
    "ORDER BY rowid"
)


def main() -> int:
    """Write one file a revision, and the statements that make the newest."""
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        made = Path(folder) / "made.rebuild"
        for revision, lines_made in made_by_each(made):
            lines = sorted(lines_made)
            (FOLDER / f"{revision}.txt").write_text("\n".join(lines) + "\n", encoding="utf-8")
            print(f"{revision}: {len(lines)} objects")
        for script in FOLDER.glob("*.sql"):
            script.unlink()
        made_by_script(HEAD).write_text(script_of(made), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
