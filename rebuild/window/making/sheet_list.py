"""The making sheets of the machine, by where they stand."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLineEdit,
    QPushButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from rebuild.window.ink.shapes import Shape, shape_icon
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.window.lists.empty_state import EmptyState
from rebuild.window.lists.fitted import FittedColumns
from rebuild.words.counted import counted
from rebuild.work.making.rows import SheetRow, SheetState

_ID = Qt.ItemDataRole.UserRole
#: In the order one looks for them at the bench.
ORDER = (
    SheetState.BEING_MADE, SheetState.READY, SheetState.WAITING, SheetState.DRAFT, SheetState.MADE,
    SheetState.ACCEPTED, SheetState.SCRAPPED,
)  # fmt: skip
MARKS = {
    SheetState.DRAFT: Shape.OPEN, SheetState.WAITING: Shape.WAITS, SheetState.READY: Shape.TO_DO,
    SheetState.BEING_MADE: Shape.UNDER_WAY, SheetState.MADE: Shape.UNDECIDED, SheetState.ACCEPTED: Shape.DONE,
    SheetState.SCRAPPED: Shape.LEFT_OUT,
}  # fmt: skip
STALE = "stale"


class SheetList(QWidget):
    """One sheet is chosen; its state is the heading it stands under."""

    chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows: dict[int, SheetRow] = {}
        self._filling = False
        self.search = QLineEdit(self)
        self.search.setPlaceholderText("Find a sheet")
        self.search.setAccessibleName("Find a making sheet")
        self.search.setClearButtonEnabled(True)
        self.tree = QTreeWidget(self)
        self.tree.setAccessibleName("Making sheets")
        self.tree.setHeaderLabels(["Sheet", ""])
        self.tree.setRootIsDecorated(False)
        self.tree.setItemsExpandable(False)
        self.tree.setIndentation(10)
        self.tree.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        FittedColumns(self.tree)
        EmptyState(self.tree, "Sheets to make parts by. Choose a part, then:", "New sheet", self._press_new)
        self.tree.setHeaderHidden(True)
        self.new_button = QPushButton("&New sheet for the chosen part", self)
        self.new_button.setToolTip("Filled with all that is known: mates, limits, steps, tools")
        self.about = PlainLabel(self)
        self.about.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(4)
        for widget in (self.search, self.tree, self.about, self.new_button):
            layout.addWidget(widget, 1 if widget is self.tree else 0)
        self.search.textChanged.connect(lambda _text: self._fill())
        self.tree.currentItemChanged.connect(self._current)

    @property
    def key(self) -> int | None:
        """The chosen sheet."""
        item = self.tree.currentItem()
        found = item.data(0, _ID) if item is not None else None
        return int(found) if found else None

    def show_rows(self, rows: Sequence[SheetRow]) -> None:
        """Show the sheets, the chosen one kept."""
        self._rows = {row.id: row for row in rows}
        self._fill()

    def choose(self, sheet_id: int) -> None:
        """Choose a sheet, the filter taken off when it hides it."""
        if self._item(sheet_id) is None and self.search.text():
            self.search.clear()
        item = self._item(sheet_id)
        if item is not None:
            self.tree.setCurrentItem(item)
            self.tree.scrollToItem(item)

    def _item(self, sheet_id: int) -> QTreeWidgetItem | None:
        for at in range(self.tree.topLevelItemCount()):
            head = self.tree.topLevelItem(at)
            for place in range(head.childCount() if head is not None else 0):
                item = head.child(place) if head is not None else None
                if item is not None and item.data(0, _ID) == sheet_id:
                    return item
        return None

    def _fill(self) -> None:
        key = self.key
        self._filling = True
        self.tree.clear()
        words = self.search.text().lower().split()
        shown = [row for row in self._rows.values() if all(word in _sought(row) for word in words)]
        for state in ORDER:
            own = [row for row in shown if row.state is state]
            if own:
                self._put(state, own)
        self.tree.expandAll()
        stale = sum(bool(row.stale) for row in self._rows.values())
        self.about.setText(f"{counted(len(self._rows), 'sheet')}" + (f", {stale} stale" if stale else ""))
        self._filling = False
        kept = self._item(key) if key is not None else None
        first = self.tree.topLevelItem(0)
        if kept is None and first is not None:
            kept = first.child(0)
        if kept is not None:
            self.tree.setCurrentItem(kept)
        else:
            self.chosen.emit(0)

    def _put(self, state: SheetState, rows: Sequence[SheetRow]) -> None:
        head = QTreeWidgetItem([f"{state.value} ({len(rows)})"])
        head.setFlags(Qt.ItemFlag.ItemIsEnabled)
        font = self.font()
        font.setBold(True)
        head.setFont(0, font)
        self.tree.addTopLevelItem(head)
        head.setFirstColumnSpanned(True)
        for row in rows:
            item = QTreeWidgetItem([row.title, STALE if row.stale else ""])
            item.setIcon(0, shape_icon(MARKS[state]))
            item.setData(0, _ID, row.id)
            item.setToolTip(0, plain_tip("\n".join((row.title, row.shape.value, *row.waits, *row.stale))))
            head.addChild(item)

    def _press_new(self) -> None:
        self.new_button.click()

    def _current(self, item: QTreeWidgetItem | None) -> None:
        if not self._filling:
            found = item.data(0, _ID) if item is not None else None
            self.chosen.emit(int(found) if found else 0)


def _sought(row: SheetRow) -> str:
    return f"{row.title} {row.shape.value} {row.state.value} {row.subassembly}".lower()
