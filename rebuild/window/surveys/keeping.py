"""A cell editor that comes back with its text when what was typed could not be stored."""

from __future__ import annotations

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QPersistentModelIndex, QTimer
from PySide6.QtWidgets import QAbstractItemView, QLineEdit, QStyledItemDelegate, QWidget


class KeepingDelegate(QStyledItemDelegate):
    """Nothing typed is lost: a refused text stands in the reopened cell, selected."""

    def __init__(self, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._view = view

    def setModelData(
        self, editor: QWidget, model: QAbstractItemModel, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """Store the text, or open the cell again with it."""
        if not isinstance(editor, QLineEdit):
            super().setModelData(editor, model, index)
            return
        text = editor.text()
        if not model.setData(index, text):
            again = QPersistentModelIndex(index)
            QTimer.singleShot(0, self, lambda: self._reopen(again, text))

    def _reopen(self, index: QPersistentModelIndex, text: str) -> None:
        if not index.isValid():
            return
        here = index.model().index(index.row(), index.column())
        self._view.setCurrentIndex(here)
        self._view.edit(here)
        editor = self._view.indexWidget(here) or self._view.findChild(QLineEdit)
        if isinstance(editor, QLineEdit):
            editor.setText(text)
            editor.selectAll()
