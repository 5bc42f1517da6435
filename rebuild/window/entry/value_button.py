"""A value just sent, as a button of two lines: the number, never cut, and under it the end of where it lies."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import (
    QSizePolicy,
    QStyle,
    QStyleOptionToolButton,
    QStylePainter,
    QToolButton,
    QWidget,
)

from rebuild.window.layout.plain import plain_tip

_PAD = 5
#: A place shows at least so many letters of its end: the station and the stage.
_LEAST_PLACE = 16


class ValueButton(QToolButton):
    """``show_value(number, place)``; a place too long gives way at its beginning, for its end tells rows apart."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.number = self.place = ""
        self.setAutoRaise(True)
        self.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_value(self, number: str, place: str) -> None:
        """The number with its key, and where it lies."""
        self.number, self.place = number, place
        self.setToolTip(plain_tip(f"{number} → {place}"))
        self.updateGeometry()
        self.update()

    def minimumSizeHint(self) -> QSize:
        metrics = self.fontMetrics()
        wide = max(metrics.horizontalAdvance(self.number), _LEAST_PLACE * metrics.averageCharWidth())
        return QSize(wide + 2 * _PAD, two_lines(self))

    def sizeHint(self) -> QSize:
        wide = self.fontMetrics().horizontalAdvance(self.place) + 2 * _PAD
        return self.minimumSizeHint().expandedTo(QSize(wide, 0))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QStylePainter(self)
        option = QStyleOptionToolButton()
        self.initStyleOption(option)
        option.text = ""
        option.features = QStyleOptionToolButton.ToolButtonFeature.None_
        painter.drawComplexControl(QStyle.ComplexControl.CC_ToolButton, option)
        space, line = self.rect().adjusted(_PAD, 2, -_PAD, -2), self.fontMetrics().lineSpacing()
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.setPen(self.palette().color(self.foregroundRole()))
        painter.drawText(QRect(space.left(), space.top(), space.width(), line), left, self.number)
        end = self.fontMetrics().elidedText(self.place, Qt.TextElideMode.ElideLeft, space.width())
        painter.setPen(self.palette().color(self.palette().ColorRole.PlaceholderText))
        painter.drawText(QRect(space.left(), space.top() + line, space.width(), line), left, end)


def two_lines(widget: QWidget) -> int:
    """The height [px] of two lines of text with a little air."""
    return 2 * widget.fontMetrics().lineSpacing() + 4
