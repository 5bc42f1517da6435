"""How much time there is tonight: the next actions are then those that fit, or the part of them that does."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from rebuild.errors import RebuildError
from rebuild.trade.sizes.amounts import parse_minutes
from rebuild.window.desk.desk import Desk
from rebuild.window.desk.pane_trouble import PaneTrouble
from rebuild.window.layout.plain import PlainLabel
from rebuild.work.plan.rows_tonight import Tonight
from rebuild.work.records.rows_settings import decimal_comma

_LETTERS = 20


class TonightField(QWidget):
    """One field, the same as in Plan; empty is any time. ``changed``: the evening is another now."""

    changed = Signal()
    #: It is asked and never stored: nothing typed in it can be lost.
    asks_only = True

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.minutes = QLineEdit(desk.evening)
        self.minutes.setAccessibleName("Time there is tonight")
        self.minutes.setPlaceholderText("any: 45 min, 2 h")
        self.minutes.setFixedWidth(self.fontMetrics().averageCharWidth() * _LETTERS)
        self.trouble = PaneTrouble(desk, (self.minutes,), self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        for widget in (PlainLabel("Tonight"), self.minutes, self.trouble):
            row.addWidget(widget)
        row.addStretch(1)
        self.minutes.textEdited.connect(desk.say_evening)
        self.minutes.textChanged.connect(lambda _text: self.changed.emit())
        desk.evening_changed.connect(self._hear)

    def _hear(self) -> None:
        if self._desk.evening != self.minutes.text():
            self.minutes.setText(self._desk.evening)

    def tonight(self) -> Tonight | None:
        """The evening as typed; None when nothing was, or when it is no time, which is said."""
        text = self.minutes.text().strip()
        if not text:
            self.trouble.end()
            return None
        try:
            comma = decimal_comma(self._desk.store) if self._desk.is_open else None
            minutes = parse_minutes(text, "Time", decimal_comma=comma)
        except RebuildError as trouble:
            self.trouble.tell(trouble)
            return None
        self.trouble.end()
        return Tonight(minutes)
