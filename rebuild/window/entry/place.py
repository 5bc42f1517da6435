"""The entry line's place: it follows the row in hand, stays with what is typed, and moves on by itself."""

from __future__ import annotations

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.entry.controls import EntryControls
from rebuild.window.entry.course import Course
from rebuild.window.entry.head import EntryHead
from rebuild.words.readings import Stage
from rebuild.work.readings.rows_grid import Key

_CONCERNED = ("feature", "station", "part", "reading", "instrument")
STAYS = "What is typed stays with this row until it is stored or cleared; the grid is elsewhere."


class EntryPlace:
    """Keeps course, head and controls in step with the desk's selection."""

    def __init__(self, desk: Desk, course: Course, head: EntryHead, controls: EntryControls) -> None:
        self._desk = desk
        self._course = course
        self._head = head
        self._controls = controls
        self._field = controls.field

    @property
    def pending(self) -> bool:
        """Something typed is not stored yet."""
        return bool(self._field.text().strip())

    def follow_selection(self) -> None:
        """Go to the row in hand, unless something typed belongs to the row it is on."""
        chosen = self._desk.selection.key
        locked = self.pending and self._course.row is not None and self._desk.is_open
        if not locked and (chosen != self._course.key or self._course.row is None):
            self._course.go(chosen)
        self.show()

    def show(self) -> None:
        """Show where the next value lands."""
        course, elsewhere = self._course, self._desk.selection.key != self._course.key
        self._head.show_course(course, STAYS if self.pending and course.row is not None and elsewhere else "")
        self._controls.show_unit(course.row.unit if course.row is not None else "")
        self._field.setAccessibleDescription(self._head.place.text())

    def look_again(self) -> None:
        """Read the row in hand again."""
        self._course.look()
        self.show()

    def land_somewhere(self) -> None:
        """With no row chosen, go to the first one not read yet."""
        if self._course.key is None and self._desk.is_open and not self.pending:
            self.go_on_to(self._course.next_unread())

    def go_on_to(self, key: Key | None) -> None:
        """Make a row the one in hand, here and on the desk."""
        if key is None:
            return
        self._course.go(key)
        chosen, row = self._desk.selection, self._course.row
        if row is None or row.part_id in chosen.part_ids:
            self._desk.choose(key=key)
        else:
            self._desk.choose(key=key, part_ids=(row.part_id,))
        self.show()

    def step(self, by: int) -> None:
        """Go to the row before or after."""
        self.go_on_to(self._course.beside(by))

    def last_stored(self) -> bool:
        """Back to the row and stage stored last; False when there is none."""
        if not self._course.stored:
            return False
        key, stage, _ = self._course.stored[-1]
        self._controls.choose_stage(stage)
        self.go_on_to(key)
        return True

    def taken_otherwise(self) -> None:
        """Stage, instrument or temperature was changed in the controls."""
        self._course.stage = self._controls.chosen_stage
        self._course.instrument_id = self._controls.chosen_instrument
        self._course.temperature = self._controls.temperature.text()
        self.look_again()

    def other_file(self) -> None:
        """Another file or machine: nothing was stored from here yet, the shop may have other instruments."""
        self._course.stored.clear()
        self._controls.fill_instruments(self._course.instruments())
        self._controls.setEnabled(self._desk.is_open)
        if not self._desk.is_open:
            self._course.go(None)
        self.follow_selection()

    def hear(self, changed: Changed) -> bool:
        """Take up a change; True when the reading stored last was taken back and the line is on its row again."""
        if changed.touches("instrument"):
            self._controls.fill_instruments(self._course.instruments())
        if not changed.touches(*_CONCERNED):
            return False
        gone = changed.rows("reading").removed
        back = bool(gone and self._course.stored and self._course.stored[-1][2] in gone)
        if back:
            key, stage, _ = self._course.stored.pop()
            if not self.pending:
                self._controls.choose_stage(Stage(stage))
                self.go_on_to(key)
        self.look_again()
        return back and not self.pending
