"""What was gone on with all the same, shown until it is closed with how it was put right."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.work.gates.acts import close
from rebuild.work.gates.rows import GoneOnRow


class GoneOnTable(QWidget):
    """The open ones, each with what stood against it and why; a line closes the chosen one."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.table = PlainTable(
            "Gone on all the same", ("On", "Gone on all the same", "Stood against it", "Why")
        )
        self.note = QLineEdit()
        self.note.setAccessibleName("Closed with")
        self.note.setPlaceholderText("how it was put right since, then Enter: it stays in the book")
        self.close_button = QPushButton("C&lose it")
        row = QHBoxLayout()
        row.addWidget(self.note, 1)
        row.addWidget(self.close_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.table)
        layout.addLayout(row)
        self.note.returnPressed.connect(self._close)
        self.close_button.clicked.connect(self._close)

    def show_rows(self, rows: list[GoneOnRow]) -> None:
        """Show those that are open; without any the table is away."""
        self.table.plain.fill([(row.id, (day(row.at), row.what, row.against, _why(row))) for row in rows])
        self.setVisible(bool(rows))
        if rows and self.table.chosen() is None:
            self.table.selectRow(0)

    def _close(self) -> None:
        key = self.table.chosen()
        if key is not None and self._desk.attempt(lambda: self._tell(key), "Closed; it stays in the book."):
            self.note.clear()

    def _tell(self, key: int) -> bool:
        close(self._desk.store, [key], self.note.text())
        return True


def _why(row: GoneOnRow) -> str:
    return f"{row.reason} ({row.said_by})" if row.said_by else row.reason
