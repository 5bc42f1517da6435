"""What was gone on with all the same, in full, shown until it is closed with how it was put right."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.layout.plain import PlainLabel
from rebuild.window.lists.plain_table import PlainTable
from rebuild.window.lists.said import day
from rebuild.words.counted import counted
from rebuild.work.gates.acts import close
from rebuild.work.gates.rows import GoneOnRow
from rebuild.work.power.rows import Stands

_LINES = 2


class GoneOnTable(QWidget):
    """The open ones; the chosen one is told in full, with what of it still stands; a line closes it."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._rows: list[GoneOnRow] = []
        self._standing: Sequence[Stands] = ()
        self.table = PlainTable("Gone on all the same", ("On", "Gone on all the same", "Why"))
        row_height = self.table.verticalHeader().defaultSectionSize()
        self.table.setFixedHeight(row_height * _LINES + self.table.horizontalHeader().sizeHint().height() + 4)
        self.told = PlainLabel()
        self.told.setWordWrap(True)
        self.told.setAccessibleName("Gone on all the same, in full")
        self.told.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
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
        layout.addWidget(self.told)
        layout.addLayout(row)
        self.table.selectionModel().currentChanged.connect(lambda _new, _old: self._tell_chosen())
        self.note.returnPressed.connect(self._close)
        self.close_button.clicked.connect(self._close)

    def show_rows(self, rows: list[GoneOnRow], standing: Sequence[Stands] = ()) -> None:
        """Show those that are open, beside what stands before power now; without any the table is away."""
        self._rows, self._standing = rows, standing
        self.table.plain.fill([(row.id, (day(row.at), row.what, _why(row))) for row in rows])
        self.setVisible(bool(rows))
        if rows and self.table.chosen() is None:
            self.table.selectRow(0)
        self._tell_chosen()

    def choose(self, key: int) -> None:
        """Stand on one of them."""
        self.table.choose(key)

    def _tell_chosen(self) -> None:
        key = self.table.chosen()
        row = next((one for one in self._rows if one.id == key), None)
        self.told.setText(in_full(row, self._standing) if row is not None else "")

    def _close(self) -> None:
        key = self.table.chosen()
        if key is not None and self._desk.attempt(lambda: self._tell(key), "Closed; it stays in the book."):
            self.note.clear()

    def _tell(self, key: int) -> bool:
        close(self._desk.store, [key], self.note.text())
        return True


def in_full(row: GoneOnRow, standing: Sequence[Stands]) -> str:
    """What stood against it, why it was done all the same, what it lets through and how much of it stands still."""
    lines = [
        f"It let through {row.what}, that once, and nothing else: the next act asks again. "
        f"{_still(row.covers, standing)}",
        f"Why: {_why(row)}",
        f"Stood against it: {row.against}",
    ]
    return "\n".join(lines)


def _still(covers: Collection[str], standing: Sequence[Stands]) -> str:
    """The names stand in the checklist beneath, and are not said twice."""
    still = sum(one.key in covers for one in standing)
    if not covers:
        return ""
    if not still:
        return "None of what stood against it stands any more: it can be closed."
    return f"Of {counted(len(covers), 'thing')} {still} still {'stands' if still == 1 else 'stand'}, in the list below."


def _why(row: GoneOnRow) -> str:
    return f"{row.reason} ({row.said_by})" if row.said_by else row.reason
