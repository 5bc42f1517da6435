"""Name what a step needs: one thing a line, those the shop knows offered as one types."""

from __future__ import annotations

from PySide6.QtCore import QStringListModel, Qt
from PySide6.QtWidgets import (
    QComboBox,
    QCompleter,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.words.means import MeansKind
from rebuild.work.means.rows import means, of_steps
from rebuild.work.steps.rows import TaskRow


class StepMeansDialog(QDialog):
    """The means of one step; on an error the words stay, with the sentence in the dialog."""

    def __init__(self, desk: Desk, row: TaskRow, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk, self._row = desk, row
        self.setWindowTitle("Means of a step")
        self.resize(640, 360)
        self.table = PlainTable("What the step needs", ("It needs", "How it stands", "For"), self)
        self.kind, self.name, self.note = QComboBox(self), QLineEdit(self), QLineEdit(self)
        self._known = QStringListModel(self)
        self.trouble = PlainLabel(self)
        self.trouble.setWordWrap(True)
        self._build()
        self._read()
        self.name.setFocus()

    def _build(self) -> None:
        heading = PlainLabel(f"“{self._row.title}” needs:", self)
        heading.setWordWrap(True)
        for kind in MeansKind:
            self.kind.addItem(kind.value, kind)
        self.kind.setAccessibleName("Kind of means")
        self.name.setAccessibleName("What it needs")
        self.name.setPlaceholderText("What: left-hand tap 7/16-14")
        self.note.setAccessibleName("What for")
        self.note.setPlaceholderText("for")
        told = PlainLabel(f"Noted as tools: {self._row.tools}" if self._row.tools else "", self)
        told.setWordWrap(True)
        told.setVisible(bool(self._row.tools))
        line = QHBoxLayout()
        line.addWidget(self.kind)
        line.addWidget(self.name, 2)
        line.addWidget(self.note, 1)
        take = QPushButton("&Take off the list", self)
        take.setAutoDefault(False)
        take.clicked.connect(self.take_off)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, self)
        buttons.addButton(take, QDialogButtonBox.ButtonRole.ActionRole)
        buttons.button(QDialogButtonBox.StandardButton.Close).setAutoDefault(False)
        buttons.rejected.connect(self.reject)
        for field in (self.name, self.note):
            field.returnPressed.connect(self.add)
        self._offer()
        layout = QVBoxLayout(self)
        for widget in (heading, told, self.table):
            layout.addWidget(widget)
        layout.addLayout(line)
        layout.addWidget(self.trouble)
        layout.addWidget(buttons)

    def _offer(self) -> None:
        # One completer for the dialog's life: Enter in its popup calls ``add`` from within the completer's own
        # event filter, so a new one set there would delete the one that is still at work.
        completer = QCompleter(self._known, self.name)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.name.setCompleter(completer)

    def _read(self) -> None:
        with self._desk.store.read() as connection:
            rows = of_steps(connection, [self._row.id])
            known = [one.name for one in means(connection)]
        self.table.plain.fill([(one.id, (one.means.name, one.means.words, one.note)) for one in rows])
        self._known.setStringList(known)

    def add(self) -> None:
        """Name what stands in the line."""
        from rebuild.work.means import acts

        kind = MeansKind(self.kind.currentData())
        try:
            acts.name_means(self._desk.store, self._row.id, self.name.text(), kind, self.note.text())
        except RebuildError as trouble:
            self.trouble.setText(f"▸ {trouble}")
            return
        self.trouble.clear()
        for field in (self.name, self.note):
            field.clear()
        self._read()
        self.name.setFocus()

    def take_off(self) -> None:
        """The step needs the chosen one no more."""
        from rebuild.work.editing.acts import remove

        key = self.table.chosen()
        if key is not None:
            self._desk.attempt(lambda: remove(self._desk.store, "step_means", [key]))
            self._read()


def new_means(desk: Desk, row: TaskRow, parent: QWidget) -> None:
    """Open the dialog."""
    dialog = StepMeansDialog(desk, row, parent)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.open()
