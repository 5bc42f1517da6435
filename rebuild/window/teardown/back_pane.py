"""Putting back: draft the steps from the log, then tick, link and order them like any others."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.photos.strip import PhotoStrip
from rebuild.window.steps.pane import TaskList
from rebuild.words.counted import counted
from rebuild.words.photos import PhotoPhase
from rebuild.work.photos.about import About
from rebuild.work.photos.acts_take import take_in
from rebuild.work.photos.rows import PhotoRow
from rebuild.work.photos.rows_shown import of_step
from rebuild.work.refit import acts as refit
from rebuild.work.teardown.rows_removals import AttemptRow


class BackPane(QWidget):
    """The draft button over the subassembly's own steps."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._attempts: tuple[AttemptRow, ...] = ()
        self._whole = False
        self.draft_button = QPushButton("&Draft from the log", self)
        self.said = PlainLabel(self)
        self.steps = TaskList(desk, self)
        self.way_round = PlainLabel("No photo of the chosen step.", self)
        self.photos = PhotoStrip(desk, "This way round", self.take, self)
        self.said.setWordWrap(True)
        top = QHBoxLayout()
        top.addWidget(self.draft_button)
        top.addWidget(self.said, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        layout.addLayout(top)
        layout.addWidget(self.steps, 1)
        layout.addWidget(self.way_round)
        layout.addWidget(self.photos)
        self.draft_button.clicked.connect(self.draft)
        desk.selection_changed.connect(self._show_photos)
        self.photos.hide()

    def show_attempts(self, attempts: Sequence[AttemptRow], *, whole: bool = False) -> None:
        """Say how far the draft of an attempt is, or with ``whole`` those of the newest on each subassembly."""
        self._attempts, self._whole = tuple(attempts), whole
        removals = sum(one.removals for one in attempts)
        drafted = sum(one.drafted for one in attempts)
        self.draft_button.setEnabled(removals > 0)
        off = counted(removals, "thing")
        if not removals:
            self.said.setText("Log something off first; the log read backwards becomes the steps.")
        elif not drafted:
            self.said.setText(f"{off} off, no step drafted yet.")
        else:
            on = sum(one.refitted for one in attempts)
            self.said.setText(f"{counted(drafted, 'step')} of {off} off, {on} on again.")
        self.draft_button.setText("&Draft again" if drafted else "&Draft from the log")

    def _show_photos(self) -> None:
        """The photos of the chosen step and of what it puts back: which way round it sat."""
        chosen, machine = self._desk.selection.task_ids, self._desk.machine_id
        rows: list[PhotoRow] = []
        if self._desk.is_open and machine is not None and len(chosen) == 1:
            with self._desk.store.read() as connection:
                rows = of_step(connection, machine, chosen[0])
        self.photos.show_rows(rows)
        self.photos.setVisible(bool(rows))
        self.way_round.setText(
            f"This way round: {counted(len(rows), 'photo')}." if rows else "No photo of the chosen step."
        )

    def take(self, paths: list[Path]) -> None:
        """Take photos in as photos of the chosen step."""
        chosen, machine = self._desk.selection.task_ids, self._desk.machine_id
        if len(chosen) == 1 and machine is not None:
            about = About(task_id=chosen[0])
            done = self._desk.attempt(
                lambda: take_in(self._desk.store, machine, paths, about, PhotoPhase.DURING)
            )
            if done is not None:
                self._desk.say(f"{counted(len(done.added), 'photo')} of the step.")
                self._show_photos()

    def draft(self) -> None:
        """Draft the steps, or bring the draft up to the log; the user's own edits stay."""
        store, machine = self._desk.store, self._desk.machine_id
        if self._attempts and machine is not None:
            first = self._attempts[0].id
            done = self._desk.attempt(
                lambda: refit.draft_machine(store, machine) if self._whole else refit.draft(store, first)
            )
            if done is not None:
                self._desk.say(done.sentence())
