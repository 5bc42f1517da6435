"""A row of names to turn pages with: quiet words on a rule, the open one standing on a thick line."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPoint, QSize, Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent, QPainter, QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QMenu, QSizePolicy, QWidget

from rebuild.window.layout.page_fit import fit

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

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.update()
        return super().event(event)


class PageRow(QWidget):
    """The names in a row; left and right arrows go along it. Those there is no room for are under *More*."""

    asked = Signal(str)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._keys: list[str] = []
        self._names: list[PageName] = []
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self._group.idClicked.connect(self._ask)
        self.more = PageName("More…", self)
        self.more.setCheckable(False)
        self.more.setAccessibleName("More pages")
        self.more.setToolTip("Pages there is no room for")
        self.more.clicked.connect(self._open_more)
        self.more.hide()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)

    def offer(self, names: Sequence[tuple[str, str, str]]) -> None:
        """Fill the row once with (key, name, help)."""
        for key, text, told in names:
            button = PageName(text, self)
            button.setToolTip(told)
            button.setAccessibleDescription(told)
            self._group.addButton(button, len(self._keys))
            self._keys.append(key)
            self._names.append(button)
        self.more.raise_()
        self.updateGeometry()
        self._place()

    def show_chosen(self, key: str) -> None:
        """Mark one name as open."""
        if key in self._keys:
            self._group.button(self._keys.index(key)).setChecked(True)
            self._place()

    def name_of(self, key: str) -> PageName:
        """The name of one key."""
        return self._names[self._keys.index(key)]

    @property
    def names(self) -> list[PageName]:
        """The names, left to right."""
        return list(self._names)

    @property
    def chosen(self) -> str:
        """The key of the open name."""
        place = self._group.checkedId()
        return self._keys[place] if place >= 0 else ""

    @property
    def hidden(self) -> list[str]:
        """The keys of the names there is no room for."""
        return [key for key, name in zip(self._keys, self._names, strict=True) if name.isHidden()]

    def sizeHint(self) -> QSize:
        hints = [name.sizeHint() for name in self._names] or [QSize(0, self.more.sizeHint().height())]
        return QSize(sum(hint.width() for hint in hints), max(hint.height() for hint in hints))

    def minimumSizeHint(self) -> QSize:
        widest = max((name.minimumSizeHint().width() for name in self._names), default=0)
        return QSize(widest + self.more.minimumSizeHint().width(), self.sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._place()

    def _place(self) -> None:
        """Give each name its place; what does not fit hides."""
        texts = [name.sizeHint().width() - 2 * SIDE for name in self._names]
        shown, side = fit(
            texts,
            self.more.sizeHint().width() - 2 * SIDE,
            self.width(),
            (SIDE, LEAST_SIDE),
            self._group.checkedId(),
        )
        left = 0
        for place, name in enumerate(self._names):
            name.setVisible(place in shown)
            if place in shown:
                name.setGeometry(left, 0, texts[place] + 2 * side, self.height())
                left += name.width()
        self.more.setVisible(len(shown) < len(self._names))
        self.more.setGeometry(left, 0, self.more.sizeHint().width() - 2 * (SIDE - side), self.height())

    def _open_more(self) -> None:
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for key in self.hidden:
            name = self.name_of(key)
            action = QAction(name.text(), menu)
            action.setToolTip(name.toolTip())
            action.triggered.connect(name.click)
            menu.addAction(action)
        menu.popup(self.more.mapToGlobal(QPoint(0, self.more.height())))

    def _ask(self, place: int) -> None:
        self._place()
        self.asked.emit(self._keys[place])

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}.get(Qt.Key(event.key()))
        if step is None or not self._keys:
            super().keyPressEvent(event)
            return
        place = (self._group.checkedId() + step) % len(self._keys)
        self._group.button(place).click()
        self._group.button(place).setFocus()
