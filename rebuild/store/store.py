"""The one door to a project file: acts write through it, lookups read through it."""

from __future__ import annotations

import os
import secrets
import sqlite3
from collections.abc import Callable, Generator, Iterator
from contextlib import AbstractContextManager, closing, contextmanager
from pathlib import Path
from threading import get_ident
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, exc

from rebuild.errors import FileElsewhere, FileTrouble, Stale
from rebuild.model.tables.every import whole
from rebuild.store import (
    entry,
    foreign_log,
    next_undo as undoing,
    schema,
    settings_and_kept as aside,
    under_way,
)
from rebuild.store.act import Act
from rebuild.store.beside import Tell, sweep, unheard
from rebuild.store.breaches import name_breaches
from rebuild.store.building import unhurried_disk
from rebuild.store.changed import NO_ROWS, Changed
from rebuild.store.connect import read_only, reader_engine
from rebuild.store.find.index import behind, follow, make_anew
from rebuild.store.held import Held
from rebuild.store.identity import hold, identity, let_go
from rebuild.store.journaling import journaled
from rebuild.store.next_undo import label
from rebuild.store.on_disk import OnDisk
from rebuild.store.photos import photo_folder
from rebuild.store.read_only_place import is_writable
from rebuild.store.recognise import recognise
from rebuild.store.set_aside import set_aside
from rebuild.store.sqlite_words import explain, explained
from rebuild.store.tx import Tx
from rebuild.store.unreadable import BadCell, cannot_act, gone, unreadable
from rebuild.store.watch import Watch

if TYPE_CHECKING:
    from rebuild.store.photo_copies import Kept

__all__ = ["Observer", "Store", "Tx", "label", "make_ready"]

Observer = Callable[[Changed], None]

#: SQLite asks after so many steps of its machine whether to go on with a long look.
_STEPS = 200_000


class Store:
    """An open project file. Writes happen only inside ``act``; observers hear after the commit."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.upgraded_from: Path | None = None
        self.log_set_aside: Path | None = None
        self._observers: list[Observer] = []
        self._acting = False
        self._together: int | None = None  # the thread whose readings share one connection now
        self._shared: Connection | None = None
        self._window = f"{os.getpid()}-{secrets.token_hex(3)}"
        opened = identity(path)
        self._held = opened
        if opened is not None:
            hold(opened)
        self._writer: Engine = journaled(path)
        name_breaches(self._writer)
        under_way.hear_of_parts(self._writer)
        self.unreadable: tuple[BadCell, ...] = ()
        self.looked_over = False  #: whether cells that cannot be read were looked for
        self._reader: Engine = reader_engine(path, lambda raw: set_aside(raw, self.unreadable))
        self._watch: Watch | None = None
        self._disk: OnDisk | None = None
        try:
            self._watch = Watch(self._reader)
            self._disk = OnDisk(path, opened, self._writer)
        except (exc.DBAPIError, sqlite3.Error, FileElsewhere) as trouble:
            self.close()
            raise trouble if isinstance(trouble, FileElsewhere) else explain(trouble, path) from trouble

    @classmethod
    def create(cls, path: Path) -> Store:
        """Make a new project file and open it. Raises FileTrouble."""
        schema.create(path)
        return cls(path)

    @classmethod
    def open(cls, path: Path, *, looked_over: bool = True) -> Store:
        """Open a project file, upgrading an older one after a verified backup. Raises FileTrouble.

        Cells that cannot be read are looked for at once, unless the caller does it a little later
        (``look_over``) because somebody waits for the window.
        """
        recognise(path)
        if not is_writable(path):
            raise FileTrouble(
                "the file or its folder may not be written.",
                where=path.name,
                way_out="Copy it to a folder of your own, or change its permissions.",
            )
        sweep(path)
        log_aside = foreign_log.set_aside(path)
        seen: list[tuple[BadCell, ...]] = []

        def look(raw: sqlite3.Connection) -> None:
            with explained(path):
                seen.append(_bad_cells_in(raw))

        kept = schema.upgrade(path, look) if looked_over else schema.upgrade(path)
        store = cls(path)
        store.upgraded_from = kept
        store.log_set_aside = log_aside
        if looked_over:
            store.go_round(seen[0] if seen else store.bad_cells())
        return store

    def look_over(self) -> tuple[BadCell, ...]:
        """Look for cells that cannot be read; from then on reading goes round them. Raises FileTrouble."""
        found = self.bad_cells()
        self.go_round(found)
        return found

    def bad_cells(self, broken_off: Callable[[], bool] | None = None) -> tuple[BadCell, ...]:
        """The cells that cannot be read, through a connection of its own: on any thread, beside anything else.

        ``broken_off`` is asked some hundred times a second; once it says so, nothing was found. Raises FileTrouble.
        """
        with explained(self.path), closing(read_only(self.path)) as raw:
            if broken_off is not None:
                raw.set_progress_handler(broken_off, _STEPS)
            try:
                return _bad_cells_in(raw)
            except sqlite3.OperationalError:
                if broken_off is not None and broken_off():
                    return ()
                raise

    def go_round(self, found: tuple[BadCell, ...]) -> None:
        """From now on reading goes round these cells; observers hear what is gone."""
        self.looked_over = True
        if found or self.unreadable:
            self.unreadable = found
            self._reader.dispose()
            if self._shared is not None:  # it reads round the cells found before
                self._shared.close()
                self._shared = None
            self._tell(Changed("unreadable cells", dict.fromkeys(whole().tables, NO_ROWS) | gone(found)))

    def close(self) -> None:
        """Close every connection; the file is then one file again, also while another window has it open."""
        if self._shared is not None:
            self._shared.close()
            self._shared = None
        disk, self._disk = self._disk, None
        if disk is not None:
            disk.before_closing()
        if self._watch is not None:
            self._watch.close()
            self._watch = None
        self._reader.dispose()
        self._writer.dispose()
        held, self._held = self._held, None
        if held is not None:
            let_go(held)
        if disk is not None:
            disk.after_closing()

    def save_under(self, target: Path, tell: Tell = unheard) -> Kept:
        """Save all that is held under another name with its photos, also when the file is no longer at its path.

        Raises:
            FileTrouble: it cannot be written, does not verify, or was stopped; then none is left behind.
        """
        from rebuild.store.photo_copies import copy_with_photos

        went = Path(self.lost.went_to) if self.lost is not None and self.lost.went_to else self.path
        photos_of = went if photo_folder(went).is_dir() else self.path
        return copy_with_photos(self._followed().lend(), photos_of, target, tell=tell)

    def make_whole(self) -> bool:
        """Move the log into the file, so that a copy of the one file holds everything stored so far.

        Done when nobody has typed for a moment, when the window loses the focus, and at the end. False when it
        must wait: another window is reading, or the file was overwritten.
        """
        return not self._acting and self._disk is not None and self._disk.make_whole()

    @property
    def lost(self) -> FileElsewhere | None:
        """Why nothing can be stored now: the file is not at its path; None while it is."""
        return None if self._disk is None else self._disk.lost

    @property
    def held(self) -> list[Held]:
        """Entries held in memory until there is a file again to keep them in."""
        return [] if self._disk is None else list(self._disk.held)

    # Reading

    @contextmanager
    def read(self) -> Iterator[Connection]:
        """A short reading connection: one consistent view of the file."""
        with explained(self.path):
            if self._together == get_ident():
                if self._shared is None:
                    self._shared = self._reader.connect()
                yield self._shared
            else:
                with self._reader.connect() as connection:
                    yield connection

    @contextmanager
    def together(self) -> Iterator[None]:
        """Readings of this thread within share one connection, and so one view; an act renews it."""
        if self._together is not None:
            yield
            return
        self._together = get_ident()
        try:
            yield
        finally:
            self._together = None
            if self._shared is not None:
                self._shared.close()
                self._shared = None

    def _look_anew(self) -> None:
        """What was just stored is seen by readings that share a connection."""
        if self._shared is not None:
            self._shared.rollback()

    def built_whole(self) -> AbstractContextManager[None]:
        """Build a file that is nobody's yet without waiting for the disk at every act (``unhurried_disk``)."""
        return unhurried_disk(self._writer)

    def follow_words(self, *, anew: bool = False) -> bool:
        """Bring the index of words up to the journal, so that a search finds what is stored; True when it was behind.

        It is derived from the rows, so it is no act, and a damaged one is made ``anew``. While the file is elsewhere
        it stays as it is. Raises FileTrouble.
        """
        with self.read() as connection:
            if not anew and behind(entry.driver(connection)) == 0:
                return False
        bring = make_anew if anew else follow
        with explained(self.path):
            try:
                self._on_disk().beside_the_journal(lambda connection: bring(entry.driver(connection)))
            except FileElsewhere as lost:
                self._on_disk().note_lost(lost)
                return False
            except sqlite3.DatabaseError:
                self._on_disk().beside_the_journal(lambda connection: make_anew(entry.driver(connection)))
        self._look_anew()
        return True

    # Writing

    def journal(self) -> None:
        """Get the writer ready to journal every table; else each is when first written to. Raises FileTrouble."""
        with explained(self.path):
            self._on_disk().journal()

    @contextmanager
    def act(self, kind: Act, subject: str = "") -> Iterator[Tx]:
        """One user act: one transaction, one journal entry, durable when the block ends.

        An act that changes nothing leaves no trace. Acts do not nest.

        Raises:
            FileTrouble: the file cannot be written now; nothing of the act was stored.
            NotThere: the act refers to a record that is gone; nothing of the act was stored.
            BadEntry: a field is empty that must not be, or what must be there once is there already.
            Bug: a fault of the program's own; nothing of the act was stored.
        """
        with self._transaction(kind, subject, reverses=None) as tx:
            yield tx

    @contextmanager
    def _transaction(self, kind: Act, subject: str, reverses: int | None) -> Iterator[Tx]:
        if self._acting:
            raise RuntimeError("acts do not nest")
        _map_every_record()
        self._acting = True
        try:
            with explained(self.path), cannot_act(self.unreadable):
                told = yield from self._run(kind, subject, reverses)
        except FileElsewhere as lost:
            self._acting = False
            self._on_disk().note_lost(lost)
            raise
        finally:
            self._acting = False
            self._look_anew()
        self._on_disk().shorten_log()
        for changed in told:
            self._tell(changed)

    def _run(
        self, kind: Act, subject: str, reverses: int | None
    ) -> Generator[Tx, None, tuple[Changed, Changed]]:
        """One transaction on the writer; returns others' news and this act's own, to be told after it."""
        from sqlalchemy.orm import Session

        act = under_way.UnderWay(None if self.unreadable else self._reader)
        with self._writer.connect() as connection, connection.begin() as transaction:
            under_way.begin(connection, act)
            raw = entry.driver(connection)
            with self._on_disk().writing(raw):
                act_id = entry.begin(raw, kind.name, subject, self._window, reverses)
                session = Session(connection, expire_on_commit=False, autoflush=True)
                tx = Tx(session, connection, subject)
                try:
                    yield tx
                    session.flush()
                finally:
                    session.close()
                own, elsewhere, newest = self._followed().since_seen(raw, act_id)
                entry.end(raw, act_id, tx.subject, new=reverses is None)
            if not own and reverses is None:
                transaction.rollback()
                self._on_disk().ended(stored=False)
                return Changed(), Changed()
        self._on_disk().ended(stored=True)
        act.stored()
        self._followed().have_seen(newest)
        return elsewhere, Changed(label(kind.name, tx.subject), own)

    # Undo

    def undo_label(self) -> str | None:
        """What ``undo`` would take back, in words, or None."""
        return self._words(undo=True)

    def redo_label(self) -> str | None:
        """What ``redo`` would do again, in words, or None."""
        return self._words(undo=False)

    def undo(self, tell: Tell = unheard) -> str | None:
        """Take back the newest act still standing; returns its words, or None.

        ``tell`` hears how far it is, on this thread, and may stop it. Raises Stale, Stopped: nothing was changed.
        """
        return self._replay(undo=True, tell=tell)

    def redo(self, tell: Tell = unheard) -> str | None:
        """Do again what was taken back last; returns its words, or None. Raises as ``undo``."""
        return self._replay(undo=False, tell=tell)

    def rows_touched(self, *, undo: bool) -> dict[str, int]:
        """How many rows of each table ``undo`` (or ``redo``) would touch, most first."""
        with self.read() as connection:
            step = undoing.next_step(connection, undo=undo)
            return undoing.rows_by_table(connection, step.act_id) if step is not None else {}

    def _words(self, *, undo: bool) -> str | None:
        with self.read() as connection:
            step = undoing.next_step(connection, undo=undo)
        return None if step is None else step.words

    def _replay(self, *, undo: bool, tell: Tell) -> str | None:
        with self.read() as connection:
            step = undoing.next_step(connection, undo=undo)
        if step is None:
            return None
        with self._transaction(Act.UNDO if undo else Act.REDO, step.words, reverses=step.act_id) as tx:
            if undoing.next_step(tx.connection, undo=undo) != step:
                raise Stale(
                    "Another window has done something in this very moment.",
                    way_out="Look at what changed, then choose undo or redo again.",
                )
            from rebuild.store.take_back import replay

            replay(tx.connection, whole(), step.act_id, undo=undo, tell=tell)
            entry.mark(entry.driver(tx.connection), step.act_id, undone=undo)
        if step.kind == Act.SET_CELL_RIGHT.name:
            self.look_over()
        return step.words

    # Observing

    def observe(self, observer: Observer) -> Callable[[], None]:
        """Call ``observer`` after each commit; returns what stops it."""
        self._observers.append(observer)
        return lambda: self._observers.remove(observer)

    def poll(self) -> None:
        """Look whether another window or process has written; if so, tell the observers.

        Raises:
            FileElsewhere: the path no longer leads to the open file (said again at each look).
        """
        if self._acting:
            return
        with explained(self.path):
            self._on_disk().refuse_if_elsewhere()
            kept = self._on_disk().keep_held(_keep)
            news = self._followed().news()
        if kept:
            self._tell_kept()
        self._tell(news)
        if news and self.unreadable:
            self.look_over()

    @property
    def told_to(self) -> int:
        """The newest change the observers were told of."""
        return self._followed().seen

    def tell_from(self, change_id: int) -> None:
        """Tell the observers what was written after a change: they showed the file as it was then."""
        with explained(self.path):
            self._followed().look_from(change_id)
            news = self._followed().news()
        self._tell(news)

    def _on_disk(self) -> OnDisk:
        if self._disk is None:
            raise RuntimeError("the file is closed")
        return self._disk

    def _followed(self) -> Watch:
        if self._watch is None:
            raise RuntimeError("the file is closed")
        return self._watch

    def _tell(self, changed: Changed) -> None:
        if changed:
            for observer in list(self._observers):
                observer(changed)

    # Settings and kept entries: they belong to the file and are never undone

    def setting(self, key: str, default: str = "") -> str:
        """A setting of this file."""
        with explained(self.path):
            return self._followed().settings().get(key, default)

    def set_setting(self, key: str, value: str) -> None:
        """Store a setting of this file; observers hear of the table ``setting``. Raises FileTrouble."""
        with explained(self.path):
            self._on_disk().beside_the_journal(lambda connection: aside.put_setting(connection, key, value))
        self._followed().have_set(key, value)
        self._look_anew()
        self._tell(Changed(f"setting {key}", {"setting": NO_ROWS}))

    def keep_entry(self, meant_for: str, typed: str, why: str) -> None:
        """Keep what was typed but could not be stored where it was meant; observers hear.

        While the file is not at its path it is held in memory and kept as soon as there is a file again.
        Raises FileTrouble.
        """
        with explained(self.path):
            kept = self._on_disk().keep_or_hold(Held(meant_for, typed, why), _keep)
        if kept:
            self._tell_kept()

    def settle_kept(self, kept_id: int) -> None:
        """Mark a kept entry as dealt with; observers hear. Raises FileTrouble."""
        with explained(self.path):
            self._on_disk().beside_the_journal(lambda connection: aside.settle(connection, kept_id))
        self._tell_kept()

    def _tell_kept(self) -> None:
        self._look_anew()
        self._tell(Changed("kept entries", {"kept_entry": NO_ROWS}))


def _bad_cells_in(raw: sqlite3.Connection) -> tuple[BadCell, ...]:
    raw.execute("BEGIN")  # one consistent view of the file
    return tuple(unreadable(raw))


def _keep(connection: Connection, one: Held) -> None:
    aside.keep(connection, one.meant_for, one.typed, one.why)


def make_ready() -> Iterator[None]:
    """Load what the first act needs and the first page did not, in short steps while nobody waits."""
    from sqlalchemy.orm import configure_mappers

    yield
    from rebuild.model.records.every import piecemeal

    yield from piecemeal()
    configure_mappers()
    yield


def _map_every_record() -> None:
    """Before an act: a flush sorts tables by their references, so all must be known."""
    from rebuild.model.records.every import every_record

    every_record()
