"""The surveys of a machine and what is done with one: set up, given a line, printed blank, removed."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QInputDialog, QListWidget, QListWidgetItem, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.labels.printing import print_survey
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.ruled import ruled
from rebuild.window.surveys.new_survey import SurveyDialog
from rebuild.work.editing.acts import remove
from rebuild.work.surveys.acts import add_line
from rebuild.work.surveys.rows import SurveyRow

_ID = Qt.ItemDataRole.UserRole


class SurveyList(QWidget):
    """The list with its buttons below it."""

    chosen = Signal()

    def __init__(self, desk: Desk, photos: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.list = ruled(QListWidget(), name_first=True)
        self.list.setAccessibleName("Surveys")
        new = QPushButton("&New survey…")
        new.clicked.connect(self.new_survey)
        side = QVBoxLayout(self)
        side.setContentsMargins(0, 0, 0, 0)
        side.addWidget(self.list)
        side.addWidget(new)
        self._of_one = []
        for words, act in (
            ("Set-&up…", self._set_up),
            ("New l&ine…", self._new_line),
            ("Blan&k sheet…", self._print_blank),
            ("&Remove", self._remove),
        ):
            button = QPushButton(words)
            button.clicked.connect(act)
            side.addWidget(button)
            self._of_one.append(button)
        side.addWidget(photos)
        EmptyState(self.list, "Ways and plates surveyed, before and after.", "New survey", new.click)
        self.list.currentItemChanged.connect(lambda _new, _old: self.chosen.emit())

    def show_one(self, is_there: bool) -> None:
        """Whether a survey is chosen that something can be done with."""
        for button in self._of_one:
            button.setEnabled(is_there)

    @property
    def name(self) -> str | None:
        """The name of the survey chosen."""
        item = self.list.currentItem()
        return item.text().split("\n")[0] if item is not None else None

    def current_id(self) -> int | None:
        """The chosen survey."""
        item = self.list.currentItem()
        return int(item.data(_ID)) if item is not None else None

    def choose(self, key: int | None) -> None:
        """Choose one survey."""
        for at in range(self.list.count()):
            if self.list.item(at).data(_ID) == key:
                self.list.setCurrentRow(at)

    def fill(self, rows: Sequence[SurveyRow]) -> None:
        """Show these; the one chosen stays chosen."""
        here = self.current_id()
        self.list.blockSignals(True)
        self.list.clear()
        for row in rows:
            item = QListWidgetItem(f"{row.name}\n{row.method.value}, {row.stage.value}")
            item.setData(_ID, row.id)
            self.list.addItem(item)
            if row.id == here:
                self.list.setCurrentItem(item)
        if self.list.currentItem() is None and rows:
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)

    def new_survey(self) -> None:
        """Ask for a new survey's set-up."""
        if self._desk.is_open and self._desk.machine_id is not None:
            dialog = SurveyDialog(self._desk, None, self)
            dialog.accepted.connect(lambda: self.choose(dialog.survey_id))
            dialog.open()

    def _set_up(self) -> None:
        key = self.current_id()
        if key is not None:
            SurveyDialog(self._desk, key, self).open()

    def _new_line(self) -> None:
        key = self.current_id()
        name, taken = QInputDialog.getText(self, "New line", "Name of the line")
        if key is not None and taken:
            self._desk.attempt(lambda: add_line(self._desk.store, key, name))

    def _print_blank(self) -> None:
        key = self.current_id()
        if key is not None:
            print_survey(self._desk, self, key)

    def _remove(self) -> None:
        key = self.current_id()
        if key is not None:
            self._desk.attempt(
                lambda: remove(self._desk.store, "survey", [key]), "Removed; undo brings it back."
            )
