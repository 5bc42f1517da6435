"""The one door to a project file: acts write through it, lookups read through it."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, exc

from rebuild.errors import FileElsewhere
from rebuild.model.tables.every import whole
from rebuild.store import look_over, schema, under_way, undo as undoing
from rebuild.store.act import Act
from rebuild.store.beside import Tell, unheard
from rebuild.store.beside_acts import BesideActs
from rebuild.store.breaches import name_breaches
from rebuild.store.building import unhurried_disk
from rebuild.store.changed import NO_ROWS, Changed
from rebuild.store.held import Held
from rebuild.store.identity import hold, identity, let_go
from rebuild.store.journaling import journaled
from rebuild.store.next_undo import label
from rebuild.store.observers import Observer, Observers
from rebuild.store.on_disk import OnDisk
from rebuild.store.opening import made_ready
from rebuild.store.photos import photo_folder
from rebuild.store.set_aside import set_aside
from rebuild.store.sqlite_words import explain, explained
from rebuild.store.transaction import Transactions
from rebuild.store.tx import Tx
from rebuild.store.unreadable import BadCell, gone
from rebuild.store.views import Views
from rebuild.store.watch import Watch

if TYPE_CHECKING:
    from rebuild.store.photo_copies import Kept

__all__ = ["Observer", "Store", "Tx", "label"]


class Store:
    """An open project file. Writes happen only inside ``act``; observers hear after the commit."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.upgraded_from: Path | None = None
        self.log_set_aside: Path | None = None
        opened = identity(path)
        self._held = opened
        if opened is not None:
            hold(opened)
        self._writer: Engine = journaled(path)
        name_breaches(self._writer)
        under_way.hear_of_parts(self._writer)
        self.unreadable: tuple[BadCell, ...] = ()
        self.looked_over = False  #: whether cells that cannot be read were looked for
        self._views = Views(path, lambda raw: set_aside(raw, self.unreadable))
        self._reader: Engine = self._views.engine
        self._observers = Observers()
        self._acts = Transactions(path, self._on_disk, self._followed, self._views, self._observers)
        self._beside = BesideActs(path, self._on_disk, self._followed, self._views, self._observers)
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
        ready = made_ready(path, looked_over=looked_over)
        store = cls(path)
        store.upgraded_from = ready.upgraded_from
        store.log_set_aside = ready.log_set_aside
        if looked_over:
            store.go_round(store.bad_cells() if ready.bad_cells is None else ready.bad_cells)
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
        return look_over.bad_cells(self.path, broken_off)

    def go_round(self, found: tuple[BadCell, ...]) -> None:
        """From now on reading goes round these cells; observers hear what is gone."""
        self.looked_over = True
        if found or self.unreadable:
            self.unreadable = found
            self._reader.dispose()
            self._views.part()  # it reads round the cells found before
            self._observers.tell(
                Changed("unreadable cells", dict.fromkeys(whole().tables, NO_ROWS) | gone(found))
            )

    def close(self) -> None:
        """Close every connection; the file is then one file again, also while another window has it open."""
        self._views.part()
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
        return not self._acts.acting and self._disk is not None and self._disk.make_whole()

    @property
    def lost(self) -> FileElsewhere | None:
        """Why nothing can be stored now: the file is not at its path; None while it is."""
        return None if self._disk is None else self._disk.lost

    @property
    def held(self) -> list[Held]:
        """Entries held in memory until there is a file again to keep them in."""
        return [] if self._disk is None else list(self._disk.held)

    # Reading

    def read(self) -> AbstractContextManager[Connection]:
        """A short reading connection: one consistent view of the file. Raises FileTrouble."""
        return self._views.read()

    def together(self) -> AbstractContextManager[None]:
        """Readings of this thread within share one connection, and so one view; an act renews it."""
        return self._views.together()

    def built_whole(self) -> AbstractContextManager[None]:
        """Build a file that is nobody's yet without waiting for the disk at every act (``unhurried_disk``)."""
        return unhurried_disk(self._writer)

    def follow_words(self, *, anew: bool = False) -> bool:
        """Bring the index of words up to the journal, so that a search finds what is stored; True when it was behind.

        It is derived from the rows, so it is no act, and a damaged one is made ``anew``. While the file is elsewhere
        it stays as it is. Raises FileTrouble.
        """
        return self._beside.follow_words(anew=anew)

    def follow_some_words(self) -> float:
        """As ``follow_words``, no longer than some hundredths of a second: the share the index knows by now.

        To be called again until it says 1. Raises FileTrouble.
        """
        if self._beside.words_behind() == 0:
            return 1.0
        return self._beside.follow_some_words()

    @property
    def words_behind(self) -> int:
        """How many changes the index of words does not know yet; -1 when it is not whole. Raises FileTrouble."""
        return self._beside.words_behind()

    # Writing

    def journal(self) -> None:
        """Get the writer ready to journal every table; else each is when first written to. Raises FileTrouble."""
        with explained(self.path):
            self._on_disk().journal()

    def act(self, kind: Act, subject: str = "") -> AbstractContextManager[Tx]:
        """One user act: one transaction, one journal entry, durable when the block ends.

        An act that changes nothing leaves no trace. Acts do not nest.

        Raises:
            FileTrouble: the file cannot be written now; nothing of the act was stored.
            NotThere: the act refers to a record that is gone; nothing of the act was stored.
            BadEntry: a field is empty that must not be, or what must be there once is there already.
            Bug: a fault of the program's own; nothing of the act was stored.
        """
        return self._acts.one(self._writer, kind, subject, bad_cells=self.unreadable)

    # Undo

    def undo_label(self) -> str | None:
        """What ``undo`` would take back, in words, or None."""
        return undoing.words(self.read, undo=True)

    def redo_label(self) -> str | None:
        """What ``redo`` would do again, in words, or None."""
        return undoing.words(self.read, undo=False)

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
        return undoing.rows_touched(self.read, undo=undo)

    def _replay(self, *, undo: bool, tell: Tell) -> str | None:
        step = undoing.replay(self.read, self._reversing, undo=undo, tell=tell)
        if step is None:
            return None
        if step.kind == Act.SET_CELL_RIGHT.name:
            self.look_over()
        return step.words

    def _reversing(self, kind: Act, subject: str, act_id: int) -> AbstractContextManager[Tx]:
        return self._acts.one(self._writer, kind, subject, reverses=act_id, bad_cells=self.unreadable)

    # Observing

    def observe(self, observer: Observer) -> Callable[[], None]:
        """Call ``observer`` after each commit; returns what stops it."""
        return self._observers.observe(observer)

    def poll(self) -> None:
        """Look whether another window or process has written; if so, tell the observers.

        Raises:
            FileElsewhere: the path no longer leads to the open file (said again at each look).
        """
        if self._acts.acting:
            return
        with explained(self.path):
            self._on_disk().refuse_if_elsewhere()
            kept = self._beside.keep_held()
            news = self._followed().news()
        if kept:
            self._beside.tell_kept()
        self._observers.tell(news)
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
        self._observers.tell(news)

    def _on_disk(self) -> OnDisk:
        if self._disk is None:
            raise RuntimeError("the file is closed")
        return self._disk

    def _followed(self) -> Watch:
        if self._watch is None:
            raise RuntimeError("the file is closed")
        return self._watch

    # Settings and kept entries: they belong to the file and are never undone

    def setting(self, key: str, default: str = "") -> str:
        """A setting of this file."""
        return self._beside.setting(key, default)

    def set_setting(self, key: str, value: str) -> None:
        """Store a setting of this file; observers hear of the table ``setting``. Raises FileTrouble."""
        self._beside.set_setting(key, value)

    def keep_entry(self, meant_for: str, typed: str, why: str) -> None:
        """Keep what was typed but could not be stored where it was meant; observers hear.

        While the file is not at its path it is held in memory and kept as soon as there is a file again.
        Raises FileTrouble.
        """
        self._beside.keep_entry(Held(meant_for, typed, why))

    def settle_kept(self, kept_id: int) -> None:
        """Mark a kept entry as dealt with; observers hear. Raises FileTrouble."""
        self._beside.settle_kept(kept_id)
