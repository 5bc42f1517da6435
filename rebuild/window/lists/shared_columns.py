"""Columns that share a table's width by weight, as far as each keeps its least."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QHeaderView, QTableView


class SharedColumns(QObject):
    """Keeps the columns of a table in proportion when it is resized; the user's own widths hold until then.

    ``least`` and ``weights`` are in average characters and plain shares; a weight of 0 keeps the least.
    """

    def __init__(self, table: QTableView, least: Sequence[int], weights: Sequence[float]) -> None:
        super().__init__(table)
        self._table, self._weights = table, list(weights)
        unit = table.fontMetrics().averageCharWidth()
        self._least = [width * unit + 12 for width in least]
        header = table.horizontalHeader()
        header.setStretchLastSection(False)
        header.setMinimumSectionSize(24)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self.share()
        table.viewport().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self.share()
        return False

    def share(self) -> None:
        """Give each column its least and its share of what is left."""
        spare = max(0, self._table.viewport().width() - sum(self._least))
        whole = sum(self._weights) or 1.0
        for column, (least, weight) in enumerate(zip(self._least, self._weights, strict=True)):
            self._table.setColumnWidth(column, least + int(spare * weight / whole))
