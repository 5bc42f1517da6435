"""Say what a step asks for besides order: its kind, a detail, how long it must rest, and which part it is about."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QDialog, QDialogButtonBox, QFormLayout, QLineEdit, QWidget

from rebuild.errors import RebuildError
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.forms.editors import ReferenceEditor
from rebuild.window.layout.plain import PlainLabel
from rebuild.words.steps import ConstraintKind
from rebuild.work.records.rows import choices
from rebuild.work.steps.rows import TaskRow

#: What the detail and the part mean, by kind; an empty word hides the field.
_ASKS: dict[ConstraintKind, tuple[str, str, str]] = {
    ConstraintKind.AT_POSITION: ("At which position", "What must stand there", ""),
    ConstraintKind.TWO_PEOPLE: ("How", "", ""),
    ConstraintKind.THROUGH_OPENING: ("Which opening", "What closes it", ""),
    ConstraintKind.CURE: ("What cures", "", "Rests for"),
    ConstraintKind.PROVE_FIRST: ("What must be seen", "What must not go on before", ""),
    ConstraintKind.WARMTH: ("How warm", "", ""),
}


class ConstraintDialog(QDialog):
    """One constraint of one step; on an error it stays, with the sentence in it."""

    def __init__(self, desk: Desk, row: TaskRow, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk, self._row = desk, row
        self.setWindowTitle("Constraint")
        self.resize(520, 10)
        self.kind = QComboBox()
        self.kind.setAccessibleName("Constraint")
        for kind in ConstraintKind:
            self.kind.addItem(kind.value, kind)
        self.detail, self.rest = QLineEdit(), QLineEdit()
        self.rest.setPlaceholderText("how long, in h or d")
        self.part = ReferenceEditor()
        self._trouble = PaneTrouble(desk, (self.kind, self.detail, self.rest, self.part), self)
        self._build()
        self._show_kind()

    def _build(self) -> None:
        heading = PlainLabel(f"“{self._row.title}” asks for:")
        heading.setWordWrap(True)
        self._form = QFormLayout(self)
        self._form.addRow(heading)
        self._form.addRow("Constraint", self.kind)
        self._labels: dict[str, PlainLabel] = {}
        for name, field in (("detail", self.detail), ("part", self.part), ("rest", self.rest)):
            self._labels[name] = PlainLabel()
            self._labels[name].setBuddy(field)
            self._form.addRow(self._labels[name], field)
        self._form.addRow(self._trouble)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.add)
        buttons.rejected.connect(self.reject)
        self._form.addRow(buttons)
        with self._desk.store.read() as connection:
            self.part.offer(choices(connection, "part", self._desk.machine_id or 0))
        self.kind.currentIndexChanged.connect(self._show_kind)

    def _show_kind(self) -> None:
        words = _ASKS[ConstraintKind(self.kind.currentData())]
        fields: tuple[QWidget, ...] = (self.detail, self.part, self.rest)
        for name, word, field in zip(("detail", "part", "rest"), words, fields, strict=True):
            self._labels[name].setText(word)
            field.setAccessibleName(word)
            self._form.setRowVisible(field, bool(word))

    def add(self) -> None:
        """Store it, or say why not."""
        from rebuild.work.steps import acts

        kind = ConstraintKind(self.kind.currentData())
        _detail, part_word, rest_word = _ASKS[kind]
        typed = self.part.typed() if part_word else ""
        try:
            acts.add_constraint(
                self._desk.store,
                self._row.id,
                kind,
                self.detail.text(),
                rest=self.rest.text() if rest_word else "",
                part_ids=[int(typed)] if typed.isdigit() else [],
            )
        except RebuildError as trouble:
            self._trouble.tell(trouble)
            return
        self.accept()


def new_constraint(desk: Desk, row: TaskRow, parent: QWidget) -> None:
    """Open the dialog."""
    dialog = ConstraintDialog(desk, row, parent)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.open()
