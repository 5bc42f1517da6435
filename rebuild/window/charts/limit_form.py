"""What is allowed at the chosen position, with where it comes from; other known values to choose from."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox, QGridLayout, QMenu, QPushButton, QToolButton, QWidget

from rebuild.window.desk.desk import Desk
from rebuild.window.forms.whole_line import WholeLine
from rebuild.window.layout.plain import PlainLabel, plain_tip
from rebuild.words.charts import LimitStatus
from rebuild.work.charts.acts import set_allowed, take_library_limit
from rebuild.work.charts.rows_tests import LineRow


class LimitForm(QWidget):
    """Allowed, origin and status; ``Set`` stores all three as one act."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._line: LineRow | None = None
        self.allowed = WholeLine()
        self.allowed.setPlaceholderText("so much per length; empty: no figure known")
        self.origin = WholeLine()
        self.origin.setPlaceholderText("where it comes from")
        self.status = QComboBox()
        for status in LimitStatus:
            self.status.addItem(status.value)
        self.status.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.status.setMinimumContentsLength(5)
        self.set = QPushButton("Store l&imit")
        self.others = QToolButton()
        self.others.setText("Known values\u2002")  # room for the arrow
        self.others.setAccessibleName("Known values")
        self.others.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        known = QMenu(self.others)
        known.setAccessibleName("Known values")
        self.others.setMenu(known)
        self.said = PlainLabel()
        self.said.setWordWrap(True)
        self._lay_out()
        self.set.clicked.connect(self.store)
        for edit in (self.allowed, self.origin):
            edit.returnPressed.connect(self.store)
        self.show_line(None)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 4, 0, 0)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(3)
        for row, (words, widget) in enumerate(
            (("Limit", self.allowed), ("Source", self.origin), ("Source status", self.status))
        ):
            label = PlainLabel(words)
            label.setBuddy(widget)
            widget.setAccessibleName(words)
            grid.addWidget(label, row, 0)
            grid.addWidget(widget, row, 1)
        grid.addWidget(self.others, 0, 2)
        grid.addWidget(self.set, 2, 2)
        grid.addWidget(self.said, 3, 0, 1, 3)
        grid.setColumnStretch(1, 1)

    def show_line(self, line: LineRow | None) -> None:
        """Show the limit of another position; what is being typed for the same one stays."""
        same = line is not None and self._line is not None and line.id == self._line.id
        typing = same and (self.allowed.isModified() or self.origin.isModified())
        self._line = line
        self.setEnabled(line is not None)
        menu = self.others.menu()
        menu.clear()
        if line is None:
            return
        if not typing:
            self.allowed.setText(line.limit.text)
            self.origin.setText(line.origin)
            self.origin.setCursorPosition(0)
            self.origin.setToolTip(plain_tip(line.origin))
            self.status.setCurrentIndex(self.status.findText(line.status.value))
        for at, limit in enumerate(line.listed):
            action = menu.addAction(f"{limit.text() or 'no figure known'}: {limit.origin} ({limit.status})")
            action.triggered.connect(lambda _checked=False, which=at: self.take(which))
        self.others.setEnabled(bool(line.listed))
        self.said.setText(self._about(line))

    def _about(self, line: LineRow) -> str:
        if line.edited:
            return (
                f"Changed here; the list says {line.listed[0].text() or 'nothing'} ({line.listed[0].status})."
            )
        sure = (
            "" if line.status is LimitStatus.PUBLISHED else " It does not pass or fail a machine by itself."
        )
        return f"{line.status.value.capitalize()}.{sure}"

    def store(self) -> None:
        """Store the limit as typed; trouble is said and the text stays."""
        line = self._line
        if line is None:
            return
        if self._desk.attempt(lambda: self._put(line.id)):
            self.allowed.setModified(False)
            self.origin.setModified(False)

    def _put(self, line_id: int) -> bool:
        set_allowed(
            self._desk.store,
            [line_id],
            self.allowed.text(),
            origin=self.origin.text(),
            status=LimitStatus(self.status.currentText()),
        )
        return True

    def take(self, which: int) -> None:
        """Take one of the known values."""
        line = self._line
        if line is not None:
            self.allowed.setModified(False)
            self.origin.setModified(False)
            self._desk.attempt(lambda: take_library_limit(self._desk.store, line.id, which))
