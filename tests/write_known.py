"""Write down what each schema version must hold: ``python -m tests.write_known`` after a new migration."""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from sqlalchemy import URL, create_engine

from rebuild.store.schema import known_revisions, migrations_folder
from rebuild.store.strangers import schema_lines, whole_line

FOLDER = Path(__file__).parent.parent / "rebuild" / "store" / "known"


def made_by(revision: str, path: Path) -> frozenset[str]:
    """The schema the migrations up to ``revision`` make in a new file."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(migrations_folder()).replace("%", "%%"))
    engine = create_engine(URL.create("sqlite", database=str(path)))
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, revision)
    engine.dispose()
    with closing(sqlite3.connect(path)) as raw:
        return schema_lines(raw) | {whole_line(raw)}


def main() -> int:
    """Write one file a revision."""
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        for revision in known_revisions():
            lines = sorted(made_by(revision, Path(folder) / f"{revision}.rebuild"))
            (FOLDER / f"{revision}.txt").write_text("\n".join(lines) + "\n", encoding="utf-8")
            print(f"{revision}: {len(lines)} objects")
    return 0


if __name__ == "__main__":
    sys.exit(main())
