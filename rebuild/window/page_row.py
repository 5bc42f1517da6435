"""A row of names to turn pages with: quiet words on a rule, the open one standing on a thick line."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QHBoxLayout, QSizePolicy, QWidget

SIDE = 9
LEAST_SIDE = 4
RULE = 3


class PageName(QAbstractButton):
    """One name. Chosen: a thick line beneath; under the pointer or the keyboard: a thin one."""

    def __init__(self, text: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setText(text)
        self.setCheckable(True)
        self.setAccessibleName(text)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        metrics = self.fontMetrics()
        return QSize(metrics.horizontalAdvance(self.text()) + 2 * SIDE, metrics.height() + 10)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint() - QSize(2 * (SIDE - LEAST_SIDE), 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = self.palette()
        chosen, near = self.isChecked(), self.underMouse() or self.hasFocus()
        role = QPalette.ColorRole.WindowText if chosen or near else QPalette.ColorRole.PlaceholderText
        painter.setPen(colours.color(role))
        painter.drawText(self.rect().adjusted(0, 0, 0, -RULE), Qt.AlignmentFlag.AlignCenter, self.text())
        line = self.rect().adjusted(2, self.height() - RULE, -2, 0)
        if chosen:
            painter.fillRect(line, colours.color(QPalette.ColorRole.WindowText))
        elif near:
            painter.fillRect(
                line.adjusted(0, RULE - 1, 0, 0), colours.color(QPalette.ColorRole.PlaceholderText)
            )
        if self.hasFocus():
            pen = painter.pen()
            pen.setStyle(Qt.PenStyle.DotLine)
            painter.setPen(pen)
            painter.drawRect(self.rect().adjusted(1, 1, -2, -RULE - 2))
        painter.end()

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.update()
        return super().event(event)


class PageRow(QWidget):
    """The names in a row; left and right arrows go along it."""

    asked = Signal(str)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._keys: list[str] = []
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self._group.idClicked.connect(lambda place: self.asked.emit(self._keys[place]))
        self._line = QHBoxLayout(self)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.setSpacing(0)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Preferred)

    def offer(self, names: Sequence[tuple[str, str, str]]) -> None:
        """Fill the row once with (key, name, help)."""
        for key, text, told in names:
            button = PageName(text, self)
            button.setToolTip(told)
            button.setAccessibleDescription(told)
            self._group.addButton(button, len(self._keys))
            self._keys.append(key)
            self._line.addWidget(button)

    def show_chosen(self, key: str) -> None:
        """Mark one name as open."""
        if key in self._keys:
            self._group.button(self._keys.index(key)).setChecked(True)

    def name_of(self, key: str) -> PageName:
        """The name of one key."""
        found = self._group.button(self._keys.index(key))
        assert isinstance(found, PageName)
        return found

    @property
    def chosen(self) -> str:
        """The key of the open name."""
        place = self._group.checkedId()
        return self._keys[place] if place >= 0 else ""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if step is None or not self._keys:
            super().keyPressEvent(event)
            return
        place = (self._group.checkedId() + step) % len(self._keys)
        self._group.button(place).setFocus()
        self._group.button(place).click()
