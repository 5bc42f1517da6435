"""Controls in one row where there is room, in two where there is not."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from PySide6.QtCore import QEvent, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QWidget

_SPACE = 5


class TwoRows(QWidget):
    """Two groups of controls side by side, or one under the other when they do not fit."""

    def __init__(
        self,
        first: Sequence[QWidget],
        second: Sequence[QWidget],
        stretched: Collection[QWidget] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._whole = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._whole.setContentsMargins(0, 0, 0, 0)
        self._whole.setSpacing(_SPACE)
        self._groups = []
        for widgets in (first, second):
            row = QHBoxLayout()
            row.setSpacing(_SPACE)
            for widget in widgets:
                row.addWidget(widget, 1 if widget in stretched else 0)
            gives_way = any(widget in stretched for widget in widgets)
            if not gives_way:
                row.addStretch(1)
            self._whole.addLayout(row, 1 if gives_way else 0)
            self._groups.append(row)

    @property
    def in_two(self) -> bool:
        """Whether the groups stand one under the other now."""
        return self._whole.direction() == QBoxLayout.Direction.TopToBottom

    def minimumSizeHint(self) -> QSize:
        """As narrow as the wider group alone."""
        sizes = [group.minimumSize() for group in self._groups]
        tall = max(size.height() for size in sizes)
        return QSize(max(size.width() for size in sizes), 2 * tall + _SPACE if self.in_two else tall)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._choose()

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest:  # a control came or went
            self._choose()
        return done

    def _choose(self) -> None:
        wanted = sum(group.sizeHint().width() for group in self._groups) + _SPACE
        narrow = self.width() < wanted
        if narrow != self.in_two:
            way = QBoxLayout.Direction.TopToBottom if narrow else QBoxLayout.Direction.LeftToRight
            self._whole.setDirection(way)
            self.updateGeometry()
