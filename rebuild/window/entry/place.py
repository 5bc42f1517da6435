"""The landing of the bench or the making sheet: set by the row in hand there, ended with it, moved on by itself."""

from __future__ import annotations

from collections.abc import Callable

from rebuild.store.changed import Changed
from rebuild.window.desk.desk import Desk
from rebuild.window.entry.controls import EntryControls
from rebuild.window.entry.course import Course
from rebuild.window.entry.head import EntryHead
from rebuild.words.readings import FeatureKind, Stage
from rebuild.work.landings.stored import Stored
from rebuild.work.readings.landing import Landing
from rebuild.work.readings.rows_grid import Key

_CONCERNED = ("feature", "station", "part", "reading", "instrument")


class EntryPlace:
    """Keeps desk, course, head and controls in step; ``in_view`` says whether the surface is seen."""

    def __init__(
        self,
        desk: Desk,
        course: Course,
        head: EntryHead,
        controls: EntryControls,
        in_view: Callable[[], bool],
    ) -> None:
        self._desk = desk
        self._course = course
        self._head = head
        self._controls = controls
        self._in_view = in_view
        self._typed_for: Landing | None = None

    @property
    def pending(self) -> bool:
        """Something typed is not stored yet."""
        return bool(self._controls.field.text().strip())

    # The row in hand

    def row_in_hand(self, key: Key | None, stage: Stage | None) -> None:
        """The surface's row in hand is this one; ``stage`` where the user chose a stage with it."""
        if not self._in_view():
            return
        if key is None:
            self._desk.land(None)
        elif key != self._course.key or (stage is not None and stage is not self._course.stage):
            self._desk.land(self._course.landing_on(key, stage))

    def go_on_to(self, key: Key | None, stage: Stage | None = None) -> None:
        """Make a row the one in hand, here, on its surface and in the tree; None: no row any more."""
        landing = self._course.landing_on(key, stage) if key is not None else None
        self._desk.land(landing)
        if landing is None or key is None:
            self._desk.choose(key=None)
            return
        row = self._course.row
        if row is None or row.part_id in self._desk.selection.part_ids:
            self._desk.choose(key=key)
        else:
            self._desk.choose(key=key, part_ids=(row.part_id,))

    def move_on(self, *, corrected: bool = False) -> bool:
        """After a value: the next row in order, at the stage in hand where it is unread there; False at the end.

        ``corrected``: the value took another one's place, so the rows read already are gone through too.
        """
        key, stage = self._course.key, self._course.stage
        there = None
        if key is not None and stage is not None:
            there = self._course.next_after(key, stage, corrected=corrected)
        self.go_on_to(there, self._stage_for(there, stage))
        return there is not None

    def step(self, by: int) -> None:
        """Go to the row before or after, if there is one."""
        key = self._course.beside(by)
        if key is not None:
            self.go_on_to(key, self._stage_for(key, self._course.stage))

    def _stage_for(self, key: Key | None, stage: Stage | None) -> Stage | None:
        """The stage in hand, where the row is not read at it yet; else what the row offers."""
        row = self._course.read(key) if key is not None else None
        if row is None or stage is None:
            return None
        unread = not any(reading is not None and reading.stage is stage for reading in row.readings)
        return stage if unread else None

    def begin(self) -> None:
        """Asked for by a key with no row in hand: the first unread row of the surface."""
        if self._course.landing is None and self._in_view() and self._desk.is_open:
            self.go_on_to(self._course.first())

    def choose_stage(self, stage: Stage | None) -> None:
        """Read the row in hand at another stage."""
        if stage is not None and self._course.key is not None and stage is not self._course.stage:
            self._desk.land(self._course.landing_on(self._course.key, stage))

    def last_stored(self) -> Stored | None:
        """Back to the row and stage stored last from this surface, as long as it shows it; None when not."""
        order = list(self._course.order())
        for stored in reversed(self._desk.recent):
            landing = stored.landing
            if landing.surface is self._course.surface and landing.row in order:
                self.go_on_to((landing.row[0], landing.row[1]), landing.part_stage)
                return stored
        return None

    # Shown

    def show(self) -> None:
        """Show where the next value lands; with no row in hand the line is disabled."""
        self._course.look()
        course, row = self._course, self._course.row
        self._head.show_course(course, self.typed_for)
        thread = row.thread if row is not None and row.kind is FeatureKind.THREAD else None
        stage = course.stage if row is not None else None
        self._controls.show_landing(stage, course.unit if row else "", thread=thread)
        self._controls.field.setAccessibleDescription(self._head.place.text())

    def text_touched(self) -> None:
        """The text was edited: a text begun now is meant for the row in hand."""
        if not self.pending:
            self._typed_for = None
        elif self._typed_for is None:
            self._typed_for = self._course.landing

    @property
    def typed_for(self) -> str:
        """The row the text was typed for, when another one is in hand now; else empty."""
        meant, landing = self._typed_for, self._course.landing
        if not self.pending or meant is None or (landing is not None and landing.row == meant.row):
            return ""
        return meant.words

    def means_this_row(self) -> None:
        """The text is meant for the row in hand after all."""
        self._typed_for = self._course.landing

    # News

    def taken_otherwise(self) -> None:
        """Instrument, temperature or note was changed in the controls."""
        self._course.instrument_id = self._controls.chosen_instrument
        self._course.temperature = self._controls.temperature.text()
        self._course.note = self._controls.note.text()
        self._course.thread_way = self._controls.thread_way.text
        self._desk.how_in_hand = self._course.how
        self.show()

    def other_file(self) -> None:
        """Another file or machine: the shop may have other instruments."""
        self._controls.fill_instruments(self._course.instruments())
        self._controls.setEnabled(self._desk.is_open)
        self.show()

    def hear(self, changed: Changed) -> None:
        """Take up a change: the row in hand may read otherwise, or be gone."""
        if changed.touches("instrument"):
            self._controls.fill_instruments(self._course.instruments())
        if changed.touches(*_CONCERNED):
            landing = self._course.landing
            if landing is not None and self._course.key is not None:
                self._desk.land(self._course.landing_on(self._course.key, landing.part_stage))
            self.show()
