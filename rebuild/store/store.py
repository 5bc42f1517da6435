"""The one door to a project file: acts write through it, lookups read through it."""

from __future__ import annotations

import datetime as dt
import os
import secrets
from collections.abc import Callable, Generator, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from sqlalchemy import Connection, Engine, exc, text
from sqlalchemy.orm import Session

from rebuild.errors import FileTrouble, NotThere
from rebuild.model.all import metadata
from rebuild.store import schema
from rebuild.store.act import Act
from rebuild.store.changed import Changed, net
from rebuild.store.connect import reader_engine, writer_engine
from rebuild.store.recognise import recognise
from rebuild.store.replay import replay
from rebuild.store.triggers import install
from rebuild.store.trouble import explain

R = TypeVar("R")
Observer = Callable[[Changed], None]

_LAST_DONE = (
    "SELECT id, kind, subject, sealed FROM act WHERE reverses IS NULL AND NOT undone ORDER BY id DESC LIMIT 1"
)
_NEXT_UNDONE = (
    "SELECT id, kind, subject FROM act WHERE reverses IS NULL AND undone AND NOT sealed AND id > "
    "COALESCE((SELECT MAX(id) FROM act WHERE reverses IS NULL AND NOT undone), 0) ORDER BY id LIMIT 1"
)


@dataclass(slots=True)
class Tx:
    """One act under way: a short session, and the words the journal will carry."""

    session: Session
    connection: Connection
    subject: str

    def get(self, record: type[R], key: int, called: str = "record") -> R:
        """The mapped record of one id.

        Raises:
            NotThere: it was removed meanwhile.
        """
        found = self.session.get(record, key)
        if found is None:
            raise NotThere(
                f"The {called} no. {key} is no longer there.",
                way_out="It may have been removed in another window.",
            )
        return found


class Store:
    """An open project file. Writes happen only inside ``act``; observers hear after the commit."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.upgraded_from: Path | None = None
        self._observers: list[Observer] = []
        self._acting = False
        self._window = f"{os.getpid()}-{secrets.token_hex(3)}"
        self._writer: Engine = writer_engine(path)
        self._reader: Engine = reader_engine(path)
        try:
            install(self._writer, metadata)
            self._watch = self._reader.raw_connection()
        except exc.DBAPIError as trouble:
            self.close()
            raise explain(trouble, path) from trouble
        self._data_version = self._read_data_version()
        self._seen = self._newest_change()

    @classmethod
    def create(cls, path: Path) -> Store:
        """Make a new project file and open it. Raises FileTrouble."""
        schema.create(path)
        return cls(path)

    @classmethod
    def open(cls, path: Path) -> Store:
        """Open a project file, upgrading an older one after a verified backup. Raises FileTrouble."""
        recognise(path)
        if not os.access(path, os.W_OK) or not os.access(path.parent, os.W_OK):
            raise FileTrouble(
                "the file or its folder may not be written.",
                where=path.name,
                way_out="Copy it to a folder of your own, or change its permissions.",
            )
        kept = schema.upgrade(path)
        store = cls(path)
        store.upgraded_from = kept
        return store

    def close(self) -> None:
        """Close every connection; the file is then one file again."""
        if hasattr(self, "_watch"):
            self._watch.close()
        self._reader.dispose()
        self._writer.dispose()

    # Reading

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A short reading connection: one consistent view of the file."""
        try:
            with self._reader.connect() as connection:
                yield connection
        except exc.DBAPIError as trouble:
            raise explain(trouble, self.path) from trouble

    # Writing

    @contextmanager
    def act(self, kind: Act, subject: str = "") -> Iterator[Tx]:
        """One user act: one transaction, one journal entry, durable when the block ends.

        An act that changes nothing leaves no trace. Acts do not nest.

        Raises:
            FileTrouble: the file cannot be written now; nothing of the act was stored.
        """
        with self._transaction(kind, subject, reverses=None) as tx:
            yield tx

    @contextmanager
    def _transaction(self, kind: Act, subject: str, reverses: int | None) -> Iterator[Tx]:
        if self._acting:
            raise RuntimeError("acts do not nest")
        self._acting = True
        try:
            changed = yield from self._run(kind, subject, reverses)
        except exc.IntegrityError:
            raise
        except exc.DBAPIError as trouble:
            raise explain(trouble, self.path) from trouble
        finally:
            self._acting = False
        if changed:
            self._tell(changed)

    def _run(self, kind: Act, subject: str, reverses: int | None) -> Generator[Tx, None, Changed]:
        with self._writer.connect() as connection, connection.begin() as transaction:
            act_id = self._begin_act(connection, kind, subject, reverses)
            session = Session(connection, expire_on_commit=False, autoflush=True)
            tx = Tx(session, connection, subject)
            try:
                yield tx
                session.flush()
            finally:
                session.close()
            changes = connection.execute(
                text("SELECT tbl, row_id, op FROM change WHERE act_id = :act ORDER BY id"), {"act": act_id}
            ).all()
            if not changes:
                transaction.rollback()
                return Changed()
            if tx.subject != subject:
                connection.execute(
                    text("UPDATE act SET subject = :subject WHERE id = :act"),
                    {"subject": tx.subject, "act": act_id},
                )
            connection.exec_driver_sql("DELETE FROM current_act")
            elsewhere = self._elsewhere(connection, act_id)
        if elsewhere:
            self._tell(elsewhere)
        return Changed(label(kind.name, tx.subject), net((row[0], row[1], row[2]) for row in changes))

    def _begin_act(self, connection: Connection, kind: Act, subject: str, reverses: int | None) -> int:
        act_id = connection.execute(
            text(
                "INSERT INTO act (kind, subject, at, window, reverses, undone, sealed) "
                "VALUES (:kind, :subject, :at, :window, :reverses, 0, 0) RETURNING id"
            ),
            {
                "kind": kind.name,
                "subject": subject,
                "at": dt.datetime.now().isoformat(timespec="seconds"),  # noqa: DTZ005 - wall clock
                "window": self._window,
                "reverses": reverses,
            },
        ).scalar_one()
        connection.exec_driver_sql("DELETE FROM current_act")
        connection.execute(text("INSERT INTO current_act (id) VALUES (:act)"), {"act": act_id})
        return int(act_id)

    # Undo

    def undo_label(self) -> str | None:
        """What ``undo`` would take back, in words, or None."""
        with self.read() as connection:
            row = connection.exec_driver_sql(_LAST_DONE).first()
        return None if row is None or row.sealed else label(row.kind, row.subject)

    def redo_label(self) -> str | None:
        """What ``redo`` would do again, in words, or None."""
        with self.read() as connection:
            row = connection.exec_driver_sql(_NEXT_UNDONE).first()
        return None if row is None else label(row.kind, row.subject)

    def undo(self) -> str | None:
        """Take back the newest act still standing; returns its words, or None. Raises Stale."""
        return self._replay(_LAST_DONE, undo=True)

    def redo(self) -> str | None:
        """Do again what was taken back last; returns its words, or None. Raises Stale."""
        return self._replay(_NEXT_UNDONE, undo=False)

    def _replay(self, which: str, *, undo: bool) -> str | None:
        with self.read() as connection:
            row = connection.exec_driver_sql(which).first()
        if row is None or (undo and row.sealed):
            return None
        words = label(row.kind, row.subject)
        with self._transaction(Act.UNDO if undo else Act.REDO, words, reverses=row.id) as tx:
            now = tx.connection.exec_driver_sql(which).first()
            if now is None or now.id != row.id:
                return None
            replay(tx.connection, metadata, row.id, undo=undo)
            tx.connection.execute(
                text("UPDATE act SET undone = :undone WHERE id = :act"), {"undone": undo, "act": row.id}
            )
        return words

    # Observing

    def observe(self, observer: Observer) -> Callable[[], None]:
        """Call ``observer`` after each commit; returns what stops it."""
        self._observers.append(observer)
        return lambda: self._observers.remove(observer)

    def poll(self) -> None:
        """Look whether another window or process has written; if so, tell the observers."""
        if self._acting:
            return
        version = self._read_data_version()
        if version == self._data_version:
            return
        self._data_version = version
        with self.read() as connection:
            elsewhere = self._elsewhere(connection, None)
        if elsewhere:
            self._tell(elsewhere)

    def _elsewhere(self, connection: Connection, own_act: int | None) -> Changed | None:
        rows = connection.execute(
            text("SELECT id, tbl, row_id, op, act_id FROM change WHERE id > :seen ORDER BY id"),
            {"seen": self._seen},
        ).all()
        if rows:
            self._seen = rows[-1].id
        foreign = [(row.tbl, row.row_id, row.op) for row in rows if row.act_id != own_act]
        return Changed("another window", net(foreign), elsewhere=True) if foreign else None

    def _tell(self, changed: Changed) -> None:
        for observer in list(self._observers):
            observer(changed)

    def _read_data_version(self) -> int:
        cursor = self._watch.cursor()
        try:
            return int(cursor.execute("PRAGMA data_version").fetchone()[0])
        finally:
            cursor.close()

    def _newest_change(self) -> int:
        with self.read() as connection:
            return int(connection.exec_driver_sql("SELECT COALESCE(MAX(id), 0) FROM change").scalar_one())

    # Settings and kept entries: they belong to the file and are never undone

    def setting(self, key: str, default: str = "") -> str:
        """A setting of this file."""
        with self.read() as connection:
            value = connection.execute(
                text("SELECT value FROM setting WHERE key = :key"), {"key": key}
            ).scalar()
        return default if value is None else str(value)

    def set_setting(self, key: str, value: str) -> None:
        """Store a setting of this file. Raises FileTrouble."""
        self._write_outside_journal(
            "INSERT INTO setting (key, value) VALUES (:key, :value) "
            "ON CONFLICT (key) DO UPDATE SET value = excluded.value",
            {"key": key, "value": value},
        )

    def keep_entry(self, meant_for: str, typed: str, why: str) -> None:
        """Keep what was typed but could not be stored where it was meant."""
        at = dt.datetime.now().isoformat(timespec="seconds")  # noqa: DTZ005 - wall clock
        self._write_outside_journal(
            "INSERT INTO kept_entry (at, meant_for, typed, why, settled) "
            "VALUES (:at, :meant_for, :typed, :why, 0)",
            {"at": at, "meant_for": meant_for, "typed": typed, "why": why},
        )

    def settle_kept(self, kept_id: int) -> None:
        """Mark a kept entry as dealt with."""
        self._write_outside_journal("UPDATE kept_entry SET settled = 1 WHERE id = :id", {"id": kept_id})

    def _write_outside_journal(self, statement: str, values: dict[str, object]) -> None:
        try:
            with self._writer.begin() as connection:
                connection.execute(text(statement), values)
        except exc.DBAPIError as trouble:
            raise explain(trouble, self.path) from trouble


def label(kind: str, subject: str) -> str:
    """An act in words: ``reading 24.98 mm on spindle, front journal``."""
    noun = Act[kind].value if kind in Act.__members__ else kind
    return f"{noun} {subject}".strip()
