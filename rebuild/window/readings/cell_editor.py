"""Typing into a cell: Enter stores, and on trouble the text stays where it was typed."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QLineEdit,
    QStyleOptionViewItem,
    QWidget,
)

from rebuild.window.readings.delegates import LoweredDelegate
from rebuild.window.readings.model import DRAFT

_Index = QModelIndex | QPersistentModelIndex
Take = Callable[[_Index, str, str], bool]

_ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab, Qt.Key.Key_Backtab)


class CellEditor(QLineEdit):
    """A cell's editor; knows its cell and whether its text has found its place."""

    def __init__(self, cell: QPersistentModelIndex, parent: QWidget) -> None:
        super().__init__(parent)
        self.cell = cell
        self.first = ""
        self.settled = False
        self.setFrame(False)

    @property
    def unsaved(self) -> bool:
        """Something was typed here that is neither stored nor given up."""
        return not self.settled and self.text().strip() != self.first.strip()


class CellDelegate(LoweredDelegate):
    """Editors for spec and stage cells.

    Args:
        take: stores the typed text of a cell, given what stood there when typing began; returns whether it
            found its place. It says why not itself.
        park: keeps (or with None gives up) a text that could not be stored when its editor had to close.
            Also called when an editor goes away unasked, because its row is being removed.
        entered: called when Enter has stored a text: what is typed next belongs to the next row.
    """

    def __init__(
        self,
        take: Take,
        park: Callable[[_Index, str | None], None],
        parent: QObject | None = None,
        entered: Callable[[], None] = lambda: None,
    ) -> None:
        super().__init__(parent)
        self._take = take
        self._park = park
        self._entered = entered

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: _Index) -> QWidget:
        editor = CellEditor(QPersistentModelIndex(index), parent)
        heading = index.model().headerData(index.column(), Qt.Orientation.Horizontal)
        editor.setAccessibleName(str(heading))
        return editor

    def setEditorData(self, editor: QWidget, index: _Index) -> None:
        if isinstance(editor, CellEditor) and not editor.isModified():
            text = str(index.data(Qt.ItemDataRole.EditRole) or "")
            editor.setText(text)
            editor.first = "" if index.data(DRAFT) else text

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: _Index) -> None:
        if isinstance(editor, CellEditor) and editor.unsaved:
            editor.settled = True
            if not self._take(index, editor.text(), editor.first):
                self._park(index, editor.text())

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:
        if isinstance(editor, CellEditor) and isinstance(event, QKeyEvent):
            if event.type() == QEvent.Type.KeyPress and event.key() in _ENDS:
                return self._end(editor, Qt.Key(event.key()))
            if event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Escape:
                editor.settled = True
                self._park(editor.cell, None)
        gone = isinstance(editor, CellEditor) and (editor.settled or not editor.isVisible())
        if gone and event.type() is QEvent.Type.FocusOut:
            # The view has let this editor go already (its row is being removed) and would warn.
            return False
        return super().eventFilter(editor, event)

    def _end(self, editor: CellEditor, key: Qt.Key) -> bool:
        """Store and close; on trouble the editor stays open with its text."""
        unsaved = editor.unsaved
        if unsaved and not self._take(editor.cell, editor.text(), editor.first):
            editor.selectAll()
            return True
        editor.settled = True
        hints = {
            Qt.Key.Key_Tab: QAbstractItemDelegate.EndEditHint.EditNextItem,
            Qt.Key.Key_Backtab: QAbstractItemDelegate.EndEditHint.EditPreviousItem,
        }
        self.closeEditor.emit(editor, hints.get(key, QAbstractItemDelegate.EndEditHint.NoHint))
        if unsaved and key not in hints:
            self._entered()
        return True

    def destroyEditor(self, editor: QWidget, index: _Index) -> None:
        if isinstance(editor, CellEditor) and editor.unsaved:
            editor.settled = True
            self._park(editor.cell, editor.text())
        super().destroyEditor(editor, index)
