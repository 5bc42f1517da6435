"""Controls in a row that goes on in a further row where there is no room: with large text, or in a narrow window."""

from __future__ import annotations

from collections.abc import Collection

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget, QWidgetItem

_SPACE = 5


class WrappedRow(QLayout):
    """Rows from the left, each as high as its highest control; ``stretched`` ones take what a row leaves over."""

    def __init__(self, stretched: Collection[QWidget] = (), space: int = _SPACE) -> None:
        super().__init__()
        self._items: list[QLayoutItem] = []
        self._stretched = set(stretched)
        self._space = space
        self._high = 0
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def insertWidget(self, at: int, widget: QWidget) -> None:
        """Put a control before the ``at``-th."""
        self.addChildWidget(widget)
        self._items.insert(at, QWidgetItem(widget))
        self.invalidate()

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def sizeHint(self) -> QSize:
        """As wide as all of them in one row; as high as the rows they go on in now.

        A height told for each width would make every layout above ask for one, and those share out worse.
        """
        shown = self._shown()
        wide = sum(item.sizeHint().width() for item in shown) + self._space * max(0, len(shown) - 1)
        return QSize(wide, max([self._high, *(item.sizeHint().height() for item in shown)]))

    def minimumSize(self) -> QSize:
        """As wide as the widest control, and as high as the rows it goes on in now."""
        shown = self._shown()
        return QSize(
            max((item.minimumSize().width() for item in shown), default=0),
            max([self._high, *(item.minimumSize().height() for item in shown)]),
        )

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        high = self._place(rect)
        if high != self._high:
            self._high = high
            self.invalidate()
            if (holder := self.parentWidget()) is not None:
                holder.updateGeometry()

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _rows(self, width: int) -> list[list[QLayoutItem]]:
        rows: list[list[QLayoutItem]] = []
        used = width + 1
        for item in self._shown():
            wide = self._wide(item)
            if not rows or used + self._space + wide > width:
                rows.append([])
                used = -self._space
            rows[-1].append(item)
            used += self._space + wide
        return rows

    def _wide(self, item: QLayoutItem) -> int:
        """What an item asks for at the least: a stretched one is not given more than it needs until a row is full."""
        return item.minimumSize().width() if item.widget() in self._stretched else item.sizeHint().width()

    def _place(self, rect: QRect) -> int:
        y = rect.y()
        for row in self._rows(rect.width()):
            high = max(item.sizeHint().height() for item in row)
            self._place_row(row, QRect(rect.x(), y, rect.width(), high))
            y += high + self._space
        return max(0, y - self._space - rect.y())

    def _place_row(self, row: list[QLayoutItem], rect: QRect) -> None:
        taken = sum(self._wide(item) for item in row) + self._space * (len(row) - 1)
        taking = [item for item in row if item.widget() in self._stretched]
        more = max(0, rect.width() - taken) // len(taking) if taking else 0
        x = rect.x()
        for item in row:
            wide = min(self._wide(item) + (more if item in taking else 0), rect.width())
            high = min(item.sizeHint().height(), rect.height())
            item.setGeometry(QRect(QPoint(x, rect.y() + (rect.height() - high) // 2), QSize(wide, high)))
            x += wide + self._space
