"""The desk: what every pane shares. The open file, the chosen machine, the selection, and the news.

Wired by constructor argument; there is no global. A change flows one way: a pane calls an act
through ``attempt``; the store tells the desk what changed after the commit; the desk tells the panes.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import replace
from enum import Enum
from pathlib import Path
from typing import TypeVar

from PySide6.QtCore import QObject, QTimer, Signal

from rebuild.errors import FileElsewhere, FileTrouble, RebuildError
from rebuild.store.beside import Tell, unheard
from rebuild.store.changed import Changed
from rebuild.store.held import Held
from rebuild.store.store import Store
from rebuild.trade.results.working import Working
from rebuild.window.desk.elsewhere import replaced_words
from rebuild.window.desk.hand import Hand
from rebuild.window.desk.left_as_is import is_quick_to_look_over
from rebuild.window.desk.look_over import LookOver
from rebuild.window.desk.selection import Selection
from rebuild.window.desk.values import ValuesInHand
from rebuild.work.machines import rows_tree as tree

T = TypeVar("T")

#: How often another window's writing is looked for; half of the second that is promised.
POLL_MS = 400
#: Nothing stored for this long: the file is made whole, so that a copy of it holds everything.
IDLE_MS = 3_000
#: An undo that touches more rows than this says what it will do first.
LARGE_ROWS = 5_000
#: What only keeps an entry that could not be stored is no success.
_KEPT_ONLY = {"kept_entry"}


class ShowUnit(Enum):
    """Which unit lengths are shown in; the data never changes with it."""

    OWN = "each in its own"
    MM = "all in mm"
    IN = "all in inches"


class Say(Enum):
    """How a sentence is meant."""

    DONE = "done"
    ASK = "ask"
    TROUBLE = "trouble"


class Desk(ValuesInHand):
    """Shared state of one window."""

    opened = Signal()
    closing = Signal()  #: the open file is about to be let go: what reads it on another thread ends first
    closed = Signal()
    machine_changed = Signal()
    selection_changed = Signal()
    changed = Signal(object)
    unit_changed = Signal()
    said = Signal(str, object)
    wrote = Signal(object)  #: a file somebody asked for lies at this path
    working_asked = Signal(object)
    page_asked = Signal(str)
    row_asked = Signal(str, str, object)  #: page, table and id of the row it shall stand on
    field_asked = Signal(str)  #: field of the part in hand that a link led to; empty: its features
    undo_changed = Signal()
    evening_changed = Signal()
    lost = Signal(object)  #: the open file is not at its path: FileElsewhere; None when it is back
    moved = Signal()  #: what is open goes on in a file of another path, with all that is chosen
    #: An act of this window was stored, or did what was asked: what went wrong before is over.
    went_well = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._store: Store | None = None
        self._stop_observing: Callable[[], None] | None = None
        self.machine_id: int | None = None
        #: Which machine of a file was shown when it was closed; the window remembers it.
        self.left_on: Callable[[Path], int | None] = lambda _path: None
        self.selection = Selection()
        #: Goes up with every piece of news of the file or the machine: who has read since need not read again.
        self.turn = 0
        self.show_unit = ShowUnit.OWN
        #: The time there is tonight, as typed on whichever page asked; empty as long as nobody said.
        self.evening = ""
        self.hand = Hand()
        self._poll = QTimer(self)
        self._poll.setInterval(POLL_MS)
        self._poll.timeout.connect(self._look_elsewhere)
        self._idle = QTimer(self)
        self._idle.setSingleShot(True)
        self._idle.setInterval(IDLE_MS)
        self._idle.timeout.connect(self.make_whole)
        self.looking = LookOver(self)
        self.looking.found.connect(self.say_trouble)
        self._is_lost = False
        #: Asks before a large undo (True) or redo, with the rows by table; set by the window that can ask.
        self.ask_long_step: Callable[[bool, dict[str, int]], None] | None = None

    @property
    def store(self) -> Store:
        """The open file. Raises RuntimeError when none is open (a programming error)."""
        if self._store is None:
            raise RuntimeError("no file is open")
        return self._store

    @property
    def is_open(self) -> bool:
        """Whether a file is open."""
        return self._store is not None

    def open(self, path: Path, *, create: bool = False, looked_over: bool = True) -> None:
        """Open (or make) a project file and choose the machine left on, else its first; the one open before is let go
        when that worked.

        ``looked_over``: cells that cannot be read are looked for at once, not a little later. Raises FileTrouble.
        """
        store = Store.create(path) if create else Store.open(path, looked_over=looked_over)
        try:
            with store.read() as connection:
                machines = [*tree.machine_names(connection)]
        except BaseException:
            store.close()
            raise
        self.close()
        self._store = store
        self._stop_observing = store.observe(self._hear)
        left_on = self.left_on(path)
        self.machine_id = left_on if left_on in machines else machines[0] if machines else None
        self.selection = Selection()
        self._forget_values()
        self._poll.start()
        self.turn += 1
        with store.together():
            self.opened.emit()
            self.machine_changed.emit()
            self.selection_changed.emit()
            self.undo_changed.emit()

    def look_over_at_once(self) -> bool:
        """Something stumbled: look the file over now, unless that was done; True when reading may be tried again."""
        return self._store is not None and self.looking.at_once(self._store)

    def close(self) -> None:
        """Close the file, if one is open. What is held in memory because it was lost is written out first."""
        if self._store is not None:
            self._write_out(self._store.held, self._store.path)
        self._close()

    def _close(self) -> None:
        self._poll.stop()
        self._idle.stop()
        self.looking.stop()
        self._is_lost = False
        if self._stop_observing is not None:
            self._stop_observing()
            self._stop_observing = None
        if self._store is not None:
            self.closing.emit()
            self._store.close()
            self._store = None
            self.machine_id = None
            self.selection = Selection()
            self._forget_values()
            self.turn += 1
            self.closed.emit()

    def _write_out(self, held: Sequence[Held], path: Path) -> None:
        if held:
            from rebuild.store.held import write_out

            try:
                written = write_out(held, path)
            except OSError as trouble:
                self.say(
                    f"What could not be stored could not be written out either ({trouble}).", Say.TROUBLE
                )
            else:
                self.say(f"What could not be stored was written out: {written}.", Say.TROUBLE)

    def go_on_in(self, path: Path, half_typed: Sequence[Held] = ()) -> None:
        """Go on with what is open in the file at ``path``: where it was moved to, or where it was saved.

        Nothing else is another: machine, selection, row in hand, last values and what stands half typed stay, so that
        the next Enter stores where the eye is. Entries held meanwhile are kept in it. Raises FileTrouble; the file is
        closed then, and ``half_typed`` written out with what is held.
        """
        from rebuild.store.photo_copies import follow

        old = self.store
        held, told = old.held, old.told_to
        self.looking.stop()
        self.closing.emit()
        old.close()
        try:
            follow(old.path, path)
            store = Store.open(path, looked_over=is_quick_to_look_over(path))
        except (RebuildError, OSError) as trouble:
            self._close()
            self._write_out([*held, *half_typed], old.path)
            raise FileTrouble(str(trouble), where=path.name, way_out="Open it again.") from trouble
        self._store, self._is_lost = store, False
        self._stop_observing = store.observe(self._hear)
        self.turn += 1
        with store.together():
            self.moved.emit()
            self.undo_changed.emit()
        store.tell_from(told)
        self.looking.begin(store)
        for one in held:
            store.keep_entry(one.meant_for, one.typed, one.why)

    def make_whole(self) -> None:
        """Move the log into the file: nobody is typing, or the window has lost the focus."""
        if self._store is not None:
            whole = self.attempt(self._store.make_whole)
            if not whole and self._store.lost is None:
                self._idle.start()

    def choose_machine(self, machine_id: int | None) -> None:
        """Show another machine."""
        if machine_id != self.machine_id:
            self.machine_id = machine_id
            self.selection = Selection()
            self.land(None)
            self.turn += 1
            with self.reading_together():
                self.machine_changed.emit()
                self.selection_changed.emit()

    def choose(self, **parts: object) -> None:
        """Change part of the selection, e.g. ``choose(part_ids=(3,), key=None)``."""
        chosen = replace(self.selection, **parts)  # type: ignore[arg-type]
        if chosen != self.selection:
            self.selection = chosen
            with self.reading_together():
                self.selection_changed.emit()

    def choose_unit(self, unit: ShowUnit) -> None:
        """Show lengths in another unit; no data changes."""
        if unit is not self.show_unit:
            self.show_unit = unit
            self.unit_changed.emit()

    def say_evening(self, typed: str) -> None:
        """Say on every page how much time there is tonight, as typed."""
        if typed != self.evening:
            self.evening = typed
            self.evening_changed.emit()

    def reading_together(self) -> AbstractContextManager[None]:
        """What is read of the open file within is read over one connection, as one view."""
        return self._store.together() if self._store is not None else nullcontext()

    def unit_for(self, own: str) -> str:
        """The unit to show a length in whose own unit is ``own``."""
        return {ShowUnit.OWN: own, ShowUnit.MM: "mm", ShowUnit.IN: "in"}[self.show_unit]

    def attempt(self, act: Callable[[], T], done: str = "") -> T | None:
        """Do an act; on trouble say the sentence and return None. ``done`` is said on success."""
        try:
            value = act()
        except RebuildError as trouble:
            self.say(str(trouble), Say.TROUBLE)
            if isinstance(trouble, FileElsewhere):
                self._lose(trouble)
            return None
        self.went_well.emit()
        if done:
            self.say(done)
        return value

    def say(self, sentence: str, how: Say = Say.DONE) -> None:
        """Put a sentence on the message line."""
        self.said.emit(sentence, how)

    def say_written(self, path: Path) -> None:
        """Say where a file was saved that somebody asked for; it can be opened from there."""
        self.say(f"Saved as {path.name} in {path.parent}.")
        self.wrote.emit(path)

    def say_trouble(self, sentence: str) -> None:
        """Put a trouble on the message line."""
        self.say(sentence, Say.TROUBLE)

    def ask_working(self, working: Working) -> None:
        """Open a result's working in the working pane."""
        self.working_asked.emit(working)

    def undo(self) -> None:
        """Take back the newest act and say which; a large one is first told and may be stopped."""
        self._step(undo=True)

    def redo(self) -> None:
        """Do again what was taken back last and say which; a large one is first told and may be stopped."""
        self._step(undo=False)

    def _step(self, *, undo: bool) -> None:
        if self.ask_long_step is not None:
            touched = self.store.rows_touched(undo=undo)
            if sum(touched.values()) > LARGE_ROWS:
                self.ask_long_step(undo, touched)
                return
        self.take_step(undo=undo)

    def take_step(self, *, undo: bool, tell: Tell = unheard) -> None:
        """Undo or redo at once; ``tell`` hears on this thread how far it is and may stop it."""
        step = self.store.undo if undo else self.store.redo
        before = self.recent
        done = self.attempt(lambda: (step(tell),))
        if done is not None:
            self._tell_value(before, undo=undo)
            nothing = "There is nothing to undo." if undo else "There is nothing to do again."
            self.say(f"{'Undone' if undo else 'Done again'}: {done[0]}." if done[0] else nothing)

    @property
    def last_copy(self) -> FileElsewhere | None:
        """Why what is open here is the only copy of it: the file was deleted, or another lies in its place."""
        lost = self._store.lost if self._store is not None else None
        return lost if isinstance(lost, FileElsewhere) and not lost.went_to and not lost.overwritten else None

    def _lose(self, trouble: FileElsewhere) -> None:
        self._is_lost = True
        self.lost.emit(trouble)

    def _hear(self, changed: Changed) -> None:
        self._idle.start()
        self.turn += 1
        with self.reading_together():
            if changed.touches("machine"):
                self._keep_a_machine(changed)
            self._follow_values(changed)
            self.changed.emit(changed)
            self.undo_changed.emit()
        if changed.elsewhere:
            self._say_elsewhere(changed)
        elif set(changed.tables) != _KEPT_ONLY:
            self.went_well.emit()

    def _say_elsewhere(self, changed: Changed) -> None:
        replaced = replaced_words(self.store, self.recent, changed)
        if replaced:
            self.say(replaced, Say.ASK)
        else:
            self.say("Another window changed this file; what you see is up to date.")

    def _keep_a_machine(self, changed: Changed) -> None:
        rows = changed.rows("machine")
        if self.machine_id is None and rows.added:
            self.choose_machine(min(rows.added))
        elif self.machine_id in rows.removed:
            with self.store.read() as connection:
                left = [*tree.machine_names(connection)]
            self.choose_machine(left[0] if left else None)

    def _look_elsewhere(self) -> None:
        if self._store is None:
            return
        try:
            self._store.poll()
        except FileElsewhere as trouble:
            if not self._is_lost:
                self.say(str(trouble), Say.TROUBLE)
                self._lose(trouble)
        except RebuildError as trouble:
            self.say(str(trouble), Say.TROUBLE)
        if self._is_lost and self._store.lost is None:
            self._is_lost = False
            self.lost.emit(None)
            self.say("The file is back where it was; what could not be stored is among the kept entries.")
