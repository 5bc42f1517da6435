"""The History page: every act of this file, newest first; undone ones stay, marked."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.desk.desk import Desk
from rebuild.window.desk.live_page import LivePage
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.fitted import FittedColumns
from rebuild.work.records import rows_history

_COLUMNS = ("When", "What", "State")


class HistoryPage(LivePage):
    """The journal as a list a person can read, with undo and redo by name."""

    shows = (rows_history,)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, "History", parent)
        self._find = QLineEdit()
        self._find.setPlaceholderText("Find in the history")
        self._find.setAccessibleName("Find in the history")
        self._undo = QPushButton()
        self._redo = QPushButton()
        self.table = QTableWidget(0, len(_COLUMNS))
        self._build()
        self._find.textChanged.connect(self._narrow)
        self._undo.clicked.connect(desk.undo)
        self._redo.clicked.connect(desk.redo)

    def _build(self) -> None:
        self.table.setAccessibleName("Acts, newest first")
        self.table.setHorizontalHeaderLabels(_COLUMNS)
        self.table.verticalHeader().hide()
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setShowGrid(False)
        self.table.setTabKeyNavigation(False)
        header = self.table.horizontalHeader()
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setHighlightSections(False)
        self.columns = FittedColumns(self.table)
        EmptyState(
            self.table, "Everything done to this file stands here, newest first; each act can be undone."
        )
        top = QHBoxLayout()
        top.addWidget(self._find, 1)
        top.addWidget(self._undo)
        top.addWidget(self._redo)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 8)
        layout.addLayout(top)
        layout.addWidget(self.table)

    def refresh(self) -> None:
        """Read the journal again."""
        if not self._desk.is_open:
            self.table.setRowCount(0)
            return
        acts = rows_history.acts(self._desk.store, most=1000)
        self.table.setRowCount(len(acts))
        for row, act in enumerate(acts):
            words = (f"{act.at:%Y-%m-%d %H:%M}", act.label, "undone" if act.undone else "")
            for column, text in enumerate(words):
                item = QTableWidgetItem(text)
                font = item.font()
                font.setStrikeOut(act.undone and column == 1)
                item.setFont(font)
                self.table.setItem(row, column, item)
        undo, redo = self._desk.store.undo_label(), self._desk.store.redo_label()
        self._undo.setText(f"Undo {_short(undo)}" if undo else "Nothing to undo")
        self._undo.setEnabled(bool(undo))
        self._redo.setText(f"Redo {_short(redo)}" if redo else "Nothing to redo")
        self._redo.setEnabled(bool(redo))
        self._narrow(self._find.text())

    def _narrow(self, text: str) -> None:
        for row in range(self.table.rowCount()):
            item = self.table.item(row, 1)
            self.table.setRowHidden(row, item is not None and text.lower() not in item.text().lower())

    def keyPressEvent(self, event: object) -> None:
        """Esc clears the search."""
        if getattr(event, "key", lambda: None)() == Qt.Key.Key_Escape and self._find.text():
            self._find.clear()
            return
        super().keyPressEvent(event)  # type: ignore[arg-type]


def _short(words: str | None) -> str:
    text = words or ""
    return text if len(text) <= 48 else f"{text[:47]}…"
