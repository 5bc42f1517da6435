"""A list on the left with the chosen one's fields on the right, and the buttons beneath the list."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QSplitter, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.edit_form import EditForm
from rebuild.window.lists.plain_table import PlainTable
from rebuild.work.editing.acts import remove

#: What the form takes at first; the list has the rest.
FORM_WIDTH = 360
Rows = Sequence[tuple[int, tuple[str, ...]]]


class Listed(QWidget):
    """One record type as a table beside its form; ``above`` stands over the table."""

    def __init__(
        self,
        desk: Desk,
        record: str,
        name: str,
        columns: Sequence[str],
        above: QWidget | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._desk, self._record = desk, record
        self.table = PlainTable(name, columns, self, sortable=True)
        self.form = EditForm(desk, record, self, most_columns=2)
        self.buttons = QHBoxLayout()
        self._of_one: list[QPushButton] = []
        left, right = QWidget(self), QWidget(self)
        column, side = QVBoxLayout(left), QVBoxLayout(right)
        for layout in (column, side):
            layout.setContentsMargins(0, 0, 0, 0)
            layout.setSpacing(4)
        if above is not None:
            column.addWidget(above)
        column.addWidget(self.table, 1)
        column.addLayout(self.buttons)
        scroll = QScrollArea(self)
        scroll.setAccessibleName("Fields of the chosen line")
        scroll.setWidget(self.form)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        side.addWidget(scroll, 1)
        split = QSplitter(Qt.Orientation.Horizontal, self)
        split.addWidget(left)
        split.addWidget(right)
        split.setChildrenCollapsible(False)
        # In a wide window the form takes half of what is more, and stands in two columns.
        split.setStretchFactor(0, 1)
        split.setStretchFactor(1, 1)
        split.setSizes([900, FORM_WIDTH])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(split)
        self.table.selectionModel().selectionChanged.connect(lambda _new, _old: self._show_chosen())

    def _show_chosen(self) -> None:
        key = self.table.chosen()
        self.form.show_record(key)
        for button in self._of_one:
            button.setEnabled(key is not None)

    def add_button(
        self, words: str, act: Callable[[], object], told: str = "", *, of_one: bool = False
    ) -> QPushButton:
        """A button under the list; ``of_one`` needs a chosen line, and is greyed without one."""
        button = QPushButton(words, self)
        button.setAutoDefault(False)
        button.setToolTip(told)
        button.clicked.connect(lambda _checked=False: act())
        self.buttons.addWidget(button)
        if of_one:
            self._of_one.append(button)
            button.setEnabled(self.table.chosen() is not None)
        return button

    def close_buttons(self) -> None:
        """Add the removal and end the row."""
        self.add_button("Remove", self.remove_chosen, of_one=True)
        self.buttons.addStretch(1)

    def fill(self, rows: Rows) -> None:
        """Show other rows; the chosen one stays chosen, else the first is."""
        here = self.table.chosen()
        self.table.plain.fill(rows)
        if here is not None and self.table.chosen() is None:
            self.table.choose(here)
        if self.table.chosen() is None and self.table.plain.ids:
            self.table.selectRow(0)
        self._show_chosen()

    def remove_chosen(self) -> None:
        """Remove the chosen record."""
        key = self.table.chosen()
        if key is not None:
            self.form.show_record(None)
            self._desk.attempt(
                lambda: remove(self._desk.store, self._record, [key]), "Removed; undo brings it back."
            )
